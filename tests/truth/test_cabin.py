"""Belt anchorage rules and roll-bar loads."""

from __future__ import annotations

import numpy as np
import pytest

from drybuild.physics.cabin import distance_behind_fk_r14, lap_belt_angle, roll_hoop_load
from drybuild.tables.cabin import belt_rule, roll_bar_tubes

# Worked by hand: back and down in mm, angle, within FMVSS 210 (30-75°), within R14's 30-80°.
LAP_BELTS = [
    (150, 200, 53.1, True, True),
    (300, 150, 26.6, False, False),
    (60, 260, 77.0, False, True),
]


@pytest.mark.parametrize(("back", "down", "angle", "fmvss", "r14"), LAP_BELTS)
def test_lap_belt_angles(back: float, down: float, angle: float, fmvss: bool, r14: bool) -> None:
    # Bounds: NHTSA interpretation 10694 (30-75°); UN R14 5.4.2 front seat (30-80°, from memory).
    found = float(lap_belt_angle(back=back * 1e-3, down=down * 1e-3))
    assert np.rad2deg(found) == pytest.approx(angle, abs=0.05)
    for rule, item, expected in (("fmvss", "lap angle", fmvss), ("r14", "lap angle other", r14)):
        low, high = belt_rule(rule, item)
        assert high is not None
        assert (low <= found <= high) is expected


def test_plane_fk_and_ceiling_fn_meet_before_the_torso_line() -> None:
    # 76/115/EEC 4.4.3: FK cuts the torso line at 120°, FN at 65°; at the usual 25° of lean FN is
    # level (from memory of annex III figure 1: the space is closed off in front of the shoulder).
    # Then a point level with D on FN and on FK lies in front of the torso line, and triangle
    # B-D-F has the angles 60°, 65° and 55°: by the law of sines F is 0.2907 m before D for
    # S = 0.14 m (BD = 0.675 − 0.400 m).
    lean = np.deg2rad(25.0)
    before = 0.275 * np.sin(np.deg2rad(60.0)) / np.sin(np.deg2rad(55.0))
    margin = distance_behind_fk_r14(
        anchorage_back=0.675 * np.sin(lean) - before,
        anchorage_up=0.675 * np.cos(lean),
        anchorage_aside=0.14,
        torso_angle=lean,
    )
    assert margin == pytest.approx(0.0, abs=1e-9)
    assert before == pytest.approx(0.2907, abs=1e-4)


def test_spacing_of_lower_anchorages() -> None:
    # 76/115/EEC annex I 4.4.3.5: 350 mm apart, 120 mm from the middle; FMVSS 210: 6.5 in.
    assert belt_rule("r14", "lower spacing")[0] == pytest.approx(0.350)
    assert belt_rule("r14", "lower from middle")[0] == pytest.approx(0.120)
    assert belt_rule("fmvss", "lower spacing")[0] == pytest.approx(6.5 * 0.0254, abs=2e-4)


def test_test_forces_agree_across_the_ocean() -> None:
    # 3 000 and 5 000 lbf (FMVSS 210), 13 500 and 22 250 N (UN R14), both from memory.
    pound = 4.448222
    assert belt_rule("fmvss", "lap and shoulder force")[0] == pytest.approx(3000 * pound, abs=1)
    assert belt_rule("fmvss", "lap only force")[0] == pytest.approx(5000 * pound, abs=1)
    assert belt_rule("r14", "lap and shoulder force")[0] == pytest.approx(3000 * pound, rel=0.015)
    assert belt_rule("r14", "lap only force")[0] == pytest.approx(5000 * pound, rel=0.015)


def test_hoop_loads_of_a_1150_kg_car() -> None:
    # FIA Appendix J 253 (from memory): 7.5 and 3.5 daN/kg on car and crew of 1 150 kg together.
    main, front = roll_hoop_load(car_mass=1000.0, crew_mass=150.0, factor=np.array([7.5, 3.5]))
    assert main == pytest.approx(86_300, rel=1e-3)
    assert front == pytest.approx(40_300, rel=2e-3)


def test_tubes_of_the_main_hoop() -> None:
    # FIA Appendix J 253, 2009: 45 × 2.5 or 50 × 2.0 mm.
    assert roll_bar_tubes("main hoop") == ((0.045, 0.0025), (0.050, 0.002))
