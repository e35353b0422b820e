"""Verdicts on the driveline, from small build files."""

from __future__ import annotations

import pytest
from tests.building import evaluate
from tests.quantities.test_driveline import CAR

from drybuild.checks.driveline import CHECKS
from drybuild.checks.verdicts import State


def verdict(check: str, text: str = CAR) -> State:
    return evaluate(text).verdict(f"driveline.{check}").state


@pytest.mark.parametrize(
    ("check", "old", "new"),
    [
        ("clutch-reserve", "clamp_force: 6000 N", "clamp_force: 2800 N"),
        ("clutch-pressure", "outer_diameter: 240 mm", "outer_diameter: 200 mm"),
        ("gearbox-torque", "torque_rating: 220 N·m", "torque_rating: 140 N·m"),
        ("axle-torque", "torque_rating: 2500 N·m", "torque_rating: 900 N·m"),
        ("half-shaft", "half_shaft_diameter: 28 mm", "half_shaft_diameter: 18 mm"),
        ("propshaft-stress", "outside_diameter: 70 mm", "outside_diameter: 30 mm"),
        ("propshaft-joints", "joint_rating: 900 N·m", "joint_rating: 200 N·m"),
        ("propshaft-whirl", "length: 1400 mm", "length: 1700 mm"),
        ("joint-excitation", "front_angle: 2 deg", "front_angle: 6 deg"),
        ("joint-angle", "front_angle: 2 deg", "front_angle: 0.1 deg"),
        ("joint-angles-equal", "front_angle: 2 deg", "front_angle: 4 deg"),
        ("residual-excitation", "front_angle: 2 deg", "front_angle: 4 deg"),
    ],
)
def test_a_weaker_part_fails(check: str, old: str, new: str) -> None:
    assert old in CAR
    assert verdict(check, CAR.replace(old, new)) is State.FAILS


def test_a_sound_driveline_is_good() -> None:
    short = CAR.replace("length: 1400 mm", "length: 1000 mm")
    for check in CHECKS:
        found = evaluate(short).verdict(check.id)
        assert found.state in (State.GOOD, State.TIGHT), check.id


def test_cautions_stand_where_things_fly_and_fall() -> None:
    by_id = {check.id: check for check in CHECKS}
    assert "driveline shop" in by_id["driveline.propshaft-whirl"].caution
    assert "asbestos" in by_id["driveline.clutch-reserve"].caution
