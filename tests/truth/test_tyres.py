"""Tyres against published tables and sizes; each number names its source."""

from __future__ import annotations

import pytest

from drybuild.physics.tyre_sizes import Construction, tyre_size
from drybuild.physics.tyres import (
    ROLLING_FACTOR_RADIAL,
    outside_diameter,
    pressure_for_load,
    rolling_circumference,
    section_height,
    section_width_on_rim,
    standing_radius,
    turns_per_length,
)
from drybuild.tables.table import read_table
from drybuild.tables.tyres import (
    highest_speed,
    letter_load_capacity,
    listed_size,
    load_capacity,
    measuring_rim_ratio,
    metric_equivalent,
    rim_width_range,
)

MM = 0.001


def diameter_of(size: str) -> float:
    read = tyre_size(text=size)
    assert read.section_width is not None
    assert read.aspect is not None
    height = section_height(section_width=read.section_width, aspect=read.aspect)
    return float(outside_diameter(rim_diameter=read.rim_diameter, section_height=height))


# ISO 4000-1 load index as printed in three tyre importers' tables that agree (reprints).
@pytest.mark.parametrize(
    ("index", "kilograms"),
    [(60, 250), (75, 387), (82, 475), (91, 615), (100, 800), (110, 1060), (120, 1400)],
)
def test_load_index_agrees_with_iso_4000_1(index: int, kilograms: float) -> None:
    assert load_capacity(index) == kilograms


def test_every_load_index_lies_within_two_per_cent_of_its_defining_series() -> None:
    # The indices follow 45 · 10^(LI/80) kg, rounded; a mistyped entry would stand out.
    for row in read_table("tyre_load_index").rows:
        series = 45.0 * 10.0 ** (int(row["load_index"]) / 80.0)
        assert float(row["capacity"]) == pytest.approx(series, rel=0.018)


# Speed symbols, tyre importers' guides after UN R30 par. 2.29.3 (reprint).
@pytest.mark.parametrize(
    ("symbol", "kmh"), [("Q", 160), ("S", 180), ("T", 190), ("H", 210), ("V", 240), ("Y", 300)]
)
def test_speed_symbols_agree_with_un_r30(symbol: str, kmh: float) -> None:
    assert highest_speed(symbol) * 3.6 == pytest.approx(kmh)


# Nominal rim diameters in millimetres, UN R30 par. 2.17.1.3 (from memory).
@pytest.mark.parametrize(
    ("code", "millimetres"),
    list(zip(range(10, 23), [254, 279, 305, 330, 356, 381, 406, 432, 457, 483, 508, 533, 559],
             strict=True)),
)  # fmt: skip
def test_rim_diameters_agree_with_un_r30(code: int, millimetres: float) -> None:
    assert tyre_size(text=f"195/65R{code}").rim_diameter == pytest.approx(millimetres * MM)


# ETRTO Standards Manual, overall diameter of new tyres (from memory).
ETRTO_DIAMETERS = [
    ("165/80R13", 594),
    ("175/70R13", 576),
    ("185/70R14", 616),
    ("195/65R15", 635),
    ("205/60R15", 627),
    ("205/55R16", 632),
    ("225/50R16", 632),
    ("225/45R17", 634),
    ("245/40R18", 653),
    ("255/35R18", 635),
]


@pytest.mark.parametrize(("size", "millimetres"), ETRTO_DIAMETERS)
def test_outside_diameters_agree_with_etrto(size: str, millimetres: float) -> None:
    assert diameter_of(size) == pytest.approx(millimetres * MM, abs=1e-9)


def test_rolling_circumference_agrees_with_reimpell() -> None:
    # Reimpell, Stoll, Betzler, The Automotive Chassis, 2nd ed., 175/65 R 14 (from memory):
    # outside diameter 584 mm, rolling circumference 1780 mm, static radius 265 mm.
    assert diameter_of("175/65R14") == pytest.approx(0.584)
    rolled = rolling_circumference(outside_diameter=0.584, rolling_factor=ROLLING_FACTOR_RADIAL)
    assert rolled == pytest.approx(1.780, abs=0.002)
    height = section_height(section_width=0.175, aspect=0.65)
    radius = standing_radius(rim_diameter=0.356, section_height=height, height_share=0.77)
    assert radius == pytest.approx(0.265, abs=0.001)


def test_revolutions_agree_with_etrto() -> None:
    # ETRTO Standards Manual (from memory): 205/55 R 16 rolls 1928 mm a turn.
    rolled = rolling_circumference(outside_diameter=0.632, rolling_factor=ROLLING_FACTOR_RADIAL)
    assert rolled == pytest.approx(1.928, abs=0.001)
    assert turns_per_length(rolling_circumference=rolled) * 1000 == pytest.approx(518.8, abs=0.1)


