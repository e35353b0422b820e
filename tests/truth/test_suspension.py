"""Rates, body modes and roll centres against textbook examples and measured parameter sets."""

from __future__ import annotations

import csv
import math

import pytest

from drybuild.physics.roll_centres import (
    camber_gain,
    four_link_roll_centre_height,
    lines_meet,
    panhard_roll_centre_height,
    panhard_sideways_shift,
    roll_centre_from_instant_centre,
)
from drybuild.physics.suspension import (
    bounce_and_pitch,
    damping_ratio,
    natural_frequency,
    ride_rate,
    static_deflection,
)
from tests.truth.data import truth_data

G = 9.80665
LB_PER_INCH = 4.4482216 / 0.0254


def test_ride_example_of_gillespie() -> None:
    # Gillespie, ch. 5 example (inputs from memory; results recomputed): per wheel 127 lb/in on
    # 957 lb and 92.3 lb/in on 730 lb, wheelbase 100.6 in, dynamic index 1.1. His shorthand is
    # f = 3.13 √(lb/in per lb).
    front, rear = 127.0 * LB_PER_INCH, 92.3 * LB_PER_INCH
    front_mass, rear_mass = 957.0 * 0.45359237, 730.0 * 0.45359237
    assert natural_frequency(rate=front, mass=front_mass) == pytest.approx(1.1392, abs=1e-4)
    assert natural_frequency(rate=rear, mass=rear_mass) == pytest.approx(1.1120, abs=1e-4)
    assert natural_frequency(rate=front, mass=front_mass) == pytest.approx(
        3.13 * math.sqrt(127.0 / 957.0), rel=1e-3
    )
    behind = 100.6 * 0.0254 * 730.0 / 1687.0
    ahead = 100.6 * 0.0254 - behind
    modes = bounce_and_pitch(
        front_rate=2.0 * front,
        rear_rate=2.0 * rear,
        sprung_mass=2.0 * (front_mass + rear_mass),
        front_distance=behind,
        rear_distance=ahead,
        gyration_radius=math.sqrt(1.1 * behind * ahead),
    )
    assert modes.slow_frequency == pytest.approx(1.0685, abs=1e-4)
    assert modes.fast_frequency == pytest.approx(1.1304, abs=1e-4)
    nodes = {abs(modes.slow_node) / 0.0254, abs(modes.fast_node) / 0.0254}
    assert sorted(nodes) == pytest.approx([11.69, 233.9], rel=1e-3)


def test_bounce_and_pitch_example_of_wong() -> None:
    # Wong, ride example of ch. 7 (inputs from memory; results recomputed): m 2120 kg, k 1.33 m,
    # 1.267 m and 1.548 m, 35 and 38 kN/m per axle.
    modes = bounce_and_pitch(
        front_rate=35e3,
        rear_rate=38e3,
        sprung_mass=2120.0,
        front_distance=1.267,
        rear_distance=1.548,
        gyration_radius=1.33,
    )
    assert modes.slow_frequency == pytest.approx(0.8886, abs=1e-4)
    assert modes.fast_frequency == pytest.approx(1.0379, abs=1e-4)
    assert modes.slow_node == pytest.approx(-2.0953, abs=1e-3)
    assert modes.fast_node == pytest.approx(0.8442, abs=1e-3)


def test_quarter_car_figures_of_rajamani() -> None:
    # Rajamani, ch. 10 (parameters from memory): 250 kg, 16 kN/m, 1 kN·s/m give a ratio of 0.25.
    ratio = damping_ratio(wheel_damping=1000.0, wheel_rate=16e3, sprung_mass=250.0)
    assert ratio == pytest.approx(0.25)


def test_simple_corner() -> None:
    # Recomputed: 300 kg on 20 kN/m and a tyre of 200 kN/m.
    rate = ride_rate(wheel_rate=20e3, tyre_rate=200e3)
    assert rate == pytest.approx(18_182.0, rel=1e-4)
    assert natural_frequency(rate=20e3, mass=300.0) == pytest.approx(1.2995, abs=1e-4)
    assert natural_frequency(rate=rate, mass=300.0) == pytest.approx(1.2390, abs=1e-4)
    critical = 2.0 * math.sqrt(20e3 * 300.0)
    assert damping_ratio(wheel_damping=1469.7, wheel_rate=20e3, sprung_mass=300.0) == pytest.approx(
        1469.7 / critical
    )
    assert static_deflection(frequency=1.0) == pytest.approx(0.2484, abs=1e-4)


# CommonRoad: Vehicle Models, Table 6 (reprint; data of the US Department of Transportation):
# front and rear frequency on the wheel rate and on the ride rate [Hz], damping ratios [-],
# derived by hand from the table's masses, springs, dampers and tyre rates.
CARS = {
    "compact A": ((1.268, 1.656), (1.200, 1.568), (0.265, 0.347)),
    "saloon B": ((1.525, 1.516), (1.419, 1.430), (0.350, 0.400)),
    "van C": ((1.555, 1.798), (1.445, 1.653), (0.350, 0.400)),
}


