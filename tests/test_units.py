"""Text with a unit to SI and back."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import pytest

from drybuild import units
from drybuild.errors import UnitError
from drybuild.units import currency_of, factor_and_offset, from_si, parse_number, to_si

# NIST Special Publication 811 (2008), appendix B: exact or to the digits printed there.
NIST_SP_811 = [
    (1.0, "in", "m", 0.0254),
    (1.0, "ft", "m", 0.3048),
    (1.0, "lb", "kg", 0.45359237),
    (1.0, "lbf", "N", 4.448222),
    (1.0, "lb·ft", "N·m", 1.355818),
    (1.0, "ft·lb", "N·m", 1.355818),
    (1.0, "psi", "Pa", 6894.757),
    (1.0, "hp", "W", 745.6999),
    (1.0, "PS", "W", 735.4988),
    (1.0, "mph", "m/s", 0.44704),
    (1.0, "lb/in", "N/m", 175.1268),
    (1.0, "kg/cm²", "Pa", 98066.5),
    (1.0, "rpm", "rad/s", 0.1047198),
    (32.0, "°F", "K", 273.15),
    (100.0, "°C", "K", 373.15),
    (1.0, "cu in", "m³", 1.638706e-5),
    (1.0, "gal", "m³", 3.785412e-3),
    (1.0, "inHg", "Pa", 3386.389),
]


@pytest.mark.parametrize(("number", "unit", "si", "expected"), NIST_SP_811)
def test_units_agree_with_nist(number: float, unit: str, si: str, expected: float) -> None:
    assert to_si(number, unit, si) == pytest.approx(expected, rel=1e-6)
    assert from_si(to_si(number, unit, si), unit, si) == pytest.approx(number)


def test_a_gravity_is_read_where_an_acceleration_is_wanted() -> None:
    assert to_si(1.0, "g", "m/s²") == pytest.approx(9.80665)
    assert to_si(1.0, "g", "kg") == pytest.approx(1e-3)


def test_workshop_fractions_are_numbers() -> None:
    assert parse_number("7/8") == 0.875
    assert parse_number("1 1/8") == 1.125
    assert parse_number("-1 1/2") == -1.5


@pytest.mark.parametrize("text", ["nan", "inf", "1_000", "1,5", "", "1/0", "12x", "1e99"])
def test_what_is_no_number_is_refused(text: str) -> None:
    with pytest.raises(UnitError):
        parse_number(text)


@pytest.mark.parametrize("unit", ["kg", "parsnips", "__import__('os')", "1e999999 m", "m" * 5000])
def test_a_unit_that_measures_something_else_is_refused(unit: str) -> None:
    with pytest.raises(UnitError):
        factor_and_offset(unit, "m")


def test_money_keeps_its_currency() -> None:
    assert currency_of("EUR/h") == "EUR"
    assert to_si(36.0, "EUR/h", "money/s") == pytest.approx(0.01)
    with pytest.raises(UnitError):
        to_si(1.0, "h", "money")


def test_fuel_by_distance_in_us_units() -> None:
    """One mile to the US gallon is 235.215 l/100 km: 1 mi = 1609.344 m, 1 gal = 3.785411784 l.

    NIST SP 811 (2008), appendix B.8; gallons per 100 miles as on the label of 40 CFR 600.302-12
    (from memory).
    """
    per_100_miles = 100.0 / 29.4
    assert to_si(per_100_miles, "gal/100 mi", "m²") == pytest.approx(
        to_si(235.215 / 29.4, "l/100 km", "m²"), rel=1e-6
    )


def test_units_that_measure_different_things_are_known_as_such_the_next_time() -> None:
    for _ in range(2):
        with pytest.raises(UnitError):
            units.factor_and_offset("kg", "m")
        assert units._kept()["kg\nm"] is None


def test_pairs_that_come_with_the_program_are_as_pint_works_them_out() -> None:
    shipped = units._shipped()
    assert len(shipped) > 100
    for key, pair in shipped.items():
        assert units._worked_out(*key.split("\n")) == pair, key


def test_the_demo_needs_no_other_pairs(tmp_path: Path) -> None:
    """Loading pint takes longer than most of a command, on a computer that has kept none."""
    demo = Path(__file__).resolve().parent.parent / "examples" / "estate"
    told = subprocess.run(
        [sys.executable, "-X", "importtime", "-m", "drybuild", "check", str(demo)],
        env={**os.environ, "DRYBUILD_CACHE": str(tmp_path)},
        capture_output=True,
        text=True,
        check=False,
    )
    assert "drybuild.session" in told.stderr
    assert not [
        line for line in told.stderr.splitlines() if line.rpartition("|")[2].strip() == "pint"
    ]
