"""What an unweighed car is taken to be, against measured vehicles, through whole build files.

The bands of passenger cars and of pick-ups, vans and utilities were summarised from the same 204
vehicles, so the first count only shows that nothing is lost on the way through the build. The
second (bands made from one half, tried on the other) and the third (a file that no band was made
from) are the outside checks.
"""

from __future__ import annotations

import csv
import math
from functools import cache

import numpy as np
import pytest

from drybuild.tables.typical import typical_range
from tests.building import Evaluated, evaluate
from tests.truth.data import truth_data

CARS = ("2S", "4S", "2C", "3H", "5H", "SW")
INCH, POUND = 0.0254, 0.45359237


def rows_of(name: str) -> list[dict[str, str]]:
    lines = truth_data(name).read_text().splitlines()
    return list(csv.DictReader(line for line in lines if not line.startswith("#")))


def kind_of(row: dict[str, str]) -> str:
    return "unitary" if row["body"] in CARS else "ladder"


@cache
def estimated(kind: str, wheelbase: float, track: float, front: float, rear: float) -> Evaluated:
    """Return a build that gives only size and scales."""
    build = evaluate(
        f"build: a measured vehicle\n"
        f"car:\n"
        f"  body: {{kind: {kind}, wheelbase: {wheelbase} m ± 1 mm, "
        f"front_track: {track} m ± 1 mm, rear_track: {track} m ± 1 mm}}\n"
        f"  mass: {{front_axle: {front} kg ± 1 kg, rear_axle: {rear} kg ± 1 kg, "
        f"fuel_aboard: 40 kg ± 0.1 kg, fuel_when_full: 40 kg ± 0.1 kg}}\n"
    )
    assert not build.problems
    return build


def inside(build: Evaluated, name: str, measured: float) -> bool:
    """Say whether a measured value lies between the 5 % and 95 % points of a quantity."""
    low, high = np.quantile(build.samples_of(name)[1:], (0.05, 0.95))
    return bool(low <= measured <= high)


def held(name: str, measured: str) -> int:
    count = 0
    for row in rows_of("nhtsa_lvipd_204.csv"):
        # The file gives the product of the axle distances only: an even car of the same product.
        wheelbase = 2.0 * math.sqrt(float(row["ab_m2"]))
        half = float(row["mass_kg"]) / 2.0
        build = estimated(kind_of(row), wheelbase, float(row["t_avg_m"]), half, half)
        count += inside(build, name, float(row[measured]))
    return count


@pytest.mark.parametrize(
    ("name", "measured"),
    [
        ("yaw_inertia", "izz_kgm2"),
        ("pitch_inertia", "iyy_kgm2"),
        ("roll_inertia", "ixx_kgm2"),
        ("cg_height", "cg_h_m"),
    ],
)
def test_estimates_hold_nine_of_ten_measured_vehicles(name: str, measured: str) -> None:
    # NHTSA Light Vehicle Inertial Parameter Database. Counted when written: yaw 182 (89.2 %), pitch
    # 178 (87.3 %), roll 182 (89.2 %), height of the centre of gravity 182 (89.2 %) of 204.
    # 90 % is 184; the binomial spread of such a count is 4.3.
    assert held(name, measured) == pytest.approx(0.9 * 204, abs=2.0 * 4.3)


@pytest.mark.parametrize("column", ["ssf", "di_yaw", "di_pitch", "kx_over_t"])
def test_bands_of_one_half_hold_about_nine_of_ten_of_the_other(column: str) -> None:
    # The same file, odd rows against even rows and back, cars and others apart.
    held_out = 0
    for cars in (True, False):
        rows = [row for row in rows_of("nhtsa_lvipd_204.csv") if (row["body"] in CARS) == cars]
        values = np.array([float(row[column]) for row in rows])
        for odd in (0, 1):
            low, high = np.quantile(values[odd::2], (0.05, 0.95))
            held_out += int(np.sum((values[1 - odd :: 2] >= low) & (values[1 - odd :: 2] <= high)))
    # Counted: 85 % to 87 %. A band from 36 or 65 rows has its ends inside the outermost of them,
    # so it is a little too narrow for the other half.
    assert 0.84 <= held_out / 204 <= 0.94


@pytest.mark.parametrize(
    ("entry", "column"),
    [("stability_factor", "ssf"), ("yaw_index", "di_yaw"), ("roll_gyration", "kx_over_t")],
)
@pytest.mark.parametrize("kind", ["unitary", "ladder"])
def test_typical_ranges_are_what_the_file_gives(entry: str, column: str, kind: str) -> None:
    values = [float(row[column]) for row in rows_of("nhtsa_lvipd_204.csv") if kind_of(row) == kind]
    known = typical_range(f"car.mass.{entry}", kind)
    assert known is not None
    assert [known.low, known.high] == pytest.approx(np.quantile(values, (0.05, 0.95)), abs=2e-3)


def test_centre_of_gravity_of_vehicles_that_no_band_was_made_from() -> None:
    # NHTSA NCAP 2004: 52 vehicles, four of them flagged bad in the file (printed factor and height
    # disagree) and left out. Pick-ups, vans and sport utilities are tried as ladder frames.
    count, tried, low_cars = 0, 0, 0
    for row in rows_of("ncap_2004_52.csv"):
        track = float(row["Avg Track (in)"])
        height = float(row["CG Height (in)"])
        if abs(track / (2.0 * height) - float(row["T/2h"])) > 0.005:
            continue
        kind = "ladder" if row["Type"] in ("Pickup", "SUV", "Van") else "unitary"
        wheelbase = float(row["Wheel base (in)"])
        mass = float(row["Test Weight (lb)"]) * POUND
        rear = mass * float(row["CG Long (in)"]) / wheelbase
        build = estimated(kind, wheelbase * INCH, track * INCH, mass - rear, rear)
        tried += 1
        count += inside(build, "cg_height", height * INCH)
        low_cars += bool(height * INCH < np.quantile(build.samples_of("cg_height")[1:], 0.05))
    assert tried == 48
    # Counted: 35 of 48 (73 %). All the 13 others lie below their band: vehicles of the 2000s are
    # wider for their height than those of 1971 to 1998 that the bands are from (NHTSA prints a mean
    # factor of 1.34 then and 1.40 later for cars). The bands are for classic cars and stay.
    assert low_cars == tried - count
    assert count / tried >= 0.7