@pytest.mark.parametrize("name", CARS)
def test_three_measured_cars_have_the_frequencies_of_their_kind(name: str) -> None:
    text = truth_data("sti_vehicle_parameters.csv").read_text().splitlines()
    rows = csv.DictReader(line for line in text if not line.startswith("#"))
    car = {
        k: float(v)
        for k, v in next(r for r in rows if r["vehicle"] == name).items()
        if k != "vehicle"
    }
    wheel_only, with_tyre, damping = CARS[name]
    shares = {"f": car["b"], "r": car["a"]}
    for place, end in enumerate("fr"):
        corner = car["ms"] * shares[end] / (car["a"] + car["b"]) / 2.0
        spring, tyre = car[f"Ks{end}"], car["Kzt"]
        ride = ride_rate(wheel_rate=spring, tyre_rate=tyre)
        assert natural_frequency(rate=spring, mass=corner) == pytest.approx(
            wheel_only[place], abs=1e-3
        )
        assert natural_frequency(rate=ride, mass=corner) == pytest.approx(
            with_tyre[place], abs=1e-3
        )
        assert damping_ratio(
            wheel_damping=car[f"Cs{end}"], wheel_rate=spring, sprung_mass=corner
        ) == pytest.approx(damping[place], abs=1e-3)


def test_wheel_hop_of_the_three_cars_lies_between_12_and_13_hertz() -> None:
    # The same table; Gillespie (from memory) gives 10 Hz to 15 Hz for cars.
    text = truth_data("sti_vehicle_parameters.csv").read_text().splitlines()
    for row in csv.DictReader(line for line in text if not line.startswith("#")):
        rate = float(row["Ksf"]) + float(row["Kzt"])
        hop = natural_frequency(rate=rate, mass=float(row["muf"]) / 2.0)
        assert 12.0 < hop < 13.0


def test_macpherson_strut_in_the_plane() -> None:
    # Own points, closed form and finite difference agree to 1e-10 (computed apart from this
    # code): the strut's normal through its top meets the arm's line.
    top, arm_in, arm_out = (0.56, 0.85), (0.35, 0.20), (0.70, 0.18)
    along = (arm_out[0] - top[0], arm_out[1] - top[1])
    centre = lines_meet(
        first_start=top,
        first_end=(top[0] - along[1], top[1] + along[0]),
        second_start=arm_in,
        second_end=arm_out,
    )
    assert centre == pytest.approx((-1.92780, 0.33016), abs=1e-5)
    height = roll_centre_from_instant_centre(
        contact_offset=0.74, centre_offset=centre[0], centre_height=centre[1]
    )
    assert height == pytest.approx(0.0915804, abs=1e-7)
    gain = camber_gain(contact_offset=0.74, centre_offset=centre[0])
    assert math.degrees(gain) == pytest.approx(21.4768, abs=1e-4)


def test_double_wishbone_in_the_plane() -> None:
    centre = lines_meet(
        first_start=(0.42, 0.50),
        first_end=(0.66, 0.47),
        second_start=(0.34, 0.22),
        second_end=(0.70, 0.19),
    )
    assert centre == pytest.approx((7.30, -0.36))
    height = roll_centre_from_instant_centre(
        contact_offset=0.74, centre_offset=centre[0], centre_height=centre[1]
    )
    assert height == pytest.approx(0.0406098, abs=1e-7)


def test_panhard_rod_pulls_the_axle_two_millimetres() -> None:
    # A circle of 0.9 m, moved 60 mm: 0.9 − √(0.81 − 0.0036) m.
    assert panhard_sideways_shift(rod_length=0.9, travel=0.06) == pytest.approx(
        0.00200223, abs=1e-8
    )


def test_panhard_rod_sets_the_roll_centre_in_its_own_plane() -> None:
    # Three-link axle, rod from the axle at (0.45, 0.26) to the body at (−0.50, 0.28): a solver of
    # the spatial linkage gave 0.269474 m in the rod's plane.
    height = panhard_roll_centre_height(
        axle_end_height=0.26, body_end_height=0.28, axle_end_offset=0.45, rod_span=0.95
    )
    assert height == pytest.approx(0.269474, abs=1e-6)


def test_triangulated_four_link_axle() -> None:
    # The spatial null-space solution of the same links gave 0.435667 m and the axis slope 0.06.
    height = four_link_roll_centre_height(
        meeting_height=0.426667, meeting_position=-0.15, lower_link_slope=0.06
    )
    assert height == pytest.approx(0.435667, abs=1e-6)
