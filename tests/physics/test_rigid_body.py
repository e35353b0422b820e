"""Bodies joined and taken apart: nothing of mass, moment or inertia is lost on the way."""

from __future__ import annotations

import numpy as np
import pytest

from drybuild.errors import InputError
from drybuild.physics.rigid_body import RigidBody, joined

CAR = RigidBody(
    mass=1000.0,
    x=-1.2,
    y=0.01,
    z=0.3,
    roll_inertia=400.0,
    pitch_inertia=1400.0,
    yaw_inertia=1500.0,
)
ENGINE = RigidBody(mass=150.0, x=-0.1, y=0.0, z=0.35, yaw_inertia=8.0)
NAMES = ("mass", "x", "y", "z", "roll_inertia", "pitch_inertia", "yaw_inertia")


def test_a_body_alone_stays_what_it_is() -> None:
    for name in NAMES:
        assert getattr(joined(bodies=[CAR]), name) == pytest.approx(getattr(CAR, name))


def test_what_goes_on_and_comes_off_again_leaves_the_car_as_it_was() -> None:
    away = RigidBody(mass=-150.0, x=-0.1, y=0.0, z=0.35, yaw_inertia=-8.0)
    back = joined(bodies=[joined(bodies=[CAR, ENGINE]), away])
    for name in NAMES:
        assert getattr(back, name) == pytest.approx(getattr(CAR, name))


def test_two_halves_of_a_dumb_bell() -> None:
    # Two points of 5 kg, 2 m apart across the car: 2 · 5 kg · (1 m)² about the middle.
    ends = [RigidBody(mass=5.0, x=0.0, y=side, z=0.0) for side in (-1.0, 1.0)]
    whole = joined(bodies=ends)
    assert whole.y == pytest.approx(0.0)
    assert whole.roll_inertia == pytest.approx(10.0)
    assert whole.yaw_inertia == pytest.approx(10.0)
    assert whole.pitch_inertia == pytest.approx(0.0)


def test_samples_go_through_one_by_one() -> None:
    loads = np.array([0.0, 80.0])
    whole = joined(bodies=[CAR, RigidBody(mass=loads, x=-1.5, y=0.0, z=0.4)])
    assert whole.mass == pytest.approx([1000.0, 1080.0])
    assert np.asarray(whole.x)[0] == pytest.approx(CAR.x)


def test_a_car_with_all_of_it_taken_away_is_refused() -> None:
    with pytest.raises(InputError, match="mass"):
        joined(bodies=[CAR, RigidBody(mass=-1000.0, x=-1.2, y=0.01, z=0.3)])
