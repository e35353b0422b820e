"""The linkage solver against a general optimiser on the same geometry, written anew."""

from __future__ import annotations

from collections.abc import Callable

import numpy as np
import pytest
from numpy.typing import NDArray
from scipy.optimize import least_squares
from scipy.spatial.transform import Rotation
from tests.linkages import BOOK, FIVE_LINK, FOUR_LINK, PANHARD, STRUT, moved

Array = NDArray[np.float64]
Carry = Callable[[Array], Array]


def pose_of(origin: Array, gaps: Callable[[Carry], list[float]], start: Array) -> Array:
    """Return place and rotation vector that close every gap."""

    def wanted(unknowns: Array) -> Array:
        turn = Rotation.from_rotvec(unknowns[3:])

        def carry(point: Array) -> Array:
            return np.asarray(origin + unknowns[:3] + turn.apply(point - origin))

        return np.array(gaps(carry))

    found = least_squares(wanted, start, xtol=1e-15, ftol=1e-15, gtol=1e-15, method="lm")
    assert np.abs(found.fun).max() < 1e-12
    return np.asarray(found.x)


def rods(raw: dict[str, tuple[float, float, float]], pairs: list[tuple[str, str]], mirror: bool):
    """Return start, end and length of each rod; with `mirror` also of its right-hand fellow."""
    found = []
    for body, wheel in pairs:
        for side in (1.0, -1.0) if mirror else (1.0,):
            a, b = (np.array(raw[name]) * [1.0, side, 1.0] for name in (body, wheel))
            found.append((a, b, float(np.linalg.norm(b - a))))
    return found


WISHBONE = [
    ("lower_front", "lower_outer"),
    ("lower_rear", "lower_outer"),
    ("upper_front", "upper_outer"),
    ("upper_rear", "upper_outer"),
    ("tie_inner", "tie_outer"),
]
FIVE = [
    (f"{one}_inner", f"{one}_outer")
    for one in ("lower_front", "lower_rear", "upper_front", "upper_rear", "toe")
]
WAYS = [(-0.05, 0.0), (0.0, 0.03), (0.06, 0.0), (0.05, -0.04)]


@pytest.mark.parametrize(("travel", "rack"), WAYS)
@pytest.mark.parametrize("layout", ["double wishbone", "multi-link", "strut"])
def test_a_wheel_stands_where_the_optimiser_puts_it(
    layout: str, travel: float, rack: float
) -> None:
    raw = {"double wishbone": BOOK, "multi-link": FIVE_LINK, "strut": STRUT}[layout]
    pairs = {"double wishbone": WISHBONE, "multi-link": FIVE, "strut": [*WISHBONE[:2], WISHBONE[4]]}
    links = rods(raw, pairs[layout], mirror=False)
    rack = 0.0 if layout == "multi-link" else rack
    origin = np.array(raw["wheel_centre"])

    def gaps(carry: Carry) -> list[float]:
        found = [
            float(np.linalg.norm(carry(b) - a - np.array([0.0, rack, 0.0]) * (k == len(links) - 1)))
            - length
            for k, (a, b, length) in enumerate(links)
        ]
        if layout == "strut":
            top, low = np.array(raw["strut_top"]), np.array(raw["lower_outer"])
            along = carry(top) - carry(low)
            across = np.cross(along / np.linalg.norm(along), top - carry(low))
            found += [float(one) for one in across[:2]]
        return [*found, float(carry(origin)[2] - origin[2] - travel)]

    swept = moved(layout, raw, travel=np.array([travel]), steer=np.array([rack]))
    known = swept.motion.pose
    best = pose_of(origin, gaps, np.array([0.0, 0.0, travel, 0.0, 0.0, 0.0]))
    assert known.centre[:, 0, 0] == pytest.approx(origin + best[:3], abs=1e-9)
    turn = Rotation.from_rotvec(best[3:]).as_matrix()
    assert np.abs(known.turn[:, :, 0, 0] - turn).max() < 1e-9
    assert float(swept.motion.residual[0, 0]) < 1e-9


@pytest.mark.parametrize(("travel", "roll"), [(0.05, 0.0), (-0.04, 0.03), (0.0, -0.05)])
@pytest.mark.parametrize("kind", ["triangulated", "panhard"])
def test_an_axle_stands_where_the_optimiser_puts_it(kind: str, travel: float, roll: float) -> None:
    raw = FOUR_LINK if kind == "triangulated" else PANHARD
    links = rods(raw, [("lower_body", "lower_axle")], mirror=True)
    if kind == "triangulated":
        links += rods(raw, [("upper_body", "upper_axle")], mirror=True)
    else:
        pairs = [("top_body", "top_axle"), ("panhard_body", "panhard_axle")]
        links += rods(raw, pairs, mirror=False)
    left = np.array(raw["wheel_centre"])
    right, origin = left * [1.0, -1.0, 1.0], left * [1.0, 0.0, 1.0]

    def gaps(carry: Carry) -> list[float]:
        found = [float(np.linalg.norm(carry(b) - a)) - length for a, b, length in links]
        rise = left[1] * roll
        found.append(float(carry(left)[2] - left[2] - travel - rise))
        found.append(float(carry(right)[2] - right[2] - travel + rise))
        return found

    swept = moved("live axle on links", raw, travel=np.array([travel]), roll=np.array([roll]))
    known = swept.motion.pose
    best = pose_of(origin, gaps, np.array([0.0, 0.0, travel, roll, 0.0, 0.0]))
    assert known.centre[:, 0, 0] == pytest.approx(origin + best[:3], abs=1e-9)
    turn = Rotation.from_rotvec(best[3:]).as_matrix()
    assert np.abs(known.turn[:, :, 0, 0] - turn).max() < 1e-9
