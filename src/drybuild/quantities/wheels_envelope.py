"""Gaps between the tyres and their arches over all of the wheels' motion."""

from __future__ import annotations

from functools import lru_cache

import numpy as np

from drybuild.errors import DoesNotApply, MissingInput
from drybuild.physics.envelope.gaps import Fitted, Gap, least_gaps
from drybuild.physics.envelope.outline import growth_at_speed, tyre_outline
from drybuild.physics.envelope.rim import Pieces, disc_plate, drop_centre, measured_barrel
from drybuild.physics.envelope.widest import Air, wanted_air
from drybuild.physics.wheels import FLANGE_THICKNESS
from drybuild.project.arches import Arches
from drybuild.project.brief import Brief
from drybuild.project.samples import Values
from drybuild.project.tyres import Tyres
from drybuild.project.wheels import Wheels
from drybuild.quantities.axles import FRONT, REAR, constant
from drybuild.quantities.quantity import Labelled, quantity, step
from drybuild.quantities.tyres import RIM_STEP, TyreShape
from drybuild.quantities.wheels_room import Rooms

AIR = Air(aside=0.006, above=0.010)
"""The trade's least: 6 to 10 mm beside, 10 to 15 mm above; common practice, no source."""
GROWTH_SPEED = 160.0 / 3.6
"""Speed that growth is given for. [m/s]"""
NO_ARCH = "the arch itself is not measured; the gaps round today's tyre serve"
NOT_ON_RIM = "the tyre does not go on these rims"
NOTHING_NEAR = "nothing of it comes near the tyre: are the places told from the wheel's centre?"
Envelopes = dict[str, tuple[Gap, ...]]
"""Gaps by axle; empty where the arch itself was not measured."""


@step("Outline of the mounted tyres, with their spreads", source="un-r30")
def fitted_tyres(
    tyre_shape: TyreShape,
    tyre_section_width: Labelled,
    bead_seat_diameter: Labelled,
    wheel_diameter: Labelled,
    wheel_width: Labelled,
    wheel_offset: Labelled,
    track_change: Labelled,
    wheels: Wheels,
    tyres: Tyres,
    brief: Brief,
) -> dict[str, Fitted]:
    """Add growth at the usual fast speed; what makers' tyres differ by is their spread.

    A tyre that does not go on its rim has no outline there.
    """
    growth = growth_at_speed(
        growth=tyres.speed_growth,
        reference_speed=constant(GROWTH_SPEED),
        speed=brief.cruise_speed,
    )
    return {
        axle: _fitted(
            axle, tyre_shape, tyre_section_width[axle], bead_seat_diameter[axle],
            wheel_width[axle], wheel_offset[axle], track_change[axle], growth, wheels, tyres,
        )
        for axle in (FRONT, REAR)
        if abs(float(tyre_shape.rim_diameter[axle][0] - wheel_diameter[axle][0])) < RIM_STEP
    }  # fmt: skip


@step("Gaps round the front tyre over its motion", source="the-build-file")
def front_envelope(
    front_wheel_room: Rooms, fitted_tyres: dict[str, Fitted], tyres: Tyres
) -> Envelopes:
    """Return the least gap to each thing, with its place and its moment."""
    return _envelope(front_wheel_room, fitted_tyres, tyres)


@step("Gaps round the rear tyre over its motion", source="the-build-file")
def rear_envelope(
    rear_wheel_room: Rooms, fitted_tyres: dict[str, Fitted], tyres: Tyres
) -> Envelopes:
    """Return the least gap to each thing, with its place and its moment."""
    return _envelope(rear_wheel_room, fitted_tyres, tyres)


@quantity("m", "Gap round the front tyre, over travel and lock", per="obstacle",
          source="definition", shown="mm")  # fmt: skip
def front_tyre_clearance(front_envelope: Envelopes, arches: Arches) -> Labelled:
    """Take the least over every position of the wheel; below zero they meet."""
    return _gaps(front_envelope, FRONT, arches)


@quantity("m", "Gap round the rear tyre, over travel and roll", per="obstacle",
          source="definition", shown="mm")  # fmt: skip
def rear_tyre_clearance(rear_envelope: Envelopes, arches: Arches) -> Labelled:
    """Take the least over every position of the wheel; below zero they meet."""
    return _gaps(rear_envelope, REAR, arches)


@quantity("m", "Air that the trade keeps round the front tyre", per="obstacle",
          source="common-practice", shown="mm")  # fmt: skip
def front_tyre_air(front_envelope: Envelopes, arches: Arches) -> Labelled:
    """Ask for 6 mm beside the tyre and 10 mm above it, between them by the way of the gap."""
    return _airs(front_envelope, FRONT, arches)


@quantity("m", "Air that the trade keeps round the rear tyre", per="obstacle",
          source="common-practice", shown="mm")  # fmt: skip
def rear_tyre_air(rear_envelope: Envelopes, arches: Arches) -> Labelled:
    """Ask for 6 mm beside the tyre and 10 mm above it, between them by the way of the gap."""
    return _airs(rear_envelope, REAR, arches)


