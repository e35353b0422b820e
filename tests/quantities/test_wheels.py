"""Wheels of a build: backspacing, track, gaps in the arches, room for the brakes, fasteners."""

from __future__ import annotations

import pytest
from tests.building import Evaluated, evaluate

MM = 0.001


def fitted(wheels: str, arches: str = "", rest: str = "") -> Evaluated:
    text = (
        "build: an invented car\n"
        f"car: {{body: {{kind: unitary}}, arches: {{{arches}}}}}\n"
        f"options:\n  wheels: {{fitted: {{{wheels}}}}}\n{rest}"
    )
    found = evaluate(text, samples=10)
    assert found.problems == ()
    return found


def test_backspacing_by_hand() -> None:
    # A 7 J wheel with ET25: 3.5 in, half an inch of flange and 25 mm.
    found = fitted("width: 7 in, offset: 25 mm")
    assert found.value("backspacing", "front") == pytest.approx(4 * 25.4 * MM + 25 * MM)


def test_backspacing_stands_in_for_the_offset() -> None:
    found = fitted("width: 8 in, backspacing: 4.26 in")
    assert found.value("wheel_offset", "front") == pytest.approx(-6 * MM, abs=0.2 * MM)


def test_a_spacer_takes_offset_away() -> None:
    found = fitted("width: 6 in, offset: 20 mm, spacer: 5 mm")
    assert found.value("wheel_offset", "front") == pytest.approx(15 * MM)
    assert found.value("wheel_offset", "rear") == pytest.approx(20 * MM)


def test_track_by_hand() -> None:
    # Offset 12.7 mm at measuring, 0 now: 25.4 mm wider.
    found = fitted("width: 8 in, offset: 0 mm", "offset: 12.7 mm, rim_width: 6 in")
    assert found.value("track_change", "front") == pytest.approx(25.4 * MM)


def test_wheels_that_stay_change_nothing() -> None:
    found = fitted("as_is: true, width: 6 in, offset: 20 mm")
    assert found.value("track_change", "front") == 0.0


def test_offsets_that_nobody_knows_change_nothing() -> None:
    found = fitted("width: 6 in")
    assert not found.samples_of("track_change", "front").any()
    assert not found.samples_of("track_change", "rear").any()
    assert not evaluate(samples=10).samples_of("track_change", "front").any()


def test_a_spacer_widens_the_track_by_twice_its_thickness_whatever_the_offset() -> None:
    found = fitted("width: 6 in, rear_spacer: 5 ± 0 mm")
    assert found.samples_of("track_change", "rear") == pytest.approx(10 * MM)


def test_gaps_in_the_arch_by_hand() -> None:
    # The tyre grows from 175 to 205 mm and moves out 10 mm: 15 − 10 mm less room inside,
    # 15 + 10 mm less outside; 20 mm more diameter take 10 mm above.
    arches = (
        "offset: 30 mm, section_width: 175 mm, outside_diameter: 600 mm,"
        " front_inner_clearance: 30 mm, front_outer_clearance: 40 mm, front_radial_clearance: 45 mm"
    )
    tyres = "  tyres: {new: {section_width: 205 mm, outside_diameter: 620 mm}}\n"
    found = fitted("width: 6 in, offset: 20 mm, diameter: 14 in", arches, tyres)
    width = found.value("tyre_section_width", "front")
    grown = (width - 0.175) / 2
    assert found.value("wheel_inner_clearance", "front") == pytest.approx(0.030 - grown + 0.010)
    assert found.value("wheel_outer_clearance", "front") == pytest.approx(0.040 - grown - 0.010)
    assert found.value("wheel_radial_clearance", "front") == pytest.approx(0.035)


def test_about_330_mm_goes_inside_a_17_inch_wheel() -> None:
    # common practice, no source: about 330 mm (13 in) is the largest disc inside a 17 in wheel.
    found = fitted("diameter: 17 in, width: 7 in, offset: 40 mm")
    assert found.value("largest_rotor_inside_wheel", "front") == pytest.approx(0.330, abs=0.005)
    assert found.value("largest_rotor_in_practice", "front") == pytest.approx(0.345)


def test_a_measured_barrel_comes_before_the_usual_one() -> None:
    brakes = "  front_brakes: {kit: {rotor_diameter: 300 mm, outer_radius: 172 mm}}\n"
    found = fitted("diameter: 15 in, barrel_radius: 180 mm", rest=brakes)
    assert found.value("rotor_clearance", "front") == pytest.approx(8 * MM)


def test_the_wheel_follows_the_tyre_where_only_that_is_given() -> None:
    found = fitted("width: 6 in", rest="  tyres: {new: {size: 205/55R16 91V}}\n")
    assert found.value("wheel_diameter", "front") == pytest.approx(16 * 25.4 * MM)


def test_a_stud_by_hand() -> None:
    # 101.7 N·m on M12x1.5 with K 0.2: 42.4 kN, 58 % of a 10.9's proof load.
    found = fitted("fastener_torque: 101.7 N·m, fastener_friction: 0.2, fastener_engagement: 15 mm")
    assert found.value("wheel_fastener_preload") == pytest.approx(42.4e3, rel=2e-3)
    assert found.value("wheel_fastener_proof_share") == pytest.approx(0.58, abs=0.005)
    assert found.value("wheel_fastener_turns") == pytest.approx(10.0)


def test_a_ten_inch_wheel_is_in_no_practice_table() -> None:
    found = fitted("diameter: 10 in, width: 4 in, offset: 20 mm")
    assert found.value("bead_seat_diameter", "front") == pytest.approx(253.2 * MM)
    assert found.result("largest_rotor_in_practice").open


def test_a_sparse_build_knows_its_wheels_but_for_what_must_be_read_off_them() -> None:
    bare = evaluate(samples=20)
    person = {
        "wheel_load_margin", "wheel_fastener_turns", "rotor_clearance", "rotor_outline_gain",
    }  # fmt: skip
    for name, one in bare.evaluation.graph.quantities.items():
        if one.function.__module__.rpartition(".")[2] == "wheels":
            assert bare.result(name).open == (name in person), name


def test_a_measured_barrel_counts_without_a_measured_brake() -> None:
    # 170 mm inside, less half of a 280 mm disc and 26 mm of caliper.
    brakes = (
        "  front_brakes: {fitted: {kind: disc, rotor_diameter: 280 mm, caliper_bridge: 26 mm}}\n"
    )
    found = fitted("diameter: 15 in, barrel_radius: 170 mm", rest=brakes)
    assert found.value("rotor_clearance", "front") == pytest.approx(4 * MM)


def test_nobody_asks_whether_wheels_clear_brakes_that_they_always_cleared() -> None:
    found = fitted("as_is: true, diameter: 13 in")
    assert found.verdict("wheels.rotor-clearance").senseless
