"""Brakes against regulations, handbooks and worked examples; each number names its source."""

from __future__ import annotations

import math

import numpy as np
import pytest
from scipy.integrate import quad, solve_ivp

from drybuild.physics.brakes import (
    actuation,
    balance,
    friction,
    heat,
    parking,
    stopping,
    warming,
)
from drybuild.tables.brakes import (
    brake_factor_range,
    fluid_boiling_point,
    hose_expansion,
    parking_grade,
    stopping_limit,
)
from drybuild.tables.table import read_table

INCH = 0.0254
POUND_FORCE = 4.4482216152605
FOOT = 0.3048
MPH = 0.44704
KMH = 1.0 / 3.6
PSI = 6894.757293168361
BAR = 1e5

# UN R13-H Annex 3 and FMVSS 135 (from memory): metres from a speed in km/h.
PRESCRIBED = [
    ("cold", 100, 70.0),
    ("cold", 80, 46.4),
    ("cold", 50, 20.0),
    ("connected", 100, 77.0),
    ("connected", 80, 50.9),
    ("connected", 50, 21.8),
    ("secondary", 100, 168.0),
    ("secondary", 80, 109.1),
    ("secondary", 50, 44.5),
    ("hot", 100, 90.0),
    ("hot", 80, 59.2),
    ("hot", 50, 25.0),
    # Directive 71/320/EEC Annex II (from memory).
    ("older cold", 80, 50.7),
    ("older secondary", 80, 93.3),
    # FMVSS 135 S7.5, 70 m from 100 km/h: NHTSA interpretation 11409 (reprint).
    ("us cold", 100, 70.0),
    ("us partial failure", 100, 168.0),
]


@pytest.mark.parametrize(("test", "kmh", "metres"), PRESCRIBED)
def test_prescribed_distances_agree_with_the_regulations(
    test: str, kmh: float, metres: float
) -> None:
    limit = stopping_limit(test)
    found = stopping.prescribed_distance(
        speed=kmh * KMH, linear=limit.linear, quadratic=limit.quadratic
    )
    assert found == pytest.approx(metres, abs=0.06)


@pytest.mark.parametrize(
    "test", ["cold", "connected", "secondary", "hot", "older cold", "older connected",
             "older secondary"],
)  # fmt: skip
def test_distance_and_deceleration_of_each_limit_belong_together(test: str) -> None:
    # UN R13-H and 71/320/EEC print both; s = 0.1 v + v²/(25.92 d_m) joins them.
    limit = stopping_limit(test)
    # 0.1 v with v in km/h is 0.36 s of travel.
    distance = stopping.stopping_distance(
        speed=limit.speed, deceleration=limit.deceleration, delay=0.36
    )
    printed = stopping.prescribed_distance(
        speed=limit.speed, linear=limit.linear, quadratic=limit.quadratic
    )
    assert distance == pytest.approx(printed, rel=4e-3)


def test_mean_fully_developed_deceleration_of_r13() -> None:
    # UN GRRF-56-3 (2004), R13 Annex 4 par. 1.1.2 (reprint): from 0.8 to 0.1 of the speed, 25.92.
    begin, end = 21.600, 59.400  # [m], 100 km/h at a constant 6.43 m/s²
    found = stopping.mean_fully_developed_deceleration(
        speed_begin=80 * KMH, speed_end=10 * KMH, distance_begin=begin, distance_end=end
    )
    assert found == pytest.approx((80**2 - 10**2) / (25.92 * (end - begin)), rel=1e-9)
    assert found == pytest.approx(6.43, abs=0.001)


def test_gillespie_stop_from_60_mph() -> None:
    # Gillespie, Fundamentals of Vehicle Dynamics, ch. 3, example 1 (from memory): 3635 lb, 2000 lb
    # of brake force, 60 mph, g = 32.2: 17.72 ft/s², 218.6 ft, 4.967 s, 437 100 ft·lb.
    deceleration = 2000 / 3635 * 32.2 * FOOT
    assert deceleration / FOOT == pytest.approx(17.72, abs=0.005)
    speed = 60 * MPH
    distance = stopping.stopping_distance(speed=speed, deceleration=deceleration, delay=0.0)
    assert distance / FOOT == pytest.approx(218.6, abs=0.1)
    time = stopping.stopping_time(speed=speed, deceleration=deceleration)
    assert time == pytest.approx(4.967, abs=0.002)
    mass = 3635 * POUND_FORCE / (32.2 * FOOT)
    energy = stopping.braking_energy(mass=mass, speed_begin=speed, speed_end=0.0)
    assert energy / (POUND_FORCE * FOOT) == pytest.approx(437100, rel=1e-3)


