"""Springs, bars, stops and dampers to order, against texts, other programs and identities."""

from __future__ import annotations

import math
from itertools import pairwise

import numpy as np
import pytest
from Pynite import FEModel3D
from scipy.integrate import quad, solve_ivp
from scipy.optimize import brentq

from drybuild.physics.air_springs import ATMOSPHERE, air_spring_pressure, air_spring_rate
from drybuild.physics.anti_roll_bars import (
    BarShape,
    bar_diameter_for,
    bar_shape,
    bar_stress,
    shaped_bar_rate,
)
from drybuild.physics.bump_stops import bump_stop_force, bump_stop_rate, stop_compression
from drybuild.physics.coil_springs import (
    free_length,
    solid_length,
    surge_frequency,
    working_coils,
)
from drybuild.physics.dampers import damper_curve, damper_force
from drybuild.physics.leaf_springs import leaf_stress, leaf_torque_stress, leaf_windup_rate
from drybuild.physics.spring_choice import (
    bar_roll_stiffness_for,
    flat_ride_frequency_ratio,
    roll_stiffness_for_gradient,
    wheel_rate_for_frequency,
)
from drybuild.physics.springs import anti_roll_bar_rate, leaf_spring_rate
from drybuild.physics.suspension import natural_frequency, ride_rate

INCH, LBF = 0.0254, 4.4482216
YOUNG, SHEAR = 206e9, 77.25e9


def test_solid_length_of_shigley_example_10_1() -> None:
    # Shigley, Example 10-1 (from memory): d 0.037 in, 12.5 coils, squared ends: 0.4995 in.
    found = solid_length(wire_diameter=0.037 * INCH, total_coils=12.5, ground=False)
    assert found / INCH == pytest.approx(0.4995, abs=5e-5)


def test_free_length_of_shigley_example_10_1() -> None:
    # The same: y 1.56 in to solid 0.5 in at 6.46 lbf and 4.13 lbf/in: L0 2.06 in.
    found = free_length(loaded_length=0.5 * INCH, load=6.46 * LBF, rate=4.13 * LBF / INCH)
    assert found / INCH == pytest.approx(2.06, abs=0.01)


def test_working_coils_of_shigley_example_10_1() -> None:
    # The same: G 11.85 Mpsi, D 0.400 in, 4.13 lbf/in printed: 10.5 working coils.
    psi = 6894.757
    found = working_coils(
        rate=4.13 * LBF / INCH,
        wire_diameter=0.037 * INCH,
        mean_diameter=0.400 * INCH,
        shear_modulus=11.85e6 * psi,
    )
    assert found == pytest.approx(10.5, rel=0.01)


def test_coil_of_car_size_the_other_way_round() -> None:
    # Chassis reference S2: d 13, D 120 mm, 6 coils, G 79.3 GPa: 27.306 N/mm.
    found = working_coils(
        rate=27_306.0, wire_diameter=0.013, mean_diameter=0.120, shear_modulus=79.3e9
    )
    assert found == pytest.approx(6.0, rel=2e-5)


def test_surge_is_the_first_frequency_of_a_chain_of_masses() -> None:
    # A spring between seats as 400 masses and links: eigenvalue of the tridiagonal chain (numpy).
    count, rate, mass = 400, 27_306.0, 2.1
    links = rate * (count + 1)
    matrix = links / (mass / count) * (2 * np.eye(count) - np.eye(count, k=1) - np.eye(count, k=-1))
    first = math.sqrt(np.linalg.eigvalsh(matrix)[0]) / (2 * math.pi)
    assert surge_frequency(rate=rate, wire_mass=mass) == pytest.approx(first, rel=0.004)


