"""Verdicts on brakes, each on a small build file."""

from __future__ import annotations

import pytest
from tests.building import evaluate

from drybuild.checks.verdicts import State

# An invented car with well-known brakes; each case changes one thing.
FRONT = (
    "rotor_diameter: 260 mm, pad_height: 44 mm, piston_diameter: 54 mm, friction: 0.40 ± 0.01,"
    " threshold_pressure: 0.5 bar, rotor_mass: 7 kg, take_up: 0.3 mm, compliance: 0.3 mm"
)
REAR = (
    "kind: simplex, rotor_diameter: 229 mm, piston_diameter: 17.5 mm, brake_factor: 2.1 ± 0.05,"
    " threshold_pressure: 5 bar, take_up: 0.6 mm, compliance: 0.2 mm"
)
LINE = (
    "pedal_ratio: 4, master_cylinder_bore: 23.8 mm, efficiency: 0.9 ± 0.02, booster: vacuum,"
    " booster_diameter: 9 in, booster_gain: 4, vacuum: 65 kPa, hose_length: 1 m, hose_share: 0.4"
)
TYRES = "size: 185/65R15 88H, adhesion: 0.95 ± 0.02, wet_adhesion: 0.6 ± 0.05"


def verdict(
    check: str, *, front: str = "", rear: str = "", line: str = "", tyres: str = "", brief: str = ""
) -> State:
    def entries(known: str, changed: str) -> str:
        names = {one.split(":")[0].strip() for one in changed.split(",")}
        kept = [one for one in known.split(",") if one.split(":")[0].strip() not in names]
        return ",".join([*kept, changed] if changed else kept)

    text = (
        f"build: an invented car\nbrief: {{occupants: 2, luggage: 30 kg, {brief}}}\n"
        "car:\n  body: {kind: unitary, wheelbase: 2550 mm}\n"
        "  mass: {front_axle: 590 ± 3 kg, rear_axle: 510 ± 3 kg, cg_height: 540 ± 10 mm}\n"
        "options:\n"
        f"  front_brakes: {{f: {{{entries(FRONT, front)}}}}}\n"
        f"  rear_brakes: {{r: {{{entries(REAR, rear)}}}}}\n"
        f"  brake_hydraulics: {{h: {{{entries(LINE, line)}}}}}\n"
        f"  tyres: {{t: {{{entries(TYRES, tyres)}}}}}\n"
    )
    found = evaluate(text)
    assert found.problems == (), [str(one) for one in found.problems]
    return found.verdict(check).state


def test_the_known_car_stands_on_every_ruling_check() -> None:
    for check in (
        "brakes.pedal-force", "brakes.pedal-comfort", "brakes.pedal-floor",
        "brakes.front-locks-first", "brakes.adhesion-use", "brakes.stopping-distance",
        "brakes.stopping-distance-older", "brakes.deceleration", "brakes.servo-failed",
        "brakes.inspection", "brakes.line-pressure",
    ):  # fmt: skip
        assert verdict(check) in (State.GOOD, State.TIGHT), check


@pytest.mark.parametrize(
    ("check", "change"),
    [
        ("brakes.pedal-force", {"line": "booster: none"}),
        ("brakes.pedal-comfort", {"line": "booster: none"}),
        ("brakes.pedal-floor", {"line": "master_cylinder_bore: 11 mm"}),
        ("brakes.pedal-travel", {"line": "master_cylinder_bore: 14 mm"}),
        ("brakes.front-locks-first", {"rear": "piston_diameter: 25.4 mm"}),
        ("brakes.front-locks-first-all-rates", {"rear": "piston_diameter: 28.6 mm"}),
        ("brakes.adhesion-use", {"rear": "piston_diameter: 28.6 mm, brake_factor: 3"}),
        ("brakes.stopping-distance", {"tyres": "adhesion: 0.55 ± 0.02"}),
        ("brakes.stopping-distance-older", {"tyres": "adhesion: 0.5 ± 0.02"}),
        ("brakes.deceleration", {"tyres": "adhesion: 0.55 ± 0.02"}),
        ("brakes.servo-failed", {"line": "master_cylinder_bore: 45 mm"}),
        ("brakes.circuit-failed", {"line": "circuits: single"}),
        ("brakes.inspection", {"tyres": "adhesion: 0.5 ± 0.02"}),
        ("brakes.line-pressure", {"front": "piston_diameter: 20 mm"}),
        ("brakes.rotor-limit", {"front": "rotor_mass: 2 kg, cooling_area: 0.06 m²"}),
        ("brakes.ten-stops", {"front": "rotor_mass: 3 kg"}),
        ("brakes.residual-valve", {"line": "residual_pressure: 8 bar"}),
        ("brakes.lost-circuit-travel", {"line": "chamber_stroke: 40 mm"}),
        ("brakes.hot-stop", {"front": "rotor_mass: 2 kg, cooling_area: 0.06 m²"}),
        ("brakes.descent", {"brief": "descent_drop: 2000 m, descent_grade: 0.12"}),
        ("brakes.fluid-boils", {"brief": "descent_drop: 2000 m, descent_grade: 0.12",
                                "line": "fluid: DOT 3"}),
    ],
)  # fmt: skip
def test_one_change_fails_a_check(check: str, change: dict[str, str]) -> None:
    assert verdict(check, **change) is State.FAILS


def test_a_diagonal_split_helps_where_the_rear_does_little() -> None:
    assert verdict("brakes.circuit-failed", line="circuits: diagonal") is State.GOOD


def test_parking_brake_by_its_lever() -> None:
    def held(lever: str) -> State:
        text = (
            "build: an invented car\ncar: {body: {kind: unitary}}\n"
            f"options: {{parking_brake: {{p: {{lever_ratio: {lever}}}}}}}\n"
        )
        return evaluate(text).verdict("brakes.parking").state

    assert held("7") is State.GOOD
    assert held("1") is State.FAILS


def test_every_brake_verdict_carries_its_caution() -> None:
    bare = evaluate(samples=10)
    for name, check in bare.checks.items():
        if name.startswith(("brakes.", "wheels.", "tyres.")):
            assert "local codes" in check.caution
            assert check.mend.endswith(".")