@pytest.mark.parametrize(
    "row", read_table("brake_stopping_table_1972").rows, ids=lambda r: r["speed"]
)
def test_a_1972_inspection_table_is_one_deceleration(row: dict[str, str]) -> None:
    # American Samoa Code Annotated 22.1109 (reprint): every row is 11.6 ft/s² within 0.4 %.
    found = stopping.stopping_distance(
        speed=float(row["speed"]) * MPH, deceleration=11.6 * FOOT, delay=0.0
    )
    assert found / FOOT == pytest.approx(float(row["distance"]), rel=0.004)


def test_pennsylvania_inspection_stop() -> None:
    # 67 Pa. Code ch. 175 Table I (reprint): cars 65.2 % and 21 ft/s², service stop 20 ft from
    # 20 mph. The table rounds 20.49 ft down to 20.
    distance = stopping.stopping_distance(speed=20 * MPH, deceleration=21 * FOOT, delay=0.0)
    assert distance / FOOT == pytest.approx(20.49, abs=0.01)
    assert pytest.approx(0.652, abs=0.001) == 21 / 32.174


@pytest.mark.parametrize(
    ("mph", "metres"), [(20, 12), (30, 23), (40, 36), (50, 53), (60, 73), (70, 96)]
)
def test_highway_code_distances(mph: float, metres: float) -> None:
    # The Highway Code (from memory), rounded to whole metres: 0.67 s thinking (1 ft a mph) and
    # 20 ft of braking from 20 mph, growing with the square.
    deceleration = (20 * MPH) ** 2 / (2 * 20 * FOOT)
    found = stopping.stopping_distance(speed=mph * MPH, deceleration=deceleration, delay=FOOT / MPH)
    assert found == pytest.approx(metres, abs=0.8)


@pytest.mark.parametrize(
    ("mph", "feet", "g"),
    [(60, 216, 0.557), (60, 204, 0.590), (60, 194, 0.620), (60, 456, 0.264), (30, 54, 0.557)],
)
def test_fmvss_105_distances(mph: float, feet: float, g: float) -> None:
    # FMVSS 105 Table II column I (from memory); the decelerations by hand from v²/2s.
    found = stopping.stopping_distance(speed=mph * MPH, deceleration=g * 9.80665, delay=0.0)
    assert found / FOOT == pytest.approx(feet, rel=2e-3)


# Shigley's Mechanical Engineering Design, ch. 16.


def test_shigley_problem_16_1() -> None:
    # Solution read in study-site reprints: d 300 mm, R 125 mm, b 40 mm, 2.2 kN, f 0.28, lining 0 to
    # 120°: 734 kPa on the right-hand shoe. The arm 2 R cos 30° and the torques 277 and 144 N·m
    # (421 in all) are from memory of the same solution.
    shoe = friction.hinged_shoe_moments(
        friction=0.28,
        largest_pressure=1.0,
        width=0.040,
        drum_radius=0.150,
        hinge_radius=0.125,
        heel_angle=0.0,
        toe_angle=math.radians(120),
    )
    arm = 2 * 0.125 * math.cos(math.radians(30))
    right = 2200.0 / float(shoe.leading_force(actuation_arm=arm))
    assert right == pytest.approx(734e3, abs=0.6e3)
    left = 2200.0 / float(shoe.trailing_force(actuation_arm=arm))
    assert right * shoe.torque == pytest.approx(277, abs=1)
    assert left * shoe.torque == pytest.approx(144, abs=1)


def test_shigley_example_16_2() -> None:
    # From memory, arms a and c recalled with the answer in mind: 300 mm drum, 32 mm shoe, f 0.32,
    # 1000 kPa, 0 to 126°: M_f 304 and M_n 788 N·m, F 2.29 kN, 366 + 162 = 528 N·m. The book rounds
    # on the way, which explains half a per cent.
    shoe = friction.hinged_shoe_moments(
        friction=0.32,
        largest_pressure=1e6,
        width=0.032,
        drum_radius=0.150,
        hinge_radius=math.hypot(0.112, 0.050),
        heel_angle=0.0,
        toe_angle=math.radians(126),
    )
    assert shoe.friction_moment == pytest.approx(304, abs=1)
    assert shoe.normal_moment == pytest.approx(788, abs=1)
    force = float(shoe.leading_force(actuation_arm=0.212))
    assert force == pytest.approx(2290, rel=5e-3)
    assert shoe.torque == pytest.approx(366, abs=1)
    trailing = force / float(shoe.trailing_force(actuation_arm=0.212))
    assert trailing * 1000 == pytest.approx(443, rel=5e-3)
    assert trailing * shoe.torque == pytest.approx(162, rel=5e-3)


