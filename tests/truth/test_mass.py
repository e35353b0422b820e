"""Mass properties against measured vehicles and the figures of NHTSA's two open files."""

from __future__ import annotations

import csv
import math
from pathlib import Path

import numpy as np
import pytest

from drybuild.physics.load_transfer import static_stability_factor
from drybuild.physics.mass import (
    cg_distance_from_front_axle,
    cg_height_by_axle_lift_iso_10392,
    cg_height_from_stability_factor,
    inertia_from_dynamic_index,
    roll_inertia_from_track,
    yaw_inertia_from_mass,
)
from tests.truth.data import truth_data

INCH, POUND = 0.0254, 0.45359237


def rows_of(path: Path) -> list[dict[str, str]]:
    lines = [line for line in path.read_text().splitlines() if not line.startswith("#")]
    return list(csv.DictReader(lines))


def column(rows: list[dict[str, str]], name: str) -> np.ndarray:
    return np.array([float(row[name]) for row in rows])


def test_cg_height_of_204_vehicles_follows_from_track_and_stability_factor() -> None:
    # NHTSA Light Vehicle Inertial Parameter Database: columns cg_h_m, ssf, t_avg_m; the file
    # derives the track from the other two, so this only proves that the definition is the same.
    rows = rows_of(truth_data("nhtsa_lvipd_204.csv"))
    factor = static_stability_factor(
        track=column(rows, "t_avg_m"), cg_height=column(rows, "cg_h_m")
    )
    assert len(rows) == 204
    assert factor == pytest.approx(column(rows, "ssf"), rel=2e-4)


def test_yaw_inertia_of_204_vehicles_follows_from_their_dynamic_index() -> None:
    # The same file; the product of the axle distances was derived from it by its compiler, and
    # agrees with the pitch inertia by an independent index.
    rows = rows_of(truth_data("nhtsa_lvipd_204.csv"))
    distance = np.sqrt(column(rows, "ab_m2"))
    pitch = inertia_from_dynamic_index(
        mass=column(rows, "mass_kg"),
        front_distance=distance,
        rear_distance=distance,
        dynamic_index=column(rows, "di_pitch"),
    )
    assert pitch == pytest.approx(column(rows, "iyy_kgm2"), rel=2e-3)


def test_roll_inertia_of_204_vehicles_follows_from_their_gyration_share() -> None:
    rows = rows_of(truth_data("nhtsa_lvipd_204.csv"))
    roll = roll_inertia_from_track(
        mass=column(rows, "mass_kg"),
        track=column(rows, "t_avg_m"),
        gyration_share=column(rows, "kx_over_t"),
    )
    apart = np.abs(roll / column(rows, "ixx_kgm2") - 1.0)
    # Row 114 of the file disagrees with itself by 2.3 %: its charted share and inertia differ.
    assert np.flatnonzero(apart > 2e-3).tolist() == [113]


def test_yaw_inertia_from_mass_holds_the_published_error_on_passenger_cars() -> None:
    # NHTSA file, 73 passenger cars of 815 kg to 1978 kg: root mean square error 10.4 % of value.
    cars = [
        row
        for row in rows_of(truth_data("nhtsa_lvipd_204.csv"))
        if row["body"] in ("2S", "4S", "2C", "3H", "5H", "SW")
    ]
    estimate = yaw_inertia_from_mass(mass=np.clip(column(cars, "mass_kg"), 815.0, 1978.0))
    error = estimate / column(cars, "izz_kgm2") - 1.0
    assert len(cars) == 73
    assert math.sqrt(np.mean(error**2)) == pytest.approx(0.104, abs=0.002)


def test_one_small_rear_engined_saloon_of_1971() -> None:
    # NHTSA file: m 856.5 kg, a b 1.406 m², measured Izz 1289.0 kg·m². The mean index of cars,
    # 1.091, gives 2 % more.
    estimate = inertia_from_dynamic_index(
        mass=856.5,
        front_distance=math.sqrt(1.406),
        rear_distance=math.sqrt(1.406),
        dynamic_index=1.091,
    )
    assert estimate == pytest.approx(1314.0, rel=1e-3)
    assert estimate == pytest.approx(1289.0, rel=0.025)
    # Its centre of gravity from the mean factor 1.341 and the track 1.3208 m: 0.4925 m against
    # 0.4987 m measured.
    height = cg_height_from_stability_factor(track=1.3208, static_stability_factor=1.341)
    assert height == pytest.approx(0.4925, abs=1e-4)
    assert height == pytest.approx(0.4987, rel=0.015)


def test_a_sport_utility_of_the_2004_rollover_file() -> None:
    # NHTSA NCAP 2004, third row: mean track 62.2 in, wheelbase 109.9 in, 50.3 in behind the
    # front axle, height 26.68 in; printed weight share 0.5423 and factor 1.165.
    rear = 4408.8 * POUND * 50.3 / 109.9
    front = 4408.8 * POUND - rear
    behind = cg_distance_from_front_axle(front_axle=front, rear_axle=rear, wheelbase=109.9 * INCH)
    assert behind / INCH == pytest.approx(50.3)
    assert 1.0 - behind / (109.9 * INCH) == pytest.approx(0.5423, abs=5e-5)
    factor = static_stability_factor(track=62.2 * INCH, cg_height=26.68 * INCH)
    assert factor == pytest.approx(1.165, abs=1e-3)


def test_printed_stability_factors_of_the_2004_file() -> None:
    # 48 of its 52 rows agree to 0.005; in the other four the printed factor was corrected and
    # the height was not (the file says so).
    rows = rows_of(truth_data("ncap_2004_52.csv"))
    factor = static_stability_factor(
        track=column(rows, "Avg Track (in)"), cg_height=column(rows, "CG Height (in)")
    )
    apart = np.abs(factor - column(rows, "T/2h"))
    assert len(rows) == 52
    assert np.sum(apart <= 0.005) == 48


def test_axle_lift_returns_the_height_that_the_loads_were_made_from() -> None:
    # Synthetic after ISO 10392: m 1250 kg, L 2.5 m, 52 % front, h 0.53 m, r 0.29 m, rear lifted
    # 0.55 m: the front gains 27.063 kg by moments about the rear contact.
    angle = math.asin(0.55 / 2.5)
    assert math.degrees(angle) == pytest.approx(12.7090, abs=1e-4)
    height = cg_height_by_axle_lift_iso_10392(
        static_radius=0.29,
        wheelbase=2.5,
        mass=1250.0,
        front_axle_level=650.0,
        front_axle_lifted=677.063,
        inclination=angle,
    )
    assert height == pytest.approx(0.530, abs=1e-5)
