"""What the front hardpoints make of the steering: locks, ratio, free rolling."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from drybuild.errors import InputError
from drybuild.keeping import Known, content_name
from drybuild.project.samples import Values
from drybuild.project.steering import Steering
from drybuild.project.suspension import FrontSuspension
from drybuild.quantities.quantity import Labelled, step
from drybuild.quantities.suspension_linkage import hardpoints_of, linkage_of

if TYPE_CHECKING:
    from drybuild.physics.linkage.layouts import Linkage, Swept
    from drybuild.physics.linkage.motion import Stop

PLACES = 8
"""Positions on each side of straight ahead."""
RACK, ARM = 0.100, np.radians(50.0)
"""Widest travel of a rack and of a steering box's arm that is tried."""
BEYOND = 1.15
"""How far past the nominal lock the samples are moved, so that each finds its own."""


@dataclass(frozen=True, kw_only=True)
class Turned:
    """Both wheels' angles over the steering gear's travel."""

    ways: Values
    left: Values
    """(travels, samples). [rad]"""
    right: Values
    stop: Stop | None
    """What the nominal cannot follow, and where; None where it follows all."""


@step("Wheel angles over the steering gear's travel", source="dixon-suspension")
def linkage_steering(front_suspension: FrontSuspension, steering: Steering) -> Labelled:
    """Return both wheels' angles at the inner one's lock, and angle over travel, if known.

    Empty where no hardpoints are given, or where they do not reach to the steering gear.
    """
    points = hardpoints_of(front_suspension)
    if points is None:
        return {}
    camber, toe_in = front_suspension.camber, front_suspension.toe_in / 2.0
    lock = steering.inner_lock
    first = float(lock[0])
    found = _KNOWN.of(
        content_name(front_suspension.layout, points, camber, toe_in, first),
        lambda: _turned(front_suspension, points, camber, toe_in, first),
    )
    if found is None:
        return {}
    ways, left, right = found.ways, found.left, found.right
    rate = (left[PLACES + 1] - left[PLACES - 1]) / (ways[PLACES + 1] - ways[PLACES - 1])
    wanted = np.broadcast_to(lock, left.shape[1:])
    locks = _lock(left, right, wanted, found.stop, front_suspension.layout)
    return {**locks, "rate": np.asarray(np.abs(rate))}


_KNOWN: Known[Turned | None] = Known(8)
"""By points and lock: gears that are alike in them move the wheels alike."""


def _turned(
    suspension: FrontSuspension,
    points: dict[str, Values],
    camber: Values,
    toe_in: Values,
    lock: float,
) -> Turned | None:
    first = {one: point[:, :1] for one, point in points.items()}
    nominal = linkage_of(suspension, camber[:1], toe_in[:1], points=first)
    made = linkage_of(suspension, camber, toe_in, points=points)
    if made is None or nominal is None or not made.steered:
        return None
    widest = ARM if made.steered == "arm" else RACK
    widest = min(widest, BEYOND * way_to_lock(nominal, widest, lock))
    ways = np.linspace(-widest, widest, 2 * PLACES + 1)
    left, right, swept = _angles(made, ways)
    if "idler_pivot" in points:
        # In the mirror the box turns the other way, and left is right.
        other = linkage_of(suspension, camber, toe_in, points=points, other_side=True)
        right = -_angles(other or made, -ways)[0]
    return Turned(ways=ways, left=left, right=right, stop=swept.motion.stop)


def _angles(made: Linkage, ways: Values) -> tuple[Values, Values, Swept]:
    swept = made.motion(travel=np.zeros(1), steer=ways, roll=np.zeros(1))
    left = swept.left.steer_angle[0, :, 0]
    right = -left[::-1] if swept.right is None else swept.right.steer_angle[0, :, 0]
    return left, right, swept


def way_to_lock(nominal: Linkage, widest: float, lock: float) -> float:
    """Return the gear's travel that brings the nominal left wheel, as inner one, to its lock."""
    ways = np.linspace(-widest, widest, 6 * PLACES + 1)
    left, _, _ = _angles(nominal, ways)
    reached = np.isfinite(left[:, 0]) & (left[:, 0] >= lock)
    return float(np.abs(ways[reached]).min()) if reached.any() else widest


def _lock(left: Values, right: Values, wanted: Values, stop: Stop | None, layout: str) -> Labelled:
    """Return both wheels' angles at the left one's lock, the left being the inner.

    A sample whose links stop earlier has its lock there; if the nominal does, the link is named.
    """
    rising = left[PLACES + 1, 0] > left[PLACES - 1, 0]
    side = slice(PLACES, None) if rising else slice(PLACES, None, -1)
    inner, outer = left[side], right[side]
    known = np.isfinite(inner).cumprod(axis=0, dtype=bool)
    turned = np.where(known, inner, -np.inf)
    most = turned.max(axis=0)
    if most[0] < wanted[0]:
        why = stop or "the gear's travel does not bring the wheel to its lock"
        raise InputError(f"{layout}: {why}")
    before = np.maximum((known & (turned <= wanted)).sum(axis=0) - 1, 0)
    after = np.minimum(before + 1, known.sum(axis=0) - 1)
    line = np.arange(wanted.size)
    near, far = inner[before, line], inner[after, line]
    share = np.clip((wanted - near) / np.where(far > near, far - near, 1.0), 0.0, 1.0)
    other = np.where(share > 0.0, share * (outer[after, line] - outer[before, line]), 0.0)
    return {"inner": np.minimum(wanted, most), "outer": outer[before, line] + other}