def test_shigley_example_16_3() -> None:
    # From memory: pads of 108°, 3.875 and 5.5 in, f 0.37, 6500 lbf·in a pad, 1.5 in cylinders:
    # 315.8 psi, 3748 lbf, r_e 4.688 in, force radius 4.024 in, 2121 psi in the line.
    pad = friction.annular_pad_uniform_wear(
        torque=6500 * POUND_FORCE * INCH,
        friction=0.37,
        outer_radius=5.5 * INCH,
        inner_radius=3.875 * INCH,
        angle=math.radians(108),
    )
    assert pad.largest_pressure / PSI == pytest.approx(315.8, abs=0.1)
    assert pad.normal_force / POUND_FORCE == pytest.approx(3748, abs=1)
    assert pad.effective_radius / INCH == pytest.approx(4.688, abs=0.001)
    assert pad.force_radius / INCH == pytest.approx(4.024, abs=0.001)
    line = pad.normal_force / float(actuation.bore_area(diameter=1.5 * INCH))
    assert line / PSI == pytest.approx(2121, abs=1)


def test_shoe_moments_agree_with_numerical_integration() -> None:
    # scipy.integrate.quad on the integrands as Shigley's eq. 16-2 and 16-3 print them.
    r, a, heel, toe = 0.114, 0.090, math.radians(15), math.radians(125)
    shoe = friction.hinged_shoe_moments(
        friction=0.36,
        largest_pressure=8e5,
        width=0.045,
        drum_radius=r,
        hinge_radius=a,
        heel_angle=heel,
        toe_angle=toe,
    )
    rub = quad(lambda t: math.sin(t) * (r - a * math.cos(t)), heel, toe)[0]
    press = quad(lambda t: math.sin(t) ** 2, heel, toe)[0]
    assert shoe.friction_moment == pytest.approx(0.36 * 8e5 * 0.045 * r * rub, rel=1e-9)
    assert shoe.normal_moment == pytest.approx(8e5 * 0.045 * r * a * press, rel=1e-9)


# Brake factors: Bosch Automotive Handbook and Limpert (from memory), at friction 0.35 to 0.40.


def test_disc_factor_lies_in_the_handbooks_range() -> None:
    low, high = brake_factor_range("disc")
    assert float(friction.disc_brake_factor(friction=0.35)) == pytest.approx(low)
    assert float(friction.disc_brake_factor(friction=0.40)) == pytest.approx(high)


def test_drum_factors_lie_in_the_handbooks_ranges_with_ordinary_arms() -> None:
    # Lever model with arms 200, 100 and 115 mm; at 0.40 each kind falls into its printed range.
    arms = {"friction": 0.40, "actuation_arm": 0.2, "normal_arm": 0.1, "friction_arm": 0.115}
    leading = friction.leading_shoe_factor(**arms)
    trailing = friction.trailing_shoe_factor(**arms)
    simplex = float(friction.simplex_factor(leading=leading, trailing=trailing))
    duplex = float(friction.duplex_factor(leading=leading))
    servo = float(friction.duo_servo_factor(**arms))
    for kind, factor in (("simplex", simplex), ("duplex", duplex), ("duo-servo", servo)):
        low, high = brake_factor_range(kind)
        # Printed ranges round to a tenth or to a half.
        assert low - 0.05 <= factor <= high + 0.05, kind


def test_drums_are_more_sensitive_than_discs() -> None:
    # Limpert, ch. 2 (from memory): (dC*/C*)/(dμ/μ) is 1.0 disc, 1.3 to 1.5 simplex, 2.5 and more
    # duo-servo, between friction 0.30 and 0.40.
    arms = {"actuation_arm": 0.2, "normal_arm": 0.1, "friction_arm": 0.115}

    def sensitivity(factor: object, mu: float) -> float:
        assert callable(factor)
        step = 1e-5
        return float((factor(mu + step) - factor(mu - step)) / (2 * step) * mu / factor(mu))

    def simplex(mu: float) -> float:
        return float(
            friction.simplex_factor(
                leading=friction.leading_shoe_factor(friction=mu, **arms),
                trailing=friction.trailing_shoe_factor(friction=mu, **arms),
            )
        )

    assert sensitivity(lambda mu: float(friction.disc_brake_factor(friction=mu)), 0.35) == (
        pytest.approx(1.0)
    )
    assert 1.3 <= sensitivity(simplex, 0.35) <= 1.5
    assert sensitivity(lambda mu: float(friction.duo_servo_factor(friction=mu, **arms)), 0.38) > 2.5


