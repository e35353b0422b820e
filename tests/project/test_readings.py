"""Readings as people type them."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from drybuild.errors import UnitError
from drybuild.project.readings import Origin, parse_reading, parse_three_point

FORMS = [
    ("1520 mm", "m", 1.520, 1.520, 1.520),
    ("1520 ± 3 mm", "m", 1.517, 1.520, 1.523),
    ("1520 +- 3 mm", "m", 1.517, 1.520, 1.523),
    ("1520 mm ± 3 mm", "m", 1.517, 1.520, 1.523),
    ("1.52 m ± 3 mm", "m", 1.517, 1.520, 1.523),
    ("350 N·m ± 10 %", "N·m", 315.0, 350.0, 385.0),
    ("350 ± 10 % N·m", "N·m", 315.0, 350.0, 385.0),
    ("80 ± 5 %", "-", 0.75, 0.80, 0.85),
    ("180 to 240 mm", "m", 0.18, 0.21, 0.24),
    ("0.35 to 0.45", "-", 0.35, 0.40, 0.45),
    ("15/16 in", "m", 0.0238125, 0.0238125, 0.0238125),
    ("90 ± 3 °C", "K", 360.15, 363.15, 366.15),
    ("-12 ± 2 mm", "m", -0.014, -0.012, -0.010),
    ("13 in", "m", 0.3302, 0.3302, 0.3302),
]


@pytest.mark.parametrize(("text", "unit", "low", "value", "high"), FORMS)
def test_forms(text: str, unit: str, low: float, value: float, high: float) -> None:
    found = parse_reading(text, unit)
    assert (found.low, found.value, found.high) == pytest.approx((low, value, high))


@pytest.mark.parametrize(
    ("text", "unit", "value", "high"),
    [
        ("11 1/rad", "1/rad", 11.0, 11.0),
        ("11 ± 1 1/rad", "1/rad", 11.0, 12.0),
        ("0.2 /deg", "1/rad", 11.459156, 11.459156),
        ("6 1/rad²", "1/rad²", 6.0, 6.0),
        ("6 1/2 in", "m", 0.1651, 0.1651),
    ],
)
def test_units_that_divide(text: str, unit: str, value: float, high: float) -> None:
    found = parse_reading(text, unit)
    assert found.value == pytest.approx(value)
    assert found.high == pytest.approx(high)


def test_a_tilde_is_a_guess() -> None:
    assert parse_reading("~650 mm", "m").origin is Origin.GUESS
    assert parse_reading("650 mm", "m").origin is None


@pytest.mark.parametrize(
    ("text", "unit", "words"),
    [
        ("1520", "m", "no unit"),
        ("1520 kg", "m", "does not measure"),
        ("1200", "money", "no currency"),
        ("12 ± -3 mm", "m", "negative spread"),
        ("12 ± mm", "m", "no number after"),
        ("240 to 180 mm", "m", "from more to less"),
        ("nan mm", "m", "does not read"),
        ("lots", "m", "does not read"),
    ],
)
def test_what_is_wrong_is_said(text: str, unit: str, words: str) -> None:
    with pytest.raises(UnitError, match=words):
        parse_reading(text, unit)


def test_three_points_stand_in_order() -> None:
    assert parse_three_point("8 / 12 / 20 h", "s") == (28800.0, 43200.0, 72000.0, "h")
    with pytest.raises(UnitError, match="order"):
        parse_three_point("12 / 8 / 20 h", "s")


@settings(deadline=None)  # the first unit that is new loads the table of units
@given(st.text(max_size=40))
def test_any_text_reads_or_is_refused_in_words(text: str) -> None:
    try:
        parse_reading(text, "m")
    except UnitError as fault:
        assert str(fault)  # noqa: PT017  either outcome is right; a traceback is not
