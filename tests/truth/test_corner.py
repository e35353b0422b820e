"""Tyres at their load, and the car in a bend, against the published tyres and their load laws."""

from __future__ import annotations

import csv
import math
from dataclasses import replace

import numpy as np
import pytest
from scipy.optimize import brentq

from drybuild.physics.braked_corner import BrakedAxle, braking_limit_in_bend
from drybuild.physics.handling import tyre_understeer_gradient
from drybuild.physics.steady_corner import Bend, CornerAxle, axle_limit, corner_limit, steady_corner
from drybuild.physics.tyre_force import (
    SideTyre,
    cornering_stiffness,
    peak_side_force,
    side_curve,
    trail_at,
)
from tests.truth.data import truth_data
from tests.truth.magic_formula import (
    LateralCoefficients1987,
    cornering_stiffness_1987,
    lateral_force_1987,
    peak_lateral_force_1987,
)

G = 9.80665
# Bakker, Nyborg and Pacejka, SAE 870421 (reprint): lateral coefficients.
PAPER = LateralCoefficients1987(
    a0=1.30, a1=-22.1, a2=1011.0, a3=1078.0, a4=1.82, a5=0.208, a6=0.0, a7=-0.354, a8=0.707
)
PUBLISHED = [
    (2.0, 1933.6, 708.78, 1722.5),
    (4.0, 3690.4, 1027.33, 3096.6),
    (6.0, 5270.4, 1076.15, 3833.1),
    (8.0, 6673.6, 1028.83, 4011.2),
]


def tyre_about_4_kn(slope: float, loss: float, friction: float, friction_loss: float) -> SideTyre:
    return SideTyre(
        reference_load=4000.0,
        cornering_coefficient=slope,
        friction=friction,
        cornering_loss=loss,
        friction_loss=friction_loss,
        camber_ratio=0.0,
        camber_friction_loss=0.0,
        pneumatic_trail=0.03,
    )


def paper_tyre() -> SideTyre:
    """Return our five figures of the paper's tyre, each taken at 4 kN, none fitted elsewhere."""
    at = float(cornering_stiffness_1987(load=4000.0, coefficients=PAPER))
    near = [
        float(cornering_stiffness_1987(load=f, coefficients=PAPER)) / f for f in (3999.0, 4001.0)
    ]
    loss = -(near[1] - near[0]) / 2.0 * 4000.0 / (at / 4000.0)
    return tyre_about_4_kn(at / 4000.0, loss, 3690.4 / 4000.0, 22.1 * 4.0 / 922.6)


@pytest.mark.parametrize(("kn", "peak", "slope", "force_at_4"), PUBLISHED)
def test_tyre_of_the_1987_paper(kn: float, peak: float, slope: float, force_at_4: float) -> None:
    # SAE 870421 coefficients (reprint); the forces were recomputed apart from this code, with the
    # paper's first way of writing the curve, which is identical.
    load = kn * 1000.0
    assert peak_lateral_force_1987(load=load, coefficients=PAPER) == pytest.approx(peak, abs=0.1)
    found = cornering_stiffness_1987(load=load, coefficients=PAPER)
    assert found * math.pi / 180.0 == pytest.approx(slope, abs=0.01)
    force = lateral_force_1987(load=load, slip_angle=math.radians(4.0), coefficients=PAPER)
    assert force == pytest.approx(force_at_4, abs=0.1)


@pytest.mark.parametrize(("kn", "peak", "slope", "force_at_4"), PUBLISHED)
def test_five_figures_at_4_kn_tell_the_paper_tyre(
    kn: float, peak: float, slope: float, force_at_4: float
) -> None:
    # Half to twice the load: the peak law is the paper's own. The stiffness law is a later one of
    # another shape (3.7 % at twice the load); the curvature stays at its value of 4 kN (8 % there).
    tyre, load = paper_tyre(), kn * 1000.0
    assert peak_side_force(load=load, camber=0.0, tyre=tyre) == pytest.approx(peak, rel=1e-4)
    found = cornering_stiffness(load=load, tyre=tyre) * math.pi / 180.0
    assert found == pytest.approx(slope, rel=0.04)
    force = side_curve(load=load, camber=0.0, tyre=tyre).force(math.radians(4.0))
    assert force == pytest.approx(force_at_4, rel=0.08)


@pytest.mark.parametrize("degrees", [1.0, 2.0, 4.0, 6.0, 10.0])
def test_curve_over_slip_is_the_papers_at_its_load(degrees: float) -> None:
    # SAE 870421 at 4 kN: 1009.4, 1911.1, 3096.6, 3553.5, 3688.3 N.
    printed = dict(zip((1, 2, 4, 6, 10), (1009.4, 1911.1, 3096.6, 3553.5, 3688.3), strict=True))
    force = side_curve(load=4000.0, camber=0.0, tyre=paper_tyre()).force(math.radians(degrees))
    assert force == pytest.approx(printed[int(degrees)], rel=1e-3)