# Balance.


@pytest.mark.parametrize(
    ("pressure", "rear_pressure", "front", "rear", "rate", "mu_front", "mu_rear", "efficiency"),
    [
        (100, 100, 330, 231, 0.138, 0.143, 0.132, 0.966),
        (200, 200, 661, 462, 0.276, 0.273, 0.280, 0.985),
        (300, 293, 991, 677, 0.410, 0.392, 0.437, 0.936),
        (400, 323, 1321, 747, 0.508, 0.508, 0.507, 0.999),
        (500, 353, 1652, 816, 0.606, 0.617, 0.584, 0.982),
        (600, 383, 1982, 886, 0.704, 0.720, 0.670, 0.977),
        (700, 413, 2312, 955, 0.802, 0.818, 0.766, 0.981),
    ],
)
def test_gillespie_example_with_a_proportioning_valve(
    pressure: float,
    rear_pressure: float,
    front: float,
    rear: float,
    rate: float,
    mu_front: float,
    mu_rear: float,
    efficiency: float,
) -> None:
    # Gillespie ch. 3, example 2: inputs from memory (wheelbase 108.5 in, height 20.5 in, radius
    # 12.11 in, 2210 and 1864 lb, 20 and 14 in·lb/psi a brake, valve 290/0.3). The outputs were
    # worked out apart from this code with the book's formulas, so they show arithmetic only.
    behind = actuation.proportioned_pressure(pressure=float(pressure), knee=290.0, slope=0.3)
    assert behind == pytest.approx(rear_pressure, abs=0.6)
    front_force, rear_force = 2 * 20 * pressure / 12.11, 2 * 14 * float(behind) / 12.11
    assert front_force == pytest.approx(front, abs=0.6)
    assert rear_force == pytest.approx(rear, abs=0.6)
    weight = 2210 + 1864
    found = (front_force + rear_force) / weight
    assert found == pytest.approx(rate, abs=0.0006)
    car = {"front_share": 2210 / weight, "height_ratio": 20.5 / 108.5, "braking_rate": found}
    f1 = balance.front_adhesion_used(front_force=front_force / weight, **car)
    f2 = balance.rear_adhesion_used(rear_force=rear_force / weight, **car)
    assert f1 == pytest.approx(mu_front, abs=0.0006)
    assert f2 == pytest.approx(mu_rear, abs=0.0006)
    assert balance.braking_efficiency(
        braking_rate=found, front_adhesion=f1, rear_adhesion=f2
    ) == pytest.approx(efficiency, abs=0.0006)


def test_wong_which_axle_locks_first() -> None:
    # Wong, Theory of Ground Vehicles, ch. 3, example (inputs from memory): 2.87 m wheelbase, centre
    # of gravity 1.27 m behind the front axle and 0.508 m high, 60 % front braking. The book's
    # verdicts: on μ 0.8 the rear locks first, on 0.2 the front.
    car = {"front_share": (2.87 - 1.27) / 2.87, "height_ratio": 0.508 / 2.87, "brake_share": 0.60}
    dry = {"adhesion": 0.8, **car}
    assert balance.rear_lock_rate(**dry) < balance.front_lock_rate(**dry)
    wet = {"adhesion": 0.2, **car}
    assert balance.front_lock_rate(**wet) < balance.rear_lock_rate(**wet)


def test_ideal_shares_by_hand() -> None:
    # By hand: 1400 kg, 2.6 m, 1.25 m behind the front axle, 0.52 m high.
    car = {"front_share": 1.35 / 2.6, "height_ratio": 0.52 / 2.6}
    for rate, share in ((0.2, 0.559), (0.4, 0.599), (0.6, 0.639), (0.8, 0.679), (1.0, 0.719)):
        assert balance.ideal_front_share(braking_rate=rate, **car) == pytest.approx(
            share, abs=0.0006
        )
    weight = 1400 * 9.80665
    assert balance.front_load(braking_rate=0.8, **car) * weight == pytest.approx(9325, abs=1)


