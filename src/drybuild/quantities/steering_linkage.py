"""What the front hardpoints make of the steering: locks, ratio, free rolling."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from drybuild.errors import InputError
from drybuild.project.samples import Values
from drybuild.project.steering import Steering
from drybuild.project.suspension import FrontSuspension
from drybuild.quantities.quantity import Labelled, step
from drybuild.quantities.suspension_linkage import linkage_of

if TYPE_CHECKING:
    from drybuild.physics.linkage.layouts import Linkage, Swept

PLACES = 8
"""Positions on each side of straight ahead."""
RACK, ARM = 0.100, np.radians(50.0)
"""Widest travel of a rack and of a steering box's arm that is tried."""
BEYOND = 1.15
"""How far past the nominal lock the samples are moved, so that each finds its own."""


@step("Wheel angles over the steering gear's travel", source="dixon-suspension")
def linkage_steering(front_suspension: FrontSuspension, steering: Steering) -> Labelled:
    """Return both wheels' angles at the inner one's lock, and angle over travel, if known.

    Empty where no hardpoints are given, or where they do not reach to the steering gear.
    """
    camber, toe_in = front_suspension.camber, front_suspension.toe_in / 2.0
    nominal = linkage_of(front_suspension, camber[:1], toe_in[:1], nominal=True)
    made = linkage_of(front_suspension, camber, toe_in)
    if made is None or nominal is None or not made.steered:
        return {}
    other = None
    if front_suspension.points.has("idler_pivot"):
        other = linkage_of(front_suspension, camber, toe_in, other_side=True)
    widest = ARM if made.steered == "arm" else RACK
    lock = steering.inner_lock
    widest = min(widest, BEYOND * way_to_lock(nominal, widest, float(lock[0])))
    ways = np.linspace(-widest, widest, 2 * PLACES + 1)
    left, right, swept = _angles(made, ways)
    if other is not None:
        # In the mirror the box turns the other way, and left is right.
        right = -_angles(other, -ways)[0]
    rate = (left[PLACES + 1] - left[PLACES - 1]) / (ways[PLACES + 1] - ways[PLACES - 1])
    wanted = np.broadcast_to(lock, left.shape[1:])
    return {**_lock(left, right, wanted, swept), "rate": np.asarray(np.abs(rate))}


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


def _lock(left: Values, right: Values, wanted: Values, swept: Swept) -> Labelled:
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
        why = swept.motion.stop or "the gear's travel does not bring the wheel to its lock"
        raise InputError(f"{swept.linkage.mechanism.layout}: {why}")
    before = np.maximum((known & (turned <= wanted)).sum(axis=0) - 1, 0)
    after = np.minimum(before + 1, known.sum(axis=0) - 1)
    line = np.arange(wanted.size)
    near, far = inner[before, line], inner[after, line]
    share = np.clip((wanted - near) / np.where(far > near, far - near, 1.0), 0.0, 1.0)
    other = np.where(share > 0.0, share * (outer[after, line] - outer[before, line]), 0.0)
    return {"inner": np.minimum(wanted, most), "outer": outer[before, line] + other}
