"""Numbers as people read them: digits by the band, a true minus, no band that cannot be seen."""

from __future__ import annotations

import pytest

from drybuild.present.numbers import as_text, value_and_band, with_minus


@pytest.mark.parametrize(
    ("triple", "told"),
    [
        ((0.0, 0.0, 0.0), ("0 %", "")),
        ((0.0, 0.0, 1e-10), ("0 %", "")),
        ((1.0, 1.0 - 3e-9, 1.0), ("100 %", "")),
        ((0.25, 0.2, 0.3), ("25.0 %", "20.0 to 30.0")),
    ],
)
def test_a_band_too_fine_to_see_is_not_told(
    triple: tuple[float, float, float], told: tuple[str, str]
) -> None:
    assert value_and_band(triple, "-", "%", "metric", "EUR") == told


def test_a_band_that_can_be_seen_keeps_its_digits() -> None:
    assert as_text(1.0, low=0.9, high=1.1) == "1.00"


@pytest.mark.parametrize(
    ("typed", "read"),
    [
        ("-430 ± 5 mm", "−430 ± 5 mm"),
        ("-3 to -1 %", "−3 to −1 %"),
        ("3-5 mm", "3-5 mm"),
        ("2028-12-14", "2028-12-14"),
        ("M10x-1", "M10x-1"),
        ("205/55-16", "205/55-16"),
    ],
)
def test_a_minus_stands_for_a_hyphen_before_a_number(typed: str, read: str) -> None:
    assert with_minus(typed) == read