def test_leaf_stress_of_khurmi_and_gupta() -> None:
    # Chassis reference S3 (from memory): 5.4 kN, span 1.05 m less a band of 85 mm, 12 leaves
    # 40 x 10 mm, two of them full; all taken as graduated the text's 6 W l/(n b t²), W = 2.7 kN.
    half = (1.05 - 0.085) / 2
    found = leaf_stress(
        load=5400.0, front_length=half, rear_length=half, leaves=12, width=0.040, thickness=0.010
    )
    assert found == pytest.approx(6 * 2700.0 * half / (12 * 0.040 * 0.010**2))


def test_windup_of_equal_halves_is_the_manuals() -> None:
    # SAE HS-788 (from memory): windup rate k L²/4 of a symmetrical spring.
    found = leaf_windup_rate(front_length=0.6, rear_length=0.6, rate=18_333.0)
    assert found == pytest.approx(18_333.0 * 1.2**2 / 4)


def _strip(a: float, b: float, inertia: float, moment: float, force: float) -> tuple[float, float]:
    """Return rise and turn at the seat of a stepped strip on two pins, by PyNiteFEA.

    Each half is a leaf of uniform strength: its inertia falls to nothing at the eye. Twenty pieces
    of constant section at the inertia of their middle.
    """
    frame = FEModel3D()
    frame.add_material("steel", YOUNG, SHEAR, 0.3, 7850.0)
    count = 40
    places = [*np.linspace(-a, 0.0, count + 1), *np.linspace(0.0, b, count + 1)[1:]]
    for number, x in enumerate(places):
        frame.add_node(str(number), float(x), 0.0, 0.0)
    for number, (x, y) in enumerate(pairwise(places)):
        middle = (x + y) / 2
        share = 1 + middle / a if middle < 0 else 1 - middle / b
        frame.add_section(f"s{number}", 1e-3, inertia * share, inertia * share, inertia)
        frame.add_member(f"m{number}", str(number), str(number + 1), "steel", f"s{number}")
    last = str(len(places) - 1)
    frame.def_support("0", True, True, True, True, True, False)
    frame.def_support(last, False, True, True, True, True, False)
    seat = str(count)
    frame.add_node_load(seat, "FY", force)
    frame.add_node_load(seat, "MZ", moment)
    frame.analyze_linear()
    return frame.nodes[seat].DY["Combo 1"], frame.nodes[seat].RZ["Combo 1"]


@pytest.mark.parametrize(("a", "b"), [(0.6, 0.6), (0.5, 0.7)])
def test_windup_and_rate_of_a_leaf_against_finite_elements(a: float, b: float) -> None:
    # A graduated leaf as a strip of uniform strength: 40 steps each half, PyNiteFEA.
    inertia = 5 * 0.05 * 0.006**3 / 12
    rate = leaf_spring_rate(
        front_length=a, rear_length=b, inertia_sum=inertia, youngs_modulus=YOUNG,
        stiffening_factor=1.0,
    )  # fmt: skip
    rise, _ = _strip(a, b, inertia, 0.0, 1000.0)
    assert 1000.0 / rise == pytest.approx(rate, rel=0.01)
    _, turn = _strip(a, b, inertia, 300.0, 0.0)
    windup = leaf_windup_rate(front_length=a, rear_length=b, rate=rate)
    assert 300.0 / turn == pytest.approx(windup, rel=0.01)


def test_torque_stress_is_that_of_the_eyes_forces() -> None:
    # Statics: 300 N·m over 1.2 m puts 250 N on each eye; 0.7 m away that is 175 N·m.
    found = leaf_torque_stress(
        torque=300.0, longer_half=0.7, span=1.2, leaves=5, width=0.05, thickness=0.006
    )
    assert found == pytest.approx(175.0 / (5 * 0.05 * 0.006**2 / 6))


ARM, LEVER, CENTRE, SPACING, DIAMETER = 0.25, 0.22, 0.90, 0.70, 0.020


