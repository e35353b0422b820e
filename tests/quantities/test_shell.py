from __future__ import annotations

from math import radians

import numpy as np
import pytest
from tests.building import BARE, evaluate

PER_DEG = radians(1.0)


def shell(options: str, car: str = "") -> str:
    return (
        "build: a test car\n"
        f"car:\n  body: {{kind: unitary}}\n{car}"
        f"options:\n  shell:\n    left alone: {{as_is: true}}\n    done: {options}\n"
        "picks: {shell: done}\n"
    )


def test_a_bare_build_has_a_stiffness_from_its_kind() -> None:
    stiffness = evaluate(BARE).value("shell_torsional_stiffness") * PER_DEG
    assert 3000 < stiffness < 8000
    ladder = evaluate(BARE.replace("unitary", "ladder"))
    assert ladder.value("shell_torsional_stiffness") * PER_DEG < 4000
    assert ladder.value("frame_torsional_stiffness") > 0.0


def test_an_open_body_is_softer_than_a_closed_one() -> None:
    closed = evaluate("build: a\ncar: {body: {kind: unitary, shape: saloon}}\n")
    roadster = evaluate("build: a\ncar: {body: {kind: unitary, shape: roadster}}\n")
    assert roadster.value("shell_original_stiffness") < closed.value("shell_original_stiffness")


def test_three_stands_beat_the_typical_range() -> None:
    car = "  structure: {corner_load: 800 N, corner_track: 1300 mm, corner_deflection: 4.2 mm}\n"
    found = evaluate(shell("{as_is: true}", car))
    assert found.value("shell_original_stiffness") == pytest.approx(800 * 1.3**2 / 0.0042)


def test_measures_add_up_as_parallel_springs() -> None:
    found = evaluate(
        shell(
            "{measures: {connectors: {gain: 6 %, mass: 9 kg}, brace: {gain: 12 ± 4 %, mass: 4 kg}}}"
        )
    )
    assert found.value("shell_stiffness_ratio") == pytest.approx(1.18)
    assert found.value("reinforcement_mass") == pytest.approx(13.0)
    original = found.value("shell_original_stiffness")
    assert found.value("reinforcement_stiffness", "brace") == pytest.approx(0.12 * original)
    assert found.value("reinforcement_yield") == pytest.approx(0.18 * original / 13.0)


def test_an_added_stiffness_may_be_given_outright() -> None:
    found = evaluate(shell("{added_stiffness: 1200 N·m/deg, mass: 30 kg}"))
    added = found.value("shell_torsional_stiffness") - found.value("shell_original_stiffness")
    assert added * PER_DEG == pytest.approx(1200)


def test_a_reinforcement_of_unknown_effect_leaves_the_stiffness_open() -> None:
    found = evaluate(shell("{work: other}"))
    missing = found.result("shell_torsional_stiffness").missing
    assert [one.path for one in missing] == ["options.shell.done.gain"]


def test_a_whole_chassis_outweighs_connectors_and_gussets_by_140_to_230_kg() -> None:
    # common practice, no source
    mass = {
        work: evaluate(shell(f"{{work: {work}}}")).value("reinforcement_mass")
        for work in ("bolt-on chassis", "connectors", "local strengthening")
    }
    more = mass["bolt-on chassis"] - mass["connectors"] - mass["local strengthening"]
    assert 140 <= more <= 230


def test_a_stiffer_shell_sings_higher_and_twists_less() -> None:
    soft, stiff = evaluate(shell("{work: none}")), evaluate(shell("{gain: 40 %, mass: 0 kg}"))
    assert stiff.value("shell_first_mode") == pytest.approx(
        np.sqrt(1.4) * soft.value("shell_first_mode")
    )
    assert stiff.value("shell_twist_over_bump") < soft.value("shell_twist_over_bump")


def test_loads_follow_the_cases() -> None:
    found = evaluate(BARE)
    weight = found.value("kerb_mass") * 9.80665
    assert found.value("body_load", "bump both sides") == pytest.approx(2.5 * weight)
    assert found.value("body_load", "kerb strike") > 0.0


def test_channels_make_a_frame_soft() -> None:
    frame = "build: a\ncar:\n  body: {kind: ladder}\n  structure: {frame: {%s}}\n"
    boxed = evaluate(frame % "rail_wall: 3 mm")
    channel = evaluate(frame % "rail_wall: 3 mm, open_rails: true, open_cross_members: true")
    assert channel.value("frame_torsional_stiffness") < 0.05 * boxed.value(
        "frame_torsional_stiffness"
    )
    assert channel.value("frame_bending_stiffness") < boxed.value("frame_bending_stiffness")
    assert boxed.value("rail_closing_gain") > 100


def test_an_open_body_has_no_closed_cell() -> None:
    assert evaluate(BARE).value("cell_box_stiffness") > 0.0
    roadster = evaluate("build: a\ncar: {body: {kind: unitary, shape: roadster}}\n")
    assert roadster.value("cell_box_stiffness") == 0.0


def test_glue_holds_a_pane_better_than_rubber() -> None:
    glass = "build: a\noptions: {glass: {new: {bead: %s, bead_width: 12 mm, bead_gap: 6 mm}}}\n"
    glued, rubber = evaluate(glass % "urethane"), evaluate(glass % "rubber")
    assert glued.value("glass_stiffness_share") > rubber.value("glass_stiffness_share")
    assert glued.value("windscreen_mass") > 4.0


def test_joints_compute_from_what_is_given() -> None:
    found = evaluate(
        shell(
            "{gain: 10 %, joint_force: 20 kN, bolts: 4, bolt_thread: M10, bolt_class: '8.8', "
            "weld_force: 10 kN, weld_length: 120 mm, weld_leg: 3 mm, sheet_thickness: 1.5 mm, "
            "stress_range: 50 MPa}"
        )
    )
    # 4 × 0.6 × 800 MPa × 58.0 mm² / 1.25 = 89.1 kN
    assert found.value("shell_bolt_use") == pytest.approx(20 / 89.1, rel=2e-3)
    # throat 2.12 mm, length 120 − 4.24 mm, 207.8 MPa: 51.0 kN
    assert found.value("shell_weld_use") == pytest.approx(10 / 51.0, rel=2e-3)
    # 360 MPa/(√3 · 1.25) × 1.5 × 120 mm = 29.9 kN
    assert found.value("shell_weld_sheet_use") == pytest.approx(10 / 29.9, rel=2e-3)
    assert found.value("shell_weld_life") == pytest.approx(2e6 * (63 / 50) ** 3)
    assert found.value("shell_welding_current") == pytest.approx(59.1, abs=0.1)