def test_adhesion_clauses_end_where_the_printed_n1_clause_ends() -> None:
    # 71/320/EEC Annex II Appendix (reprint): the N1 alternative ends at z = 0.61 for k = 0.8.
    assert balance.least_rate_eec_71_320(adhesion=0.8) == pytest.approx(0.61)
    # UN R13-H Annex 5 (from memory): z = 0.52 at k = 0.8.
    assert balance.least_rate_ece_r13h(adhesion=0.8) == pytest.approx(0.52)


# Actuation.


@pytest.mark.parametrize(("inches", "newtons"), [(7, 1597), (8, 2086), (9, 2640), (10, 3259)])
def test_booster_assist_by_hand(inches: float, newtons: float) -> None:
    # By hand from pressure times area: 20 inHg is 67.7 kPa, efficiency 0.95, no rod.
    found = actuation.booster_assist(
        diameter=inches * INCH,
        rod_diameter=0.0,
        diaphragms=1.0,
        depression=20 * 3386.389,
        efficiency=0.95,
    )
    assert found == pytest.approx(newtons, rel=1e-3)


def test_hydraulic_gain_by_hand() -> None:
    # By hand: 300 N, 6:1, 22.22 mm, no loss: 46.42 bar; 54 mm piston, μ 0.38, 138/92 mm: 929 N·m.
    pressure = actuation.pressure_for_pedal_force(
        pedal_force=300.0, pedal_ratio=6.0, efficiency=1.0, bore=0.02222, gain=1.0, assist=0.0
    )
    assert pressure / BAR == pytest.approx(46.42, abs=0.01)
    torque = friction.brake_torque(
        pressure=float(pressure),
        threshold_pressure=0.0,
        piston_area=float(actuation.bore_area(diameter=0.054)),
        brake_factor=float(friction.disc_brake_factor(friction=0.38)),
        radius=float(
            friction.effective_radius_uniform_wear(outer_radius=0.138, inner_radius=0.092)
        ),
    )
    assert torque == pytest.approx(929.1, abs=0.3)


@pytest.mark.parametrize(("psi", "cc_per_metre"), [(1000, 2.17), (1500, 2.59), (2900, 3.97)])
def test_hose_expansion_agrees_with_fmvss_106(psi: float, cc_per_metre: float) -> None:
    # 49 CFR 571.106 Table I (from memory), bore 1/8 in: 0.66, 0.79 and 1.21 cc a foot.
    printed = hose_expansion(bore=0.003, low_expansion=False)
    volume = actuation.hose_volume(
        pressure=psi * PSI * (1.0 - 1e-12),  # the last printed point belongs to the table
        length=1.0,
        printed_pressure=printed.pressure,
        printed_volume=printed.volume,
    )
    assert volume * 1e6 == pytest.approx(cc_per_metre, abs=0.005)


def test_fluid_boiling_points_agree_with_fmvss_116() -> None:
    # 49 CFR 571.116 (from memory), degrees Celsius.
    for fluid, dry, wet in (("DOT 3", 205, 140), ("DOT 4", 230, 155), ("DOT 5.1", 260, 180)):
        assert fluid_boiling_point(fluid, wet=False) == pytest.approx(dry + 273.15)
        assert fluid_boiling_point(fluid, wet=True) == pytest.approx(wet + 273.15)


# Heat.


def disc(**changed: float) -> warming.Rotor:
    """A front disc of 7 kg with 0.12 m² in the air; no hub."""
    usual: dict[str, float] = {
        "heat_capacity": 3500.0,
        "cooling_area": 0.12,
        "radiating_area": 0.08,
        "emissivity": 0.55,
        "hub_conductance": 0.0,
        "fast_convection": 60.0,
        "fast_speed": 100 * KMH,
        "still_convection": 6.0,
    }
    return warming.Rotor(**{**usual, **changed})


def test_repeated_stops_agree_with_stepping_through_them() -> None:
    # Stop by stop with scipy's integrator for the cooling, against the closed form.
    rise, iron = 0.0, 7.0 * 500.0
    for _ in range(10):
        rise += 54.0
        peak = rise
        cooled = solve_ivp(
            lambda _t, y: -7.2 / iron * y, (0.0, 45.0), [rise], rtol=1e-10, atol=1e-10
        )
        rise = float(cooled.y[0, -1])
    # Limpert ch. 3 (from memory): ΔT (1 − e^(−n x)) / (1 − e^(−x)), x = h A t / (m c).
    x = 7.2 * 45.0 / iron
    closed = 54.0 * math.expm1(-10 * x) / math.expm1(-x)
    assert closed == pytest.approx(peak, rel=1e-6)
    assert closed == pytest.approx(368.8, abs=0.3)  # by hand
    # The time-stepped model in the closed form's limit: a stop in no time, speed always the same.
    found = warming.stops_temperature(
        rotor=disc(emissivity=0.0, still_convection=60.0),
        air=300.0,
        heat=54.0 * iron,
        stops=10,
        interval=45.0,
        braking_time=1e-3,
        speed_from=100 * KMH,
        speed_to=0.0,
    )
    assert found[-1] - 300.0 == pytest.approx(closed, rel=1e-4)