def _u_bar() -> BarShape:
    splay = math.sqrt(ARM**2 - LEVER**2)
    line = np.array([(LEVER, CENTRE / 2 + splay, 0.0), (0, CENTRE / 2, 0), (0, 0, 0)], dtype=float)
    return bar_shape(line=line[..., np.newaxis], bush=SPACING / 2)


@pytest.mark.parametrize("bush", [math.inf, 2.5e6])
def test_a_u_bar_by_its_line_is_the_manuals(bush: float) -> None:
    # SAE HS-796 U-bar (from memory), chassis reference S6: 37.836 N/mm with rigid bushes.
    of_line = shaped_bar_rate(
        shape=_u_bar(), diameter=DIAMETER, bore=0.0, bush_rate=bush, youngs_modulus=YOUNG,
        shear_modulus=SHEAR,
    )  # fmt: skip
    manual = anti_roll_bar_rate(
        diameter=DIAMETER, bore=0.0, arm_length=ARM, lever=LEVER, centre_length=CENTRE,
        bush_spacing=SPACING, bush_rate=bush, youngs_modulus=YOUNG, shear_modulus=SHEAR,
    )  # fmt: skip
    assert of_line[0] == pytest.approx(manual, rel=1e-12)
    if math.isinf(bush):
        assert of_line[0] == pytest.approx(37_836.0, rel=2e-5)


BENT = [
    (0.26, 0.56, 0.03), (0.10, 0.52, 0.05), (0.0, 0.44, 0.0),
    (0.0, 0.34, 0.0), (0.07, 0.20, 0.09), (0.07, 0.0, 0.09),
]  # fmt: skip
"""A bar with cranked arms and a middle that goes round a sump."""


def test_a_bar_of_any_bend_against_a_frame_in_space() -> None:
    # PyNiteFEA: 10 rods in space, held up and fore-and-aft at two bushes.
    frame = FEModel3D()
    frame.add_material("steel", YOUNG, SHEAR, 0.3, 7850.0)
    inertia = math.pi * DIAMETER**4 / 64
    frame.add_section("bar", math.pi * DIAMETER**2 / 4, inertia, inertia, 2 * inertia)
    left = [(x, y, z) for x, y, z in BENT]
    whole = left + [(x, -y, z) for x, y, z in reversed(left[:-1])]
    for number, (x, y, z) in enumerate(whole):
        frame.add_node(str(number), x, y, z)
    for number in range(len(whole) - 1):
        frame.add_member(f"m{number}", str(number), str(number + 1), "steel", "bar")
    last = len(whole) - 1
    bush, middle = 3, len(left) - 1
    frame.def_support(str(bush), True, True, True, False, False, False)
    frame.def_support(str(last - bush), True, False, True, False, False, False)
    frame.def_support(str(middle), False, False, False, False, True, False)
    frame.add_node_load("0", "FZ", 1000.0)
    frame.add_node_load(str(last), "FZ", -1000.0)
    frame.analyze_linear()
    moved = frame.nodes["0"].DZ["Combo 1"] - frame.nodes[str(last)].DZ["Combo 1"]
    shape = bar_shape(line=np.array(BENT)[..., np.newaxis], bush=0.34)
    own = shaped_bar_rate(
        shape=shape, diameter=DIAMETER, bore=0.0, bush_rate=math.inf, youngs_modulus=YOUNG,
        shear_modulus=SHEAR,
    )  # fmt: skip
    # Half of what is left is the stretch of the rods, which the energy of bending leaves out.
    assert 2000.0 / moved == pytest.approx(own[0], rel=2e-3)


def test_a_bars_diameter_is_the_root_of_its_rate() -> None:
    shape = bar_shape(line=np.array(BENT)[..., np.newaxis], bush=0.34)

    def rate(diameter: float) -> float:
        found = shaped_bar_rate(
            shape=shape, diameter=diameter, bore=0.0, bush_rate=4e6, youngs_modulus=YOUNG,
            shear_modulus=SHEAR,
        )  # fmt: skip
        return float(found[0]) - 25_000.0

    found = bar_diameter_for(
        shape=shape, rate=25_000.0, bush_rate=4e6, youngs_modulus=YOUNG, shear_modulus=SHEAR
    )
    assert found[0] == pytest.approx(brentq(rate, 0.01, 0.04, xtol=1e-14), rel=1e-9)


