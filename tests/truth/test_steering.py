"""Steering geometry and effort against closed cases and printed limits."""

from __future__ import annotations

import math

import pytest

from drybuild.physics.steering import (
    ackermann_outer_angle,
    ackermann_share,
    kerb_turning_circle,
    parking_moment_gough,
    parking_moment_with_offset,
)
from drybuild.tables.steering import effort_limit


def test_ackermann_angles() -> None:
    # cot δ_o = cot 30° + 1.3/2.5, worked by hand: 23.94312 deg; the outer front tyre's radius is
    # then 2.5/sin δ_o = 6.16022 m.
    outer = ackermann_outer_angle(inner_angle=math.radians(30.0), wheelbase=2.5, kingpin_track=1.3)
    assert math.degrees(outer) == pytest.approx(23.94312, abs=1e-5)
    circle = kerb_turning_circle(outer_angle=outer, wheelbase=2.5, scrub_radius=0.0)
    assert circle / 2.0 == pytest.approx(6.16022, abs=1e-5)


def test_ackermann_share_of_a_textbook_linkage() -> None:
    # Rill and Castro, Road Vehicle Dynamics (hardpoints in a reprint; angles recomputed by two
    # independent solvers): inner 39.936 deg, outer 30.306 deg, ideal outer 29.558 deg with
    # wheelbase 2.7 m and axis track 1.536 m.
    inner = math.radians(39.936)
    ideal = ackermann_outer_angle(inner_angle=inner, wheelbase=2.7, kingpin_track=1.536)
    assert math.degrees(ideal) == pytest.approx(29.558, abs=1e-3)
    share = ackermann_share(
        inner_angle=inner, outer_angle=math.radians(30.306), wheelbase=2.7, kingpin_track=1.536
    )
    assert share == pytest.approx((39.936 - 30.306) / (39.936 - 29.558), abs=1e-3)


def test_parking_moment_by_two_published_formulas() -> None:
    # Gough in Sharp and Granger 2003; Taborek 1957 (both from memory; values recomputed).
    gough = parking_moment_gough(friction=0.7, load=4000.0, pressure=200e3)
    assert gough == pytest.approx(132.0, abs=0.5)
    offset = parking_moment_with_offset(
        friction=0.7, load=4000.0, tyre_width=0.18, kingpin_offset=0.03
    )
    assert offset == pytest.approx(197.0, abs=0.5)


@pytest.mark.parametrize(
    ("case", "force", "radius"), [("intact", 150.0, 12.0), ("assistance failed", 300.0, 20.0)]
)
def test_effort_limits_of_un_r79(case: str, force: float, radius: float) -> None:
    # UN Regulation 79, Annex 6, category M1 (from memory).
    limit = effort_limit(case)
    assert (limit.force, limit.radius, limit.turning_time) == (force, radius, 4.0)
    assert limit.speed == pytest.approx(10.0 / 3.6)