def test_width_grows_five_millimetres_a_half_inch_of_rim() -> None:
    # Importers' fitting data (reprint): about 5 mm for each 0.5 in; UN R30 6.1.1 has K = 0.4.
    grown = section_width_on_rim(
        section_width=0.205, measuring_rim_width=6.5 * 0.0254, rim_width=7.0 * 0.0254
    )
    assert grown - 0.205 == pytest.approx(0.005, abs=0.0002)


# A metric size without a series: outside diameters of UN R30 Annex 5 (from memory) against the
# 80 and 82 % that sizing guides name (reprint). The guides bound the list within 1.5 %.
LISTED_RADIALS = [row for row in read_table("tyre_listed_size").rows if "R" in row["size"]]


@pytest.mark.parametrize("row", LISTED_RADIALS, ids=lambda row: str(row["size"]))
def test_listed_radial_sizes_lie_near_the_guides_aspect(row: dict[str, str]) -> None:
    read = tyre_size(text=row["size"])
    assert read.aspect is None
    assert read.section_width is not None
    listed = float(row["outside_diameter"]) * MM
    low = read.rim_diameter + 2 * 0.80 * read.section_width
    high = read.rim_diameter + 2 * 0.82 * read.section_width
    assert 0.985 * low <= listed <= 1.015 * high


def test_155r13_is_listed() -> None:
    # Reimpell (from memory): 155 R 13 has an outside diameter of 578 mm.
    listed = listed_size("155R13")
    assert listed is not None
    assert listed.outside_diameter == pytest.approx(0.578)


# Trade interchange charts (from memory): the letter E stands for a 195/75 or a 205/70 section.
@pytest.mark.parametrize(
    ("old", "metric"),
    [("E70-14", "P205/70R14"), ("F60-14", "P235/60R14"), ("6.95-14", "P185/75R14")],
)
def test_interchange_agrees_with_the_trade(old: str, metric: str) -> None:
    assert metric_equivalent(tyre_size(text=old).text) == metric


def test_interchange_agrees_with_the_listed_low_section_sizes() -> None:
    # Two charts recalled separately: UN R30 Annex 5 diameters and the interchange. Within 3 %.
    for old in ("6.95-14", "7.35-14", "7.75-14"):
        listed = listed_size(old)
        metric = metric_equivalent(old)
        assert listed is not None
        assert metric is not None
        assert diameter_of(metric) == pytest.approx(listed.outside_diameter, rel=0.03)


# T&RA Year Book, load range B at 32 psi (from memory), in kilograms.
@pytest.mark.parametrize(
    ("letter", "kilograms"),
    [("A", 481), ("C", 558), ("E", 635), ("F", 680), ("G", 735), ("H", 803), ("L", 894)],
)
def test_letter_loads_agree_with_the_yearbook(letter: str, kilograms: float) -> None:
    assert letter_load_capacity(letter) == pytest.approx(kilograms, abs=0.7)


# ETRTO Standards Manual (from memory): size, least, measuring and largest rim width in inches.
# The range below series 50 was read off 225/45R17 and 255/35R18, so those two only show that the
# bands are applied; 205/55R16 and 245/40R18 are the checks.
ETRTO_RIMS = [
    ("155/80R13", 4.0, 4.5, 5.5),
    ("205/55R16", 5.5, 6.5, 7.5),
    ("225/45R17", 7.0, 7.5, 8.5),
    ("245/40R18", 8.0, 8.5, 9.5),
    ("255/35R18", 8.5, 9.0, 10.0),
]


@pytest.mark.parametrize(("size", "least", "measuring", "largest"), ETRTO_RIMS)
def test_rim_widths_agree_with_etrto_within_half_an_inch(
    size: str, least: float, measuring: float, largest: float
) -> None:
    read = tyre_size(text=size)
    assert read.section_width is not None
    assert read.aspect is not None
    inches = read.section_width / 0.0254
    low, high = rim_width_range(read.aspect)
    assert low * inches == pytest.approx(least, abs=0.5)
    assert measuring_rim_ratio(read.aspect) * inches == pytest.approx(measuring, abs=0.25)
    assert high * inches == pytest.approx(largest, abs=0.5)


def test_pressure_follows_the_printed_exponent() -> None:
    # ETRTO Standards Manual, notes (reprint): load goes with pressure to the power 0.80.
    pressure = pressure_for_load(
        load=615.0 * 0.9, capacity=615.0, reference_pressure=250e3, exponent=0.80
    )
    assert (pressure / 250e3) ** 0.80 == pytest.approx(0.9)


def test_sizes_of_every_system_are_read() -> None:
    # The designations themselves: UN R30 Annex 3 and T&RA practice.
    assert tyre_size(text="P205/75R15").service == "P"
    assert tyre_size(text="31x10.50R15LT 109S").load_index == 109
    assert tyre_size(text="E70-14").construction is Construction.DIAGONAL
