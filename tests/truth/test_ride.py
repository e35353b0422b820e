"""Ride against the tables of ISO 2631-1 and ISO 8608, exact theorems, and the roughness index."""

from __future__ import annotations

import csv
import math

import numpy as np
import pytest
from scipy.linalg import solve_continuous_lyapunov

from drybuild.physics.ride import (
    HalfCar,
    QuarterCar,
    SprungWheel,
    both_axles_on_one_road,
    half_car_shares,
    quarter_car_on_random_road,
    quarter_car_response,
    road_elevation_psd_iso_8608,
    road_elevation_rms,
    road_velocity_level,
    vertical_weighting_iso_2631,
    weighted_acceleration_iso_2631,
)
from drybuild.tables.ride import comfort_reactions, road_class_roughness
from tests.truth.data import truth_data

# Rajamani, Vehicle Dynamics and Control, ch. 10 (from memory).
WHEEL = SprungWheel(unsprung_mass=45.0, spring_rate=16e3, damping=1000.0, tyre_rate=160e3)
CAR = QuarterCar(sprung_mass=250.0, wheel=WHEEL)
FREQUENCY = np.geomspace(0.1, 100.0, 400)


def test_weighting_of_iso_2631_in_23_bands() -> None:
    # ISO 2631-1:1997, Table 3, W_k (two reprints agree); formula of Annex A at nominal frequency.
    # The printed table stands at exact third octaves and three digits: 0.0007 apart at most.
    text = truth_data("iso2631_wk_table.csv").read_text().splitlines()
    rows = list(csv.DictReader(line for line in text if not line.startswith("#")))
    assert len(rows) == 23
    for row in rows:
        weight = vertical_weighting_iso_2631(frequency=float(row["f_hz"]))
        assert weight == pytest.approx(float(row["wk_table"]), abs=7.5e-4)


@pytest.mark.parametrize(
    ("road_class", "millimetres"), [("A", 3.806), ("B", 7.613), ("C", 15.226), ("D", 30.451)]
)
def test_height_of_road_classes(road_class: str, millimetres: float) -> None:
    # ISO 8608 class means (from memory), band 0.011 to 2.83 cycle/m; integral worked by hand.
    height = road_elevation_rms(
        roughness=road_class_roughness(road_class),
        lowest_wavenumber=0.011,
        highest_wavenumber=2.83,
    )
    assert height * 1000.0 == pytest.approx(millimetres, abs=1e-3)


def test_each_road_class_is_four_times_rougher_than_the_last() -> None:
    # ISO 8608, Annex C: a geometric series.
    means = [road_class_roughness(one) for one in "ABCDEFGH"]
    assert np.divide(means[1:], means[:-1]) == pytest.approx(np.full(7, 4.0))
    assert road_elevation_psd_iso_8608(wavenumber=0.1, roughness=means[1]) == means[1]


def test_invariant_points_of_the_quarter_car() -> None:
    # Hedrick and Butsuen, "Invariant properties of automotive suspensions", 1990: whatever spring
    # and damper, |z_s/z_r| = m_u/m_s at √(k_t/m_u), |stroke/z_r| = 1 + m_u/m_s at √(k_t/(m_s+m_u)).
    for spring, damping in ((8e3, 200.0), (16e3, 1000.0), (60e3, 5000.0)):
        wheel = SprungWheel(
            unsprung_mass=45.0, spring_rate=spring, damping=damping, tyre_rate=160e3
        )
        car = QuarterCar(sprung_mass=250.0, wheel=wheel)
        hop = math.sqrt(160e3 / 45.0) / (2.0 * math.pi)
        both = math.sqrt(160e3 / 295.0) / (2.0 * math.pi)
        assert abs(quarter_car_response(frequency=hop, car=car).body) == pytest.approx(0.18)
        assert abs(quarter_car_response(frequency=both, car=car).stroke) == pytest.approx(1.18)