@pytest.mark.parametrize(
    ("kn", "stiffness"), [(2.0, 26.61), (4.0, 46.01), (6.0, 56.30), (8.0, 59.68)]
)
def test_stiffness_law_of_the_later_tyre(kn: float, stiffness: float) -> None:
    # Pacejka 2006, 205/60 R 15 (from memory): K = 14.95·4000 sin(2 arctan(F/(2.13·4000))) N/rad.
    # Its law is ours: x₀ = 1/2.13, k = 2 x₀²/(1 + x₀²).
    x2 = 1.0 / 2.13**2
    tyre = tyre_about_4_kn(46010.0 / 4000.0, 2.0 * x2 / (1.0 + x2), 0.99, 0.146)
    found = cornering_stiffness(load=kn * 1000.0, tyre=tyre)
    assert found / 1000.0 == pytest.approx(stiffness, rel=2e-3)


def test_greatest_force_is_where_it_is_said_to_be() -> None:
    tyre = replace(paper_tyre(), camber_ratio=0.07)
    load, camber = np.array([2000.0, 4000.0, 6500.0]), -0.03
    curve = side_curve(load=load, camber=camber, tyre=tyre)
    peak = curve.slip_at_peak()
    most = curve.force(peak)
    assert most == pytest.approx(peak_side_force(load=load, camber=camber, tyre=tyre))
    for step in (-0.01, 0.01):
        assert (curve.force(peak + step) < most).all()


def test_trail_of_the_brush_model() -> None:
    # Pacejka's brush model: t₀ at no slip, t₀ (1−½)³/(1−½+1/12) = 0.2143 t₀ half way, none beyond.
    tyre = paper_tyre()
    stiff, peak = cornering_stiffness(load=4000.0, tyre=tyre), 3690.4
    slide = math.atan(3.0 * peak / float(stiff))
    assert trail_at(slip=1e-9, load=4000.0, tyre=tyre) == pytest.approx(0.03, rel=1e-6)
    half = math.atan(1.5 * peak / float(stiff))
    assert trail_at(slip=half, load=4000.0, tyre=tyre) == pytest.approx(0.03 * 0.125 / (7 / 12))
    assert trail_at(slip=slide * 1.01, load=4000.0, tyre=tyre) == 0.0


def end(load: float, transfer: float, tyre: SideTyre, **other: float) -> CornerAxle:
    known = {
        "lift": 0.0, "track": 1.4, "camber": 0.0, "lean": 0.0, "toe_in": 0.0, "roll_steer": 0.0,
        "give": 0.0, "mechanical_trail": 0.0,
    }  # fmt: skip
    return CornerAxle(tyre=tyre, wheel_load=load, transfer=transfer, **{**known, **other})


# Recomputed single-axle quadratics: share of the transfer on the front, axle limits [g].
LIMITS = [
    (0.45, 0.9188, 0.9097),
    (0.50, 0.9134, 0.9160),
    (0.55, 0.9076, 0.9218),
    (0.60, 0.9014, 0.9272),
    (0.65, 0.8948, 0.9320),
]


@pytest.mark.parametrize(("share", "front_limit", "rear_limit"), LIMITS)
def test_load_sensitive_limit(share: float, front_limit: float, rear_limit: float) -> None:
    # The peak law of SAE 870421, D = −22.1 F² + 1011 F with F in kN. 1200 kg, 52 % in front,
    # centre of gravity 0.53 m, track 1.40 m, no tyre lifting.
    tyre = paper_tyre()
    moved = 1200.0 * 0.53 / 1.40
    bend = Bend(
        front=end(1200.0 * 0.52 * G / 2.0, share * moved, tyre),
        rear=end(1200.0 * 0.48 * G / 2.0, (1.0 - share) * moved, tyre),
        roll=0.0,
        wheelbase=2.5,
    )
    limits = [axle_limit(bend=bend, axle=axle) / G for axle in ("front", "rear")]
    assert limits == pytest.approx([front_limit, rear_limit], abs=8e-5)
    assert corner_limit(bend=bend) / G == pytest.approx(min(limits))


def test_pair_of_tyres_loses_what_the_paper_tyre_loses() -> None:
    # SAE 870421 law of D: 4 ± 2 kN hold 7204.0 N, two at 4 kN 7380.8 N.
    loads = np.array([2000.0, 6000.0, 4000.0])
    inner, outer, even = peak_side_force(load=loads, camber=0.0, tyre=paper_tyre())
    assert inner + outer == pytest.approx(7204.0, abs=0.1)
    assert 2.0 * even == pytest.approx(7380.8, abs=0.1)


def test_gentle_bend_is_the_textbook_gradient() -> None:
    # Gillespie ch. 6: K = W_f/C_f − W_r/C_r without any other effect; trail taken out.
    front = replace(paper_tyre(), pneumatic_trail=0.0)
    rear = replace(front, cornering_coefficient=front.cornering_coefficient * 1.2)
    bend = Bend(front=end(3100.0, 0.0, front), rear=end(2900.0, 0.0, rear), roll=0.0, wheelbase=2.5)
    gradient = tyre_understeer_gradient(
        front_load=6200.0,
        rear_load=5800.0,
        front_stiffness=2.0 * float(cornering_stiffness(load=3100.0, tyre=front)),
        rear_stiffness=2.0 * float(cornering_stiffness(load=2900.0, tyre=rear)),
    )
    found = steady_corner(bend=bend, acceleration=np.array([0.05]))
    assert found.understeer_angle[0] / 0.05 == pytest.approx(gradient, rel=1e-3)


