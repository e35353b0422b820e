"""Joints, shafts, clutch and driveline torque against manuals and handbooks, named at each."""

from __future__ import annotations

import numpy as np
import pytest

from drybuild.physics.driveline import (
    clutch_capacity_uniform_pressure,
    clutch_capacity_uniform_wear,
    clutch_launch_work,
    shaft_torque_at_wheel_slip,
    shaft_torque_from_engine,
)
from drybuild.physics.joints import (
    compound_joint_angle,
    joint_angle_for_excitation,
    joint_excitation,
    joint_phase_error,
    joint_speed_fluctuation,
    joint_speed_ratio,
    residual_joint_angle,
    shaft_critical_speed,
    shaft_shear_stress,
    shaft_torsional_stiffness,
)
from drybuild.tables.driveline import joint_angle_rows

RPM = np.pi / 30.0
STEEL = {"elastic_modulus": 207e9, "density": 7850.0}

# Kinematics of the universal joint, recomputed; angle [deg], fluctuation [%], lead [deg].
U_JOINT = [
    (1, 0.030, 0.0044),
    (3, 0.274, 0.0393),
    (5, 0.763, 0.109),
    (10, 3.062, 0.439),
    (15, 6.935, 0.993),
    (20, 12.45, 1.782),
    (30, 28.87, 4.117),
]


@pytest.mark.parametrize(("angle", "fluctuation", "lead"), U_JOINT)
def test_universal_joint(angle: float, fluctuation: float, lead: float) -> None:
    beta = np.radians(angle)
    digits = {"rel": 1e-3, "abs": 5e-4}
    found = joint_speed_fluctuation(joint_angle=beta) * 100.0
    assert found == pytest.approx(fluctuation, **digits)
    assert np.degrees(joint_phase_error(joint_angle=beta)) == pytest.approx(lead, **digits)
    # The closed forms against the speed ratio over a turn, and its integral.
    turn = np.linspace(0.0, 2.0 * np.pi, 20001)
    ratio = np.asarray(joint_speed_ratio(joint_angle=beta, turn=turn))
    assert np.ptp(ratio) * 100.0 == pytest.approx(float(found), rel=1e-6)
    ahead = np.concatenate([[0.0], np.cumsum(0.5 * (ratio[1:] + ratio[:-1] - 2.0))]) * turn[1]
    assert np.abs(ahead).max() == pytest.approx(float(joint_phase_error(joint_angle=beta)), 1e-4)


def test_speed_table_keeps_one_excitation() -> None:
    # "Driveline installation" manual J3311-1 and the maker's operating-angle page (reprint): the
    # rows from 3500 rpm are 856, 927, 944 and 1024 rad/s²; all rows lie within 15 % of 1000.
    found = [joint_excitation(shaft_speed=w, joint_angle=b) for w, b in joint_angle_rows()]
    assert found[-4:] == pytest.approx([1024, 944, 927, 856], rel=2e-3)
    assert found == pytest.approx([1000.0] * len(found), rel=0.15)


# Two joints at 1500 rpm: first angle 0 to 9 degrees, largest second angle. Engineers' reference
# page quoting SAE AE-7 (reprint).
TWO_JOINTS = [7.3, 7.4, 7.6, 7.9, 8.3, 8.9, 9.5, 10.1, 10.8, 11.6]


@pytest.mark.parametrize(("first", "second"), list(enumerate(TWO_JOINTS)))
def test_two_joint_table(first: int, second: float) -> None:
    # The table's cells are one residual: 400 rad/s².
    alone = joint_angle_for_excitation(shaft_speed=1500 * RPM, excitation=400.0)
    allowed = np.hypot(alone, np.radians(first))
    assert np.degrees(allowed) == pytest.approx(second, abs=0.1)
    residual = residual_joint_angle(first=np.radians(first), second=allowed, in_phase=True)
    found = joint_excitation(shaft_speed=1500 * RPM, joint_angle=residual)
    assert found == pytest.approx(400.0, rel=1e-9)


@pytest.mark.parametrize(("rpm", "angle"), [(1600, 6.9), (1700, 6.5)])
def test_two_joint_table_at_other_speeds(rpm: float, angle: float) -> None:
    found = joint_angle_for_excitation(shaft_speed=rpm * RPM, excitation=400.0)
    assert np.degrees(found) == pytest.approx(angle, abs=0.1)


def test_compound_angle() -> None:
    # Manual J3311-1, fig. 6 (reprint): 2.15 and 2.50 degrees give 3.3.
    found = np.degrees(
        compound_joint_angle(side_angle=np.radians(2.50), plan_angle=np.radians(2.15))
    )
    assert found == pytest.approx(3.3, abs=0.05)
    assert found == pytest.approx(3.2956, abs=1e-4)


