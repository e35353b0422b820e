"""Fields of the build file: what they read, what they refuse, what they give."""

from __future__ import annotations

import pytest
from tests.building import evaluate

from drybuild.project.readings import Origin, Reading


def problems(text: str) -> list[str]:
    return [one.code for one in evaluate(text).problems]


def test_a_band_keeps_both_its_ends() -> None:
    build = evaluate(
        "options: {engine: {a: {torque: 350 N·m from 1500 to 4500 rpm}}}\npicks: {engine: a}\n"
    )
    curve = build.result("peak_torque_speed") if "peak_torque_speed" in build.checks else None
    section = build.build.options["engine"]["a"]
    value, start, end = section.given["torque"]  # type: ignore[misc]  # the three readings
    assert curve is None or not curve.open
    assert (value.value, start.text, end.text) == (350.0, "1500 rpm", "4500 rpm")
    assert end.value == pytest.approx(3.0 * start.value)


def test_the_long_form_of_a_reading() -> None:
    build = evaluate(
        "car: {body: {wheelbase: {value: 2540 mm, plus_minus: 3 mm, from: quoted, note: a note}}}\n"
    )
    found = build.build.car["body"].given["wheelbase"]
    assert isinstance(found, Reading)
    assert (found.low, found.value, found.high) == pytest.approx((2.537, 2.540, 2.543))
    assert (found.origin, found.note) == (Origin.QUOTED, "a note")


@pytest.mark.parametrize(
    ("entry", "code"),
    [
        ("wheelbase: 2540", "unit-missing"),
        ("wheelbase: 2540 kg", "unit-wrong"),
        ("wheelbase: -2540 mm", "out-of-bounds"),
        ("wheelbase: 25400000 m", "out-of-bounds"),
        ("wheelbase: [1, 2]", "number-wanted"),
        ("wheelbase: {value: 2 m, form: measured}", "unknown-key"),
        ("wheelbase: {value: 2 m, from: hearsay}", "choice-unknown"),
        ("weelbase: 2540 mm", "unknown-key"),
        ("kind: monocoque", "choice-unknown"),
    ],
)
def test_what_is_wrong_gets_its_code(entry: str, code: str) -> None:
    assert code in problems(f"car: {{body: {{{entry}}}}}\n")


@pytest.mark.parametrize("text", ["?", "", "~", "null"])
def test_what_is_not_known_falls_back_to_the_typical_range(text: str) -> None:
    build = evaluate(
        f'car: {{body: {{kind: unitary, wheelbase: "{text}"}}}}\n'
        if text == "?"
        else f"car: {{body: {{kind: unitary, wheelbase: {text}}}}}\n"
    )
    assert not build.problems
    assert 2.0 < build.value("wheelbase") < 3.2


def test_a_temperature_without_spread_gets_one_in_kelvin() -> None:
    found = evaluate("brief: {hot_day: 38 °C}\n").build.brief.given["hot_day"]
    assert isinstance(found, Reading)
    assert found.spread == pytest.approx(3.0)


def test_two_currencies_are_a_problem_that_names_both_places() -> None:
    build = evaluate("options:\n  engine:\n    a: {price: 100 EUR}\n    b: {price: 100 USD}\n")
    (problem,) = build.problems
    assert problem.code == "two-currencies"
    assert "build.yaml:3" in problem.wrong
