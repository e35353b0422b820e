from __future__ import annotations

from dataclasses import fields

import numpy as np
import numpy.typing as npt
import pytest
from hypothesis import given
from hypothesis import strategies as st

from drybuild.errors import InputError
from drybuild.physics.packaging import (
    Box,
    box_gap,
    line_clearance,
    pitched_box,
    rock_angle,
    rolled_box,
)

SIZES = st.floats(0.05, 1.0)
PLACES = st.floats(-1.0, 1.0)


def box(*bounds: float | npt.ArrayLike) -> Box:
    names = [field.name for field in fields(Box)]
    return Box(**{name: np.asarray(b, float) for name, b in zip(names, bounds, strict=True)})


UNIT = box(0.0, 1.0, 0.0, 1.0, 0.0, 1.0)


def test_boxes_apart_along_one_axis() -> None:
    other = box(1.02, 2.0, 0.2, 0.8, 0.2, 0.8)
    assert box_gap(first=UNIT, second=other) == pytest.approx(0.02)


def test_boxes_apart_across_an_edge_are_measured_slantwise() -> None:
    other = box(1.03, 2.0, 1.04, 2.0, 0.2, 0.8)
    assert box_gap(first=UNIT, second=other) == pytest.approx(0.05)


def test_an_overlap_is_minus_the_shortest_way_out() -> None:
    other = box(0.9, 2.0, -1.0, 2.0, -1.0, 2.0)
    assert box_gap(first=UNIT, second=other) == pytest.approx(-0.1)


@given(x=PLACES, y=PLACES, z=PLACES, a=SIZES, b=SIZES, c=SIZES)
def test_the_gap_does_not_mind_the_order(
    x: float, y: float, z: float, a: float, b: float, c: float
) -> None:
    other = box(x, x + a, y, y + b, z, z + c)
    assert box_gap(first=UNIT, second=other) == box_gap(first=other, second=UNIT)


@given(x=PLACES, y=PLACES, z=PLACES, a=SIZES, b=SIZES, c=SIZES)
def test_the_gap_agrees_with_the_nearest_points_of_both(
    x: float, y: float, z: float, a: float, b: float, c: float
) -> None:
    other = box(x, x + a, y, y + b, z, z + c)
    low, high = np.array([x, y, z]), np.array([x + a, y + b, z + c])
    nearest = np.clip(np.clip(low, 0.0, 1.0), low, high)
    inside = np.clip(nearest, 0.0, 1.0)
    apart = float(np.linalg.norm(nearest - inside))
    gap = float(box_gap(first=UNIT, second=other))
    assert gap == pytest.approx(apart) if apart > 1e-12 else gap <= 1e-12


def test_gaps_broadcast_over_samples() -> None:
    other = box(np.array([1.01, 1.02, 0.99]), 2.0, 0.0, 1.0, 0.0, 1.0)
    assert box_gap(first=UNIT, second=other) == pytest.approx([0.01, 0.02, -0.01])


def test_no_rock_leaves_the_box_and_rock_widens_it_evenly() -> None:
    engine = box(-0.6, 0.0, -0.3, 0.3, -0.2, 0.4)
    still = rolled_box(box=engine, axis_y=0.0, axis_z=0.0, angle=0.0)
    assert still.left == pytest.approx(0.3)
    rocked = rolled_box(box=engine, axis_y=0.0, axis_z=0.0, angle=0.05)
    assert rocked.left == pytest.approx(-rocked.right)
    assert rocked.left > 0.3
    assert rocked.top > 0.4


def test_the_rock_angle_moves_the_top_by_what_was_asked() -> None:
    angle = rock_angle(movement=0.015, height=0.4)
    assert 0.4 * np.sin(angle) == pytest.approx(0.015)
    with pytest.raises(InputError):
        rock_angle(movement=0.3, height=0.4)


def test_nose_up_lifts_the_front_and_drops_the_rear() -> None:
    engine = box(-0.6, 0.0, -0.3, 0.3, 0.0, 0.4)
    tilted = pitched_box(box=engine, axis_x=0.0, axis_z=0.0, nose_up=np.deg2rad(3.0))
    assert tilted.bottom == pytest.approx(-0.6 * np.sin(np.deg2rad(3.0)))
    level = pitched_box(box=engine, axis_x=0.0, axis_z=0.0, nose_up=0.0)
    assert level.bottom == pytest.approx(0.0)
    assert level.front == pytest.approx(0.0)


def test_the_line_is_lowest_at_a_station_inside_the_box() -> None:
    top = box(-0.5, 0.5, 0.0, 1.0, 0.0, 0.6)
    clear = line_clearance(box=top, stations=[-1.0, 0.0, 1.0], heights=[0.9, 0.65, 0.9])
    assert clear == pytest.approx(0.05)


def test_the_line_is_read_between_stations() -> None:
    top = box(0.0, 0.5, 0.0, 1.0, 0.0, 0.6)
    clear = line_clearance(box=top, stations=[1.0, -1.0], heights=[0.6, 1.0])
    assert clear == pytest.approx(0.7 - 0.6)


def test_the_line_has_samples_in_heights_and_box() -> None:
    top = box(0.0, np.array([0.5, 0.6]), 0.0, 1.0, 0.0, np.array([0.6, 0.5]))
    heights = np.array([[1.0, 1.0], [0.6, 0.8]])
    clear = line_clearance(box=top, stations=[-1.0, 1.0], heights=heights)
    assert clear == pytest.approx([0.7 - 0.6, 1.0 - 0.2 * 0.8 - 0.5])


def test_past_the_stations_nothing_is_said() -> None:
    beyond = box(2.0, 3.0, 0.0, 1.0, 0.0, 0.6)
    assert np.isnan(line_clearance(box=beyond, stations=[-1.0, 1.0], heights=[0.9, 0.9]))


def test_two_stations_in_one_place_say_nothing() -> None:
    twice = line_clearance(box=UNIT, stations=[0.5, 0.5], heights=[2.0, 3.0])
    assert np.isnan(twice)


def test_one_station_is_no_line() -> None:
    with pytest.raises(InputError):
        line_clearance(box=UNIT, stations=[0.0], heights=[0.9])