def outline_of(
    *,
    section_width: float,
    outside_diameter: float,
    bead_diameter: float,
    rim_width: float,
    wheels: Wheels,
    tyres: Tyres,
) -> Values:
    """Return a tyre's outline on a rim, nominal."""
    return _outline(
        section_width,
        outside_diameter,
        bead_diameter,
        float(wheels.wall_thickness[0]),
        rim_width,
        section_width * float(tyres.tread_share[0]),
        float(tyres.shoulder_radius[0]),
    )


@lru_cache(maxsize=4096)
def _outline(
    section_width: float,
    outside_diameter: float,
    bead_diameter: float,
    wall_thickness: float,
    rim_width: float,
    tread_width: float,
    shoulder_radius: float,
) -> Values:
    return tyre_outline(
        section_width=section_width,
        outside_diameter=outside_diameter,
        bead_diameter=bead_diameter,
        wall_thickness=wall_thickness,
        rim_width=rim_width,
        flange_thickness=FLANGE_THICKNESS,
        tread_width=tread_width,
        shoulder_radius=shoulder_radius,
    )


def barrel_of(*, bead_diameter: float, rim_width: float, wheels: Wheels) -> Pieces:
    """Return what a rim has inside its seats where nobody measured it, nominal."""
    return drop_centre(
        bead_diameter=bead_diameter,
        rim_width=rim_width,
        well_depth=float(wheels.well_depth[0]),
        wall_thickness=float(wheels.wall_thickness[0]),
    )


def _barrel(bead: float, rim_width: float, offset: float, wheels: Wheels) -> Pieces:
    """Return the rim's inside: as measured, else the drop centre."""
    if wheels.has("barrel"):
        found = wheels.barrel
        return measured_barrel(
            place=found.place[:, 0], radius=found.length[:, 0], offset=offset, bead_diameter=bead
        )
    return barrel_of(bead_diameter=bead, rim_width=rim_width, wheels=wheels)


def _disc(bead: float, offset: float, wheels: Wheels) -> Pieces:
    """Return disc or spokes: by their measured back, else as far out as such wheels have them."""
    if wheels.has("spokes"):
        radius, back = wheels.spokes.place[:, 0], wheels.spokes.length[:, 0]
    else:
        depth = float(wheels.well_depth[0] + wheels.wall_thickness[0])
        radius = np.array([0.0, bead / 2.0 - depth])
        back = np.full(2, float(wheels.spoke_setback[0]))
    return disc_plate(radius=radius, back=back, offset=offset)


def _fitted(
    axle: str,
    shape: TyreShape,
    width: Values,
    bead: Values,
    rim_width: Values,
    offset: Values,
    track_change: Values,
    growth: Values,
    wheels: Wheels,
    tyres: Tyres,
) -> Fitted:
    diameter = shape.outside_diameter[axle]
    radius = diameter / 2.0 + growth
    if not _measured(tyres, axle, "section_width"):
        width = width * (1.0 + tyres.width_over_size)
    if not _measured(tyres, axle, "outside_diameter"):
        height = (diameter - shape.rim_diameter[axle]) / 2.0
        radius = radius + height * tyres.height_over_size
    seat, rim, face = float(bead[0]), float(rim_width[0]), float(offset[0])
    outline = outline_of(
        section_width=float(width[0]),
        outside_diameter=2.0 * float(radius[0]),
        bead_diameter=seat,
        rim_width=rim,
        wheels=wheels,
        tyres=tyres,
    )
    return Fitted(
        outline=outline,
        shift=float(track_change[0]) / 2.0,
        width_error=width - width[:1],
        radius_error=radius - radius[:1],
        shift_error=(track_change - track_change[:1]) / 2.0,
        barrel=_barrel(seat, rim, face, wheels),
        disc=_disc(seat, face, wheels),
    )


def _measured(tyres: Tyres, axle: str, name: str) -> bool:
    own = f"rear_{name}"
    if axle == REAR and (tyres.has(own) or tyres.has("rear_size")):
        return tyres.has(own)
    return tyres.has(name)


def _envelope(rooms: Rooms, fitted: dict[str, Fitted], tyres: Tyres) -> Envelopes:
    if not rooms.keys() <= fitted.keys():
        raise DoesNotApply(tyres.path_of("size"), NOT_ON_RIM)
    return {
        axle: least_gaps(room=one.room, fitted=fitted[axle], wander=one.wander)
        for axle, one in rooms.items()
    }


def _gaps(found: Envelopes, axle: str, arches: Arches) -> Labelled:
    if axle not in found:
        raise DoesNotApply(arches.path_of(axle), NO_ARCH)
    if not found[axle]:
        raise MissingInput(arches.path_of(axle), NOTHING_NEAR)
    return {one.name: one.values for one in found[axle]}


def _airs(found: Envelopes, axle: str, arches: Arches) -> Labelled:
    if axle not in found:
        raise DoesNotApply(arches.path_of(axle), NO_ARCH)
    return {
        one.name: np.atleast_1d(wanted_air(normal=np.array(one.normal), air=AIR))
        for one in found[axle]
    }