@pytest.mark.parametrize("share", [0.3, 0.6, 0.9])
def test_slip_agrees_with_a_general_root_finder(share: float) -> None:
    # Independent: scipy's brentq on the force balance of one axle, with toe, camber and transfer.
    tyre = replace(paper_tyre(), camber_ratio=0.07, camber_friction_loss=6.0, pneumatic_trail=0.0)
    axle = end(3000.0, 160.0, tyre, camber=-0.01, lean=0.8, toe_in=0.003)
    bend = Bend(front=axle, rear=axle, roll=0.012, wheelbase=2.5)
    acceleration = share * float(corner_limit(bend=bend))
    lean = 0.8 * 0.012 * acceleration

    def off(slip: float) -> float:
        outer, inner = 3000.0 + 160.0 * acceleration, 3000.0 - 160.0 * acceleration
        held = side_curve(load=outer, camber=0.01 - lean, tyre=tyre).force(slip + 0.003)
        held += side_curve(load=inner, camber=-0.01 - lean, tyre=tyre).force(slip - 0.003)
        return float(held - 6000.0 / G * acceleration)

    found = steady_corner(bend=bend, acceleration=np.array([acceleration]))
    assert found.front.slip[0] == pytest.approx(brentq(off, -0.02, 0.12, xtol=1e-12), abs=1e-7)
    assert found.understeer_angle[0] == pytest.approx(0.0, abs=1e-9)


def test_braking_without_a_bend_is_the_friction_limit() -> None:
    # All braking on the front of a car of 1200 kg, h/L = 0.2: μ (W_f + m h/L a) = m a.
    tyre = paper_tyre()
    bend = Bend(front=end(3060.0, 0.0, tyre), rear=end(2824.0, 0.0, tyre), roll=0.0, wheelbase=2.5)
    braked = BrakedAxle(share=1.0, load_gain=1200.0 * 0.2, adhesion=0.9)
    found = braking_limit_in_bend(
        bend=bend, axle="front", acceleration=0.0, braked=braked, mass=1200.0
    )
    assert found == pytest.approx(0.9 * 6120.0 / (1200.0 * (1.0 - 0.9 * 0.2)))


def test_braked_axle_lies_on_the_friction_ellipse() -> None:
    # Wong sec. 1.4: (F_x/μF)² + (F_y/D)² = 1; no load moves here, so both wheels are alike.
    tyre = tyre_about_4_kn(10.0, 0.5, 0.9, 0.0)
    axle = end(3000.0, 0.0, tyre)
    bend = Bend(front=axle, rear=axle, roll=0.0, wheelbase=2.5)
    braked = BrakedAxle(share=0.5, load_gain=0.0, adhesion=0.8)
    mass = 12_000.0 / G
    found = braking_limit_in_bend(
        bend=bend, axle="rear", acceleration=5.0, braked=braked, mass=mass
    )
    along, across = found * mass * 0.5 / (0.8 * 6000.0), 6000.0 / G * 5.0 / (0.9 * 6000.0)
    assert along**2 + across**2 == pytest.approx(1.0)


@pytest.mark.parametrize("name", ["BNP87", "PAC06", "CR20"])
def test_typical_ranges_hold_the_published_tyres_of_their_family(name: str) -> None:
    # The three published parameter sets of the data file, each at 4 kN.
    lines = truth_data("tyre_parameter_sets.csv").read_text().splitlines()
    rows = csv.DictReader(line for line in lines if not line.startswith("#"))
    known = {row["name"]: float(row["value"]) for row in rows if row["set"] == name}
    if name == "BNP87":
        slope = known["a3"] * math.sin(known["a4"] * math.atan(known["a5"] * 4.0)) * 180 / math.pi
        coefficient, friction = slope / 4000.0, known["a1"] * 4e-3 + known["a2"] * 1e-3
    else:
        friction = abs(known["pDy1"])
        bend = known.get("pKy2", 0.0)
        bent = math.sin(2.0 * math.atan(1.0 / bend)) if bend else 1.0
        coefficient = abs(known["pKy1"]) * bent
    family = {"BNP87": "touring", "PAC06": "touring", "CR20": "sticky"}[name]
    table = truth_ranges()
    low, high = table[f"tyres.cornering_coefficient.{family}"]
    assert low <= coefficient <= high * 1.005
    low, high = table[f"tyres.side_friction.{family}"]
    assert low <= friction <= high


def truth_ranges() -> dict[str, tuple[float, float]]:
    from drybuild.tables.typical import typical_ranges  # noqa: PLC0415 - only this test reads them

    return {key[0]: (one.low, one.high) for key, one in typical_ranges().items()}