def test_stress_of_a_straight_torsion_and_bending_lever() -> None:
    # Shigley, sec. 5-5 (from memory): σ' = (16/π d³) √(4 M² + 3 T²); at the bend of a U-bar the
    # splay's lever bends it and the arm's lever twists it, over the bushes the reach bends it.
    force, section = 1500.0, 16 / (math.pi * DIAMETER**3)
    reach = math.sqrt(ARM**2 - LEVER**2) + (CENTRE - SPACING) / 2
    told = section * math.hypot(2 * force * reach, math.sqrt(3) * force * LEVER)
    arm = section * 2 * force * ARM
    found = bar_stress(shape=_u_bar(), force=force, diameter=DIAMETER, bore=0.0)
    assert found[0] == pytest.approx(max(told, arm))


def test_air_spring_rate_is_the_slope_of_the_gas_law() -> None:
    # p Vⁿ constant, a plain piston: central difference of the force (ideal gas law).
    pressure, area, volume, exponent = 4e5, 0.012, 0.0025, 1.38

    def force(shortened: float) -> float:
        left = volume - area * shortened
        return ((pressure + ATMOSPHERE) * (volume / left) ** exponent - ATMOSPHERE) * area

    slope = (force(1e-6) - force(-1e-6)) / 2e-6
    found = air_spring_rate(
        pressure=pressure, area=area, volume=volume, area_slope=0.0, exponent=exponent
    )
    assert found == pytest.approx(slope, rel=1e-6)
    assert force(0.0) == pytest.approx(pressure * area)
    assert air_spring_pressure(load=pressure * area, area=area) == pytest.approx(pressure)


def test_a_stop_takes_up_the_energy_of_a_bump() -> None:
    # scipy: the wheel's mass runs onto spring and stop; where it stands still is the compression.
    stop = {"length": 0.06, "scale": 900.0, "exponent": 1.8}
    mass, speed, rate, before = 260.0, 1.1, 22_000.0, 900.0

    def motion(_: float, state: np.ndarray) -> list[float]:
        x, v = state
        push = float(bump_stop_force(compression=x, **stop)) + before + rate * x
        return [v, -push / mass]

    def stands(_: float, state: np.ndarray) -> float:
        return float(state[1])

    stands.terminal = True  # type: ignore[attr-defined]  # scipy reads it off the function
    run = solve_ivp(motion, (0.0, 1.0), [0.0, speed], events=stands, rtol=1e-10, atol=1e-12)
    energy = mass * speed**2 / 2
    found = stop_compression(energy=energy, rate=rate, force=before, **stop)
    assert found == pytest.approx(run.y[0, -1], rel=1e-6)
    work = quad(lambda x: float(bump_stop_force(compression=x, **stop)), 0.0, float(found))[0]
    assert work + before * found + rate * found**2 / 2 == pytest.approx(energy)
    ahead, behind = (bump_stop_force(compression=0.03 + d, **stop) for d in (1e-7, -1e-7))
    assert bump_stop_rate(compression=0.03, **stop) == pytest.approx((ahead - behind) / 2e-7)


def test_a_damper_of_the_simple_corner() -> None:
    # Chassis reference R8: m 300 kg, K_w 20 kN/m, zeta 0.3: c 1469.7 N·s/m.
    curve = damper_curve(
        damping_ratio=0.3, wheel_rate=20e3, sprung_mass=300.0, motion_ratio=1.0,
        rebound_over_bump=2.5, wheel_knee=0.1, beyond=0.4,
    )  # fmt: skip
    assert (curve.bump + curve.rebound) / 2 == pytest.approx(1469.7, abs=0.05)
    assert curve.rebound / curve.bump == pytest.approx(2.5)


