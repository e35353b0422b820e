"""Values of the two axles: the rear takes the front's unless the file names another."""

from __future__ import annotations

import numpy as np
import pytest
from tests.building import BARE, evaluate

from drybuild.quantities.axles import FRONT, REAR, constant, each_axle, of_axle


def test_the_rear_takes_the_fronts_value_and_its_luck() -> None:
    car = evaluate(f"{BARE}options: {{wheels: {{some: {{offset: 20 ± 3 mm}}}}}}\n")
    front = car.samples_of("wheel_offset", FRONT)
    assert np.ptp(front) > 0.0
    assert car.samples_of("wheel_offset", REAR) == pytest.approx(front)


def test_a_rear_value_of_its_own_counts() -> None:
    text = f"{BARE}options: {{wheels: {{some: {{offset: 20 mm, rear_offset: 5 mm}}}}}}\n"
    car = evaluate(text)
    assert car.value("wheel_offset", FRONT) == pytest.approx(0.020)
    assert car.value("wheel_offset", REAR) == pytest.approx(0.005)


def test_plain_numbers_become_arrays_that_broadcast() -> None:
    found = each_axle(lambda axle: 1.5 if axle == FRONT else np.array([2.0, 3.0]))
    assert (found[FRONT] + found[REAR]) == pytest.approx([3.5, 4.5])
    assert (constant(2.0) * np.ones(4)).shape == (4,)
    assert of_axle(REAR, "front brakes", "rear brakes") == "rear brakes"
