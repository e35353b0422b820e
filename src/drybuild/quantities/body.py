"""The car's size as it will stand: wheelbase, track, and where the ground is."""

from __future__ import annotations

import numpy as np

from drybuild.project.arches import Arches
from drybuild.project.body import Body
from drybuild.project.samples import Values
from drybuild.project.suspension import FrontSuspension, RearSuspension, Suspension
from drybuild.project.tyres import Tyres
from drybuild.quantities.axles import FRONT, REAR, each_axle
from drybuild.quantities.quantity import Labelled, quantity


@quantity("m", "Wheelbase", source="the-build-file", shown="mm")
def wheelbase(body: Body) -> Values:
    """Return it as measured."""
    return body.wheelbase


@quantity("m", "Front track before the wheels count", source="the-build-file", shown="mm")
def front_track(body: Body, front_suspension: FrontSuspension) -> Values:
    """Add what the suspension changes to the car's own track."""
    return body.front_track + signed(front_suspension, "track_change", body.front_track)


@quantity("m", "Rear track before the wheels count", source="the-build-file", shown="mm")
def rear_track(body: Body, rear_suspension: RearSuspension) -> Values:
    """Add what the suspension changes to the car's own track."""
    return body.rear_track + signed(rear_suspension, "track_change", body.rear_track)


@quantity(
    "m", "Track on the picked suspension and wheels", per="axle", source="definition", shown="mm"
)
def track(front_track: Values, rear_track: Values, track_change: Labelled) -> Labelled:
    """Add what the wheels' offset changes."""
    return {
        FRONT: front_track + track_change[FRONT],
        REAR: rear_track + track_change[REAR],
    }


@quantity("m", "Change of the ride height", per="axle", source="definition", shown="mm")
def ride_height_change(
    body: Body,
    front_suspension: FrontSuspension,
    rear_suspension: RearSuspension,
    arches: Arches,
    tyres: Tyres,
    tyre_outside_diameter: Labelled,
    adjusted_height: Labelled,
) -> Labelled:
    """Add what springs and mounts raise or lower each end by, and half of what the tyres grow.

    The tyres count where the file says how large the old ones were; people and fuel are left out.
    """
    ends: dict[str, Suspension] = {FRONT: front_suspension, REAR: rear_suspension}

    def change(axle: str) -> Values:
        by_suspension = signed(ends[axle], "ride_height_change", body.ride_height)
        by_suspension = by_suspension + adjusted_height[axle]
        if tyres.unknown or not arches.has("outside_diameter"):
            return by_suspension
        return by_suspension + (tyre_outside_diameter[axle] - arches.outside_diameter) / 2.0

    return each_axle(change)


@quantity("m", "Sill seam over the road", per="axle", source="definition", shown="mm")
def ride_height(body: Body, ride_height_change: Labelled) -> Labelled:
    """Follow the sill seam's line to the axles; the seam is level as the car stands."""
    return {axle: body.ride_height + change for axle, change in ride_height_change.items()}


@quantity("m", "Lowest point over the road", source="definition", shown="mm")
def ground_clearance(body: Body, ride_height_change: Labelled) -> Values:
    """Add the mean of what both ends change to the clearance as measured."""
    change = (ride_height_change[FRONT] + ride_height_change[REAR]) / 2.0
    return body.ground_clearance + change


def signed(suspension: Suspension, name: str, like: Values) -> Values:
    """Return a change that a suspension brings; nothing where it names none."""
    return getattr(suspension, name) if suspension.has(name) else np.zeros_like(like)