def test_a_damper_that_differs_both_ways_takes_the_energy_of_the_mean() -> None:
    # Dixon 2007 (from memory): over a sine, work π c ω x² of the mean coefficient (scipy.quad).
    curve = damper_curve(
        damping_ratio=0.3, wheel_rate=20e3, sprung_mass=300.0, motion_ratio=0.7,
        rebound_over_bump=3.0, wheel_knee=10.0, beyond=1.0,
    )  # fmt: skip
    omega, size = 8.0, 0.02

    def power(time: float) -> float:
        speed = omega * size * math.cos(omega * time)
        return float(damper_force(curve=curve, speed=speed)) * speed

    work = quad(power, 0.0, 2 * math.pi / omega, limit=200)[0]
    mean = 2 * 0.3 * math.sqrt(20e3 * 300.0) / 0.7**2
    assert work == pytest.approx(math.pi * mean * omega * size**2, rel=1e-6)


def test_a_knee_softens_a_damper() -> None:
    curve = damper_curve(
        damping_ratio=0.3, wheel_rate=20e3, sprung_mass=300.0, motion_ratio=0.5,
        rebound_over_bump=2.0, wheel_knee=0.1, beyond=0.25,
    )  # fmt: skip
    forces = damper_force(curve=curve, speed=np.array([0.05, 0.15, -0.05]))
    assert forces[1] - forces[0] == pytest.approx(curve.bump * 0.25 * 0.10)
    assert forces[2] == pytest.approx(-curve.rebound * 0.05)


@pytest.mark.parametrize(("frequency", "mass"), [(1.0, 250.0), (1.239, 300.0), (1.6, 380.0)])
def test_a_wheel_rate_for_a_frequency_gives_it_back(frequency: float, mass: float) -> None:
    # Chassis reference R8: 300 kg, 20 and 200 kN/m ride at 1.2390 Hz.
    rate = wheel_rate_for_frequency(frequency=frequency, sprung_mass=mass, tyre_rate=200e3)
    both = ride_rate(wheel_rate=rate, tyre_rate=200e3)
    assert natural_frequency(rate=both, mass=mass) == pytest.approx(frequency)
    if mass == 300.0:
        assert rate == pytest.approx(20e3, rel=1e-3)


def test_both_ends_are_in_step_after_one_cycle() -> None:
    # Olley (as told by Gillespie, ch. 5): both undamped ends pass their rest together.
    front, base, speed = 1.15, 2.54, 25.0
    ratio = float(
        flat_ride_frequency_ratio(front_frequency=front, wheelbase=base, speed=speed, cycles=1.0)
    )
    end = 1.0 / front
    phases = [front * end, ratio * front * (end - base / speed)]
    assert phases[0] == pytest.approx(phases[1])
    assert 1.05 < ratio < 1.30  # his rule: 1.1 to 1.3


def test_roll_stiffness_of_the_worked_roll_example() -> None:
    # Barton and Fieldhouse 2018, p. 174: 1280 kg, d 0.365 m, 28 650 N·m/rad roll by
    # 0.0194 rad/(m/s²).
    found = roll_stiffness_for_gradient(sprung_mass=1280.0, roll_arm=0.365, gradient=0.019413)
    assert found == pytest.approx(28_650.0, rel=1e-4)


def test_a_bar_makes_up_what_springs_and_tyres_lack() -> None:
    found = bar_roll_stiffness_for(axle_stiffness=20e3, tyre_stiffness=180e3, spring_stiffness=15e3)
    assert 1 / (1 / 180e3 + 1 / (15e3 + found)) == pytest.approx(20e3)
    enough = bar_roll_stiffness_for(
        axle_stiffness=12e3, tyre_stiffness=180e3, spring_stiffness=15e3
    )
    assert enough == 0.0
