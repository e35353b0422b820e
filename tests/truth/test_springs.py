"""Springs against worked examples of machine-design texts and closed identities."""

from __future__ import annotations

import math
from itertools import pairwise

import numpy as np
import pytest
from Pynite import FEModel3D

from drybuild.physics.springs import (
    anti_roll_bar_rate,
    bergstraesser_factor,
    buckling_free_length,
    coil_shear_stress,
    coil_spring_rate,
    leaf_deflection_with_full_leaves,
    leaf_spring_rate,
    torsion_bar_twist_rate,
    torsion_bar_wheel_rate,
    wahl_factor,
)

INCH, LBF, PSI = 0.0254, 4.4482216, 6894.757
LB_PER_INCH = LBF / INCH


def test_coil_of_shigley_example_10_1() -> None:
    # Shigley, Example 10-1 (from memory): music wire 0.037 in, outside 7/16 in, 12.5 coils,
    # squared ends; printed rate 4.13 lbf/in, force at yield 6.46 lbf. G = 11.85 Mpsi.
    wire, mean, active = 0.037 * INCH, 0.4 * INCH, 10.5
    rate = coil_spring_rate(
        wire_diameter=wire, mean_diameter=mean, active_coils=active, shear_modulus=11.85e6 * PSI
    )
    assert rate / LB_PER_INCH == pytest.approx(4.13, rel=0.01)
    strength = 201e3 / 0.037**0.145  # [psi], the book's law for music wire
    factor = bergstraesser_factor(spring_index=0.4005 / 0.037)
    assert factor == pytest.approx(1.12408, abs=1e-4)
    one_pound = coil_shear_stress(
        force=LBF, wire_diameter=wire, mean_diameter=mean, stress_factor=factor
    )
    assert 0.45 * strength * PSI / one_pound == pytest.approx(6.46, rel=0.01)
    # Its free length 2.06 in must stay below 2.63 D/α = 2.11 in with flat ends, α = 0.5.
    free = buckling_free_length(mean_diameter=mean, end_condition=0.5)
    assert free / INCH == pytest.approx(2.11, rel=0.01)


def test_coil_of_car_size() -> None:
    # Recomputed by hand from the same formulas: d 13 mm, D 120 mm, 6 coils, 79.3 GPa.
    rate = coil_spring_rate(
        wire_diameter=0.013, mean_diameter=0.120, active_coils=6.0, shear_modulus=79.3e9
    )
    assert rate == pytest.approx(27_306.0, rel=1e-4)
    factor = wahl_factor(spring_index=120.0 / 13.0)
    assert factor == pytest.approx(1.15775, abs=1e-5)
    stress = coil_shear_stress(
        force=5000.0, wire_diameter=0.013, mean_diameter=0.120, stress_factor=factor
    )
    assert stress == pytest.approx(805.1e6, rel=1e-4)


def test_leaf_spring_of_khurmi_and_gupta() -> None:
    # Khurmi and Gupta (from memory): 12 leaves, 2 of full length, span 1.05 m less a band of
    # 85 mm, 5.4 kN at the seat, E 210 GPa; printed leaf 10 mm by 40 mm, deflection 16.7 mm.
    sag = leaf_deflection_with_full_leaves(
        end_load=2700.0,
        half_length=(1.05 - 0.085) / 2.0,
        width=0.040,
        thickness=0.010,
        graduated_leaves=10.0,
        full_leaves=2.0,
        youngs_modulus=210e9,
    )
    assert sag == pytest.approx(0.0167, abs=5e-5)


@pytest.mark.parametrize(("stiffening", "rate"), [(1.0, 16_667.0), (1.1, 18_333.0), (1.5, 25e3)])
def test_semi_elliptic_leaf_of_the_spring_manual(stiffening: float, rate: float) -> None:
    # SAE Spring Design Manual form (from memory): 5 leaves 50 by 6 mm, span 1.2 m, 200 GPa. A
    # stiffening of 1.5 is a uniform beam, 48 E I / L³, which closes the chain to beam theory.
    inertia = 5.0 * 0.050 * 0.006**3 / 12.0
    found = leaf_spring_rate(
        front_length=0.6,
        rear_length=0.6,
        inertia_sum=inertia,
        youngs_modulus=200e9,
        stiffening_factor=stiffening,
    )
    assert found == pytest.approx(rate, rel=1e-4)
    if stiffening == 1.5:
        assert found == pytest.approx(48.0 * 200e9 * inertia / 1.2**3)