def test_flash_temperature_agrees_with_the_conduction_integral() -> None:
    # Duhamel's integral over the constant-flux solution of Incropera and DeWitt, sec. 5.7,
    # evaluated by quadrature; Limpert's sqrt(5/18) lies 0.9 % below.
    flux, time, k, rho, c = 1.317e6, 4.32, 48.0, 7200.0, 500.0
    at = time / 2.0
    integral = quad(lambda u: 2.0 * flux * (1.0 - (at - u * u) / time), 0.0, math.sqrt(at))[0]
    duhamel = integral / math.sqrt(math.pi * k * rho * c)
    found = float(
        heat.surface_flash_rise(
            initial_flux=flux, stop_time=time, conductivity=k, density=rho, specific_heat=c
        )
    )
    assert found == pytest.approx(duhamel, rel=1e-9)
    limpert = math.sqrt(5 / 18) * flux * math.sqrt(time) / math.sqrt(k * rho * c)
    assert found / limpert == pytest.approx(1.009, abs=0.001)


def test_convection_of_a_free_disc_starts_in_the_practical_range_and_leaves_it() -> None:
    # Limpert ch. 3 (from memory) gives both: the correlation, and 30 to 80 W/m²K between 50 and
    # 120 km/h for discs on cars. They agree at 50 km/h only. The correlation is for a disc in the
    # free stream; on a car the wheel shelters it, so at speed it is an upper bound, about twice the
    # practical figure. Brake temperatures therefore rest on the practical range.
    def free(kmh: float) -> float:
        return float(
            heat.convection_coefficient_solid_disc(
                diameter=0.276,
                speed=kmh * KMH,
                air_conductivity=0.026,
                air_kinematic_viscosity=1.6e-5,
            )
        )

    assert 30 <= free(50) <= 80
    assert 80 < free(120) < 2.5 * 80


def test_type_2_descent_energy() -> None:
    # Type II test of 71/320/EEC (from memory): 30 km/h, 6 km, 6 % down: m g h = 3.524 kJ a kg.
    power = heat.descent_power(
        mass=1.0,
        gravity=9.80665,
        speed=30 * KMH,
        grade=0.06,
        rolling_resistance=0.0,
        drag_area=0.0,
        air_density=1.2,
        engine_braking=0.0,
    )
    assert power * (6000 / (30 * KMH)) == pytest.approx(3524, rel=2e-3)


# Parking.


def test_parking_on_the_regulations_grades_by_hand() -> None:
    # UN R13-H 20 % and 71/320/EEC 18 % (from memory), MOT 16 % (reprint). 1400 kg, by hand.
    weight = 1400 * 9.80665
    for regulation, newtons in (("UN R13-H", 2693), ("71/320/EEC", 2432), ("MOT", 2169)):
        force = parking.holding_force(weight=weight, grade=parking_grade(regulation))
        assert force == pytest.approx(newtons, abs=1)
    car = {"front_share": 1.35 / 2.6, "height_ratio": 0.2, "grade": 0.20}
    assert parking.adhesion_needed_rear(facing=1, **car) == pytest.approx(0.384, abs=0.001)
    assert parking.adhesion_needed_rear(facing=-1, **car) == pytest.approx(0.454, abs=0.001)


def test_mot_parking_grade_in_force_over_weight() -> None:
    # DVSA MOT inspection manual (reprint): 16 %, which is 9.09° and 0.158 of the weight.
    assert math.degrees(math.atan(parking_grade("MOT"))) == pytest.approx(9.09, abs=0.005)
    assert parking.holding_force(weight=1.0, grade=0.16) == pytest.approx(0.158, abs=0.0005)


def test_arrays_keep_their_last_axis() -> None:
    rates = balance.ideal_front_share(
        front_share=np.full(3, 0.5), height_ratio=0.2, braking_rate=np.array([0.2, 0.5, 0.8])
    )
    assert rates.shape == (3,)