def beam_first_mode(outside: float, inside: float, length: float, e: float, rho: float) -> float:
    """Return the first bending frequency [rad/s] of a pinned beam from 40 Hermite elements."""
    area = np.pi / 4.0 * (outside**2 - inside**2)
    inertia = np.pi / 64.0 * (outside**4 - inside**4)
    count, step = 40, length / 40
    stiff = np.array(
        [
            [12, 6 * step, -12, 6 * step],
            [6 * step, 4 * step**2, -6 * step, 2 * step**2],
            [-12, -6 * step, 12, -6 * step],
            [6 * step, 2 * step**2, -6 * step, 4 * step**2],
        ]
    ) * (e * inertia / step**3)
    heavy = np.array(
        [
            [156, 22 * step, 54, -13 * step],
            [22 * step, 4 * step**2, 13 * step, -3 * step**2],
            [54, 13 * step, 156, -22 * step],
            [-13 * step, -3 * step**2, -22 * step, 4 * step**2],
        ]
    ) * (rho * area * step / 420.0)
    k, m = np.zeros((2 * count + 2,) * 2), np.zeros((2 * count + 2,) * 2)
    for one in range(count):
        place = slice(2 * one, 2 * one + 4)
        k[place, place] += stiff
        m[place, place] += heavy
    free = [one for one in range(2 * count + 2) if one not in (0, 2 * count)]
    values = np.linalg.eigvals(np.linalg.solve(m[np.ix_(free, free)], k[np.ix_(free, free)]))
    return float(np.sqrt(np.min(values.real)))


def test_critical_speed_against_beam_elements() -> None:
    # Steel tube 70 x 2 mm, 1.400 m: 5939.05 rpm by the formula and by beam elements, recomputed.
    found = shaft_critical_speed(outside_diameter=0.070, inside_diameter=0.066, length=1.4, **STEEL)
    assert found / RPM == pytest.approx(5939.05, rel=1e-4)
    assert found == pytest.approx(beam_first_mode(0.070, 0.066, 1.4, 207e9, 7850.0), rel=1e-3)


def test_critical_speed_against_the_handbook_constant() -> None:
    # Handbook form 4.705e6 sqrt(O² + I²)/L² in inches (from memory) is 1.2 % lower.
    found = shaft_critical_speed(
        outside_diameter=3.0 * 0.0254,
        inside_diameter=(3.0 - 0.166) * 0.0254,
        length=60 * 0.0254,
        **STEEL,
    )
    handbook = 4.705e6 * np.hypot(3.0, 2.834) / 60.0**2
    assert found / RPM == pytest.approx(5461.0, rel=1e-3)
    assert found / RPM == pytest.approx(handbook, rel=0.015)


def test_aluminium_tube_critical_speed() -> None:
    found = shaft_critical_speed(
        outside_diameter=0.100,
        inside_diameter=0.095,
        length=1.5,
        elastic_modulus=70e9,
        density=2700.0,
    )
    assert found / RPM == pytest.approx(7355.0, rel=1e-3)  # recomputed


def test_torsion_of_tube_and_bar() -> None:
    # Recomputed by Shigley's formulas: tube 76.2 x 2.11 mm at 1500 N·m, bar 28 mm at 2000 N·m.
    tube = {"outside_diameter": 0.0762, "inside_diameter": 0.0762 - 2 * 0.00211}
    assert shaft_shear_stress(torque=1500.0, **tube) == pytest.approx(84.7e6, rel=1e-3)
    stiff = shaft_torsional_stiffness(length=1.0, shear_modulus=80e9, **tube)
    assert np.degrees(1500.0 / stiff) == pytest.approx(1.593, rel=1e-3)
    bar = shaft_shear_stress(torque=2000.0, outside_diameter=0.028, inside_diameter=0.0)
    assert bar == pytest.approx(464e6, rel=1e-3)


def test_clutch_capacity() -> None:
    # Shigley, clutches (formulas from memory): 120/80 mm, 0.30, 6000 N, two faces.
    plate = {
        "friction": 0.30,
        "clamp_force": 6000.0,
        "outer_radius": 0.120,
        "inner_radius": 0.080,
        "faces": 2,
    }
    assert clutch_capacity_uniform_wear(**plate) == pytest.approx(360.0, rel=1e-3)
    assert clutch_capacity_uniform_pressure(**plate) == pytest.approx(364.8, rel=1e-3)


def test_clutch_launch_work() -> None:
    # Naunheimer/Lechner's formula (from memory) recomputed: 1500 kg, ratio 14, 0.30 m, 2000 rpm.
    found = clutch_launch_work(
        mass=1500.0,
        rolling_radius=0.30,
        overall_ratio=14.0,
        launch_speed=2000 * RPM,
        clutch_torque=1e9,
        resisting_torque=0.0,
    )
    assert found == pytest.approx(15.1e3, rel=2e-3)


def test_driveshaft_torque_rules() -> None:
    # Manual J3311-1 (reprint), in its own units: LGT = T·TLGR·TE·SR·TCR and
    # WST = 0.71·W·RR/(11.4·AR) lb·ft, RR in inches. 250 lb·ft, first 3.0, manual box, one range.
    lb_ft, lbf = 1.3558179483314004, 4.4482216152605
    engine = shaft_torque_from_engine(
        engine_torque=250.0 * lb_ft,
        lowest_gear=3.0,
        gearbox_efficiency=0.85,
        stall_torque_ratio=1.0,
        transfer_ratio=1.0,
    )
    assert engine / lb_ft == pytest.approx(637.5)
    slip = shaft_torque_at_wheel_slip(
        axle_weight=2000.0 * lbf, rolling_radius=12.5 * 0.0254, final_drive=3.5
    )
    assert slip / lb_ft == pytest.approx(0.71 * 2000.0 * 12.5 / (11.4 * 3.5), rel=1e-9)
