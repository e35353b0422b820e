"""The brake behind the wheel's disc or spokes."""

from __future__ import annotations

import numpy as np

from drybuild.errors import DoesNotApply
from drybuild.project.brakes import AxleBrakes, FrontBrakes, RearBrakes
from drybuild.project.samples import Values
from drybuild.project.wheels import Wheels
from drybuild.quantities.axles import FRONT, REAR, constant
from drybuild.quantities.quantity import Labelled, quantity


@quantity("m", "Gap between caliper and spokes", per="axle", source="definition", shown="mm")
def spoke_clearance(wheels: Wheels, front_brakes: FrontBrakes, rear_brakes: RearBrakes) -> Labelled:
    """Hold the caliper's outline against the back of the spokes at the same radius.

    Along the axle. Where the spokes' back was not measured it is as far out as such wheels have it.
    """
    brakes: dict[str, AxleBrakes] = {FRONT: front_brakes, REAR: rear_brakes}
    found = {axle: _gap(wheels, one, axle) for axle, one in brakes.items() if _known(one)}
    if not found:
        raise DoesNotApply(front_brakes.path_of("caliper_outline"), "no caliper was measured")
    return found


def _known(brakes: AxleBrakes) -> bool:
    return brakes.kind == "disc" and brakes.has("caliper_outline")


def _gap(wheels: Wheels, brakes: AxleBrakes, axle: str) -> Values:
    outline = brakes.caliper_outline
    spacer = f"{'rear_' if axle == REAR else ''}spacer"
    away = getattr(wheels, spacer) if wheels.has(spacer) else constant(0.0)
    gaps = [
        place + _back(wheels, radius) + away
        for place, radius in zip(outline.place, outline.length, strict=True)
    ]
    return np.asarray(np.min(np.broadcast_arrays(*gaps), axis=0))


def _back(wheels: Wheels, radius: Values) -> Values:
    """Return how far the spokes' back stands outboard of the mounting face at a radius."""
    if not wheels.has("spokes"):
        return wheels.spoke_setback
    known = wheels.spokes
    place = int(np.searchsorted(known.place[:, 0], radius[0]).clip(1, len(known.place) - 1))
    low, high = known.place[place - 1], known.place[place]
    share = np.clip((radius - low) / (high - low), 0.0, 1.0)
    return np.asarray(known.length[place - 1] * (1.0 - share) + known.length[place] * share)