def test_torsion_bar_of_24_mm() -> None:
    # Recomputed from torsion theory: d 24 mm, 1 m, 79.3 GPa; at a level arm of 0.35 m.
    twist = torsion_bar_twist_rate(diameter=0.024, bore=0.0, length=1.0, shear_modulus=79.3e9)
    assert twist == pytest.approx(2582.96, abs=0.01)
    rate = torsion_bar_wheel_rate(
        twist_rate=twist, arm_length=0.35, arm_angle=0.0, static_force=3000.0
    )
    assert rate == pytest.approx(21_085.0, rel=1e-4)


def test_torsion_bar_arm_against_a_numerical_derivative() -> None:
    # Force at the arm's end from equilibrium, F = (T₀ + k θ)/(r cos β), moved a little.
    twist_rate, arm, angle, force = 2500.0, 0.35, -0.2, 3200.0
    preload = force * arm * math.cos(angle)

    def force_at(beta: float) -> float:
        return (preload + twist_rate * (beta - angle)) / (arm * math.cos(beta))

    step = 1e-6
    rise = arm * (math.sin(angle + step) - math.sin(angle - step))
    slope = (force_at(angle + step) - force_at(angle - step)) / rise
    rate = torsion_bar_wheel_rate(
        twist_rate=twist_rate, arm_length=arm, arm_angle=angle, static_force=force
    )
    assert rate == pytest.approx(slope, rel=1e-6)


def test_anti_roll_bar_equals_the_u_bar_formula_of_the_manual() -> None:
    # SAE Spring Design Manual (from memory), in its symbols, with G = 3E/8:
    # f = P/(3 E I) [l₁³ − a³ + (L/2)(a + b)² + 4 l₂² (b + c)] with b + c half of the centre.
    youngs = 206e9
    arm, lever, centre, spacing, diameter = 0.25, 0.22, 0.90, 0.70, 0.020
    found = anti_roll_bar_rate(
        diameter=diameter,
        bore=0.0,
        arm_length=arm,
        lever=lever,
        centre_length=centre,
        bush_spacing=spacing,
        bush_rate=math.inf,
        youngs_modulus=youngs,
        shear_modulus=3.0 * youngs / 8.0,
    )
    assert found == pytest.approx(37_836.0, rel=2e-5)
    splay = math.sqrt(arm**2 - lever**2)
    reach = splay + (centre - spacing) / 2.0
    track = 2.0 * splay + centre
    bending = 3.0 * youngs * math.pi * diameter**4 / 64.0
    give = arm**3 - splay**3 + track / 2.0 * reach**2 + 4.0 * lever**2 * centre / 2.0
    assert 1.0 / found == pytest.approx(give / bending)


def test_anti_roll_bar_against_a_frame_solved_by_finite_elements() -> None:
    # PyNiteFEA: the bar as a plane frame that bends and twists, held at the bushes.
    young, shear = 206e9, 79.3e9
    arm, lever, centre, spacing, diameter = 0.25, 0.22, 0.90, 0.70, 0.020
    splay = math.sqrt(arm**2 - lever**2)
    points = {
        "end_l": (lever, -centre / 2 - splay),
        "bend_l": (0.0, -centre / 2),
        "bush_l": (0.0, -spacing / 2),
        "middle": (0.0, 0.0),
        "bush_r": (0.0, spacing / 2),
        "bend_r": (0.0, centre / 2),
        "end_r": (lever, centre / 2 + splay),
    }
    frame = FEModel3D()
    frame.add_material("steel", young, shear, 0.3, 7850.0)
    inertia = math.pi * diameter**4 / 64.0
    frame.add_section("bar", math.pi * diameter**2 / 4.0, inertia, inertia, 2.0 * inertia)
    for name, (x, z) in points.items():
        frame.add_node(name, x, 0.0, z)
    names = list(points)
    for first, second in pairwise(names):
        frame.add_member(f"{first}-{second}", first, second, "steel", "bar")
    frame.def_support("bush_l", True, True, True, False, False, False)
    frame.def_support("bush_r", True, True, False, False, False, False)
    # Opposite loads leave the bar free to turn in its bushes as a whole; its middle does not.
    frame.def_support("middle", False, False, False, False, False, True)
    frame.add_node_load("end_l", "FY", 1000.0)
    frame.add_node_load("end_r", "FY", -1000.0)
    frame.analyze_linear()
    moved = [frame.nodes[name].DY["Combo 1"] for name in ("end_l", "end_r")]
    own = anti_roll_bar_rate(
        diameter=diameter,
        bore=0.0,
        arm_length=arm,
        lever=lever,
        centre_length=centre,
        bush_spacing=spacing,
        bush_rate=math.inf,
        youngs_modulus=young,
        shear_modulus=shear,
    )
    assert 2000.0 / np.ptp(moved) == pytest.approx(own, rel=0.005)