def test_quarter_car_on_a_random_road_against_its_covariance() -> None:
    # The covariance of the linear system under white road velocity, from SciPy's Lyapunov solver.
    m, mu, k, c, kt = 250.0, 45.0, 16e3, 1000.0, 160e3
    # States: stroke, body velocity, tyre deflection, wheel velocity; input: road velocity.
    a = np.array(
        [
            [0.0, 1.0, 0.0, -1.0],
            [-k / m, -c / m, 0.0, c / m],
            [0.0, 0.0, 0.0, 1.0],
            [k / mu, c / mu, -kt / mu, -c / mu],
        ]
    )
    b = np.array([[0.0], [0.0], [-1.0], [0.0]])
    level = road_velocity_level(roughness=64e-6, speed=20.0)
    covariance = solve_continuous_lyapunov(a, -b @ b.T * level / 2.0)
    found = quarter_car_on_random_road(car=CAR, velocity_level=level)
    assert found.stroke == pytest.approx(math.sqrt(covariance[0, 0]))
    assert found.tyre_force == pytest.approx(kt * math.sqrt(covariance[2, 2]))
    body = math.sqrt(a[1] @ covariance @ a[1])
    assert found.body_acceleration == pytest.approx(body)
    # Recomputed apart: 0.689968 m/s², 6.10472 mm, 390.66 N.
    assert found.body_acceleration == pytest.approx(0.689968, abs=1e-6)
    assert found.stroke == pytest.approx(0.00610472, abs=1e-8)
    assert found.tyre_force == pytest.approx(390.66, abs=0.01)


@pytest.mark.parametrize(("road_class", "weighted"), [("A", 0.2940), ("B", 0.5880), ("C", 1.1761)])
def test_weighted_acceleration_of_the_quarter_car(road_class: str, weighted: float) -> None:
    # Recomputed apart, band 0.1 to 100 Hz, 20 m/s.
    found = weighted_acceleration_iso_2631(
        frequency=FREQUENCY,
        response=quarter_car_response(frequency=FREQUENCY, car=CAR).body,
        velocity_level=road_velocity_level(roughness=road_class_roughness(road_class), speed=20.0),
    )
    assert found == pytest.approx(weighted, abs=6e-5)


@pytest.mark.parametrize(
    ("road_class", "index"), [("A", 2.21), ("B", 4.42), ("C", 8.84), ("D", 17.68)]
)
def test_roughness_index_of_road_classes(road_class: str, index: float) -> None:
    # Golden car of ASTM E1926 (from memory): k/m 63.3, k_t/m 653, m_u/m 0.15, c/m 6.0, 80 km/h.
    # Published relation (Kropáč and Múčka, from memory): IRI = 2.21 √C m/km with C the density at
    # 1 rad/m in 1e-6 m³, which is 1.0 for class A. The mean of a Gaussian's magnitude is √(2/π) σ.
    golden = QuarterCar(
        sprung_mass=1.0,
        wheel=SprungWheel(unsprung_mass=0.15, spring_rate=63.3, damping=6.0, tyre_rate=653.0),
    )
    speed = 80.0 / 3.6
    level = road_velocity_level(roughness=road_class_roughness(road_class), speed=speed)
    response = quarter_car_response(frequency=FREQUENCY, car=golden).stroke
    density = np.square(np.abs(response)) * level
    velocity = math.sqrt(np.trapezoid(density, FREQUENCY))
    assert math.sqrt(2.0 / math.pi) * velocity / speed * 1000.0 == pytest.approx(index, rel=0.006)


def test_half_car_parts_into_two_quarter_cars_when_its_index_is_one() -> None:
    # With k² = a b each axle moves its own share of the mass (Gillespie, ch. 5): over the front
    # axle the body moves as the front quarter car does alone.
    axle = SprungWheel(unsprung_mass=90.0, spring_rate=32e3, damping=2000.0, tyre_rate=320e3)
    mass, a, b = 900.0, 1.2, 1.4
    car = HalfCar(
        front=axle,
        rear=axle,
        sprung_mass=mass,
        pitch_inertia=mass * a * b,
        front_distance=a,
        rear_distance=b,
    )
    shares = half_car_shares(frequency=FREQUENCY, car=car, point_ahead=a)
    over_front = both_axles_on_one_road(frequency=FREQUENCY, shares=shares, speed=20.0)
    alone = quarter_car_response(
        frequency=FREQUENCY, car=QuarterCar(sprung_mass=mass * b / (a + b), wheel=axle)
    )
    assert over_front == pytest.approx(alone.body)


@pytest.mark.parametrize(
    ("acceleration", "reactions"),
    [
        (0.2, ("not uncomfortable",)),
        (0.55, ("a little uncomfortable", "fairly uncomfortable")),
        (3.0, ("extremely uncomfortable",)),
    ],
)
def test_reactions_of_iso_2631_annex_c(acceleration: float, reactions: tuple[str, ...]) -> None:
    # ISO 2631-1:1997, C.2.3 (from memory); the bands overlap.
    assert comfort_reactions(acceleration) == reactions
