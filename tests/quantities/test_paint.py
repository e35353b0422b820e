from __future__ import annotations

import pytest
from tests.building import BARE, evaluate

PAINT = "build: a\noptions: {paint: {new: {%s}}}\n"


def test_a_bare_build_has_areas_and_litres() -> None:
    found = evaluate(BARE)
    assert 8.0 < found.value("outer_area") < 15.0
    assert found.value("painted_area") > found.value("outer_area")
    assert 10e-3 < found.value("paint_volume_total") < 60e-3


def test_a_measured_panel_replaces_its_estimate() -> None:
    car = "build: a\ncar: {panels: {areas: {roof: {area: 2.6 m²}}}}\n"
    assert evaluate(car).value("panel_area", "roof") == pytest.approx(2.6)
    more = evaluate(car).value("outer_area") - evaluate(BARE).value("outer_area")
    assert more == pytest.approx(2.6 - evaluate(BARE).value("panel_area", "roof"))


def test_litres_follow_film_solids_and_transfer() -> None:
    found = evaluate(
        PAINT % "clear_coat_film: 55 µm, clear_coat_solids: 42 %, transfer: 55 %", samples=10
    )
    expected = found.value("painted_area") * 55e-6 / (0.42 * 0.55)
    assert found.value("paint_volume_needed", "clear coat") == pytest.approx(expected)
    assert found.value("paint_lost") > 0.0


def test_the_dry_paint_weighs_a_few_kilograms() -> None:
    found = evaluate(BARE)
    assert 2.0 < found.value("paint_mass") < 10.0
    assert 100e-6 < found.value("paint_film") < 300e-6


def test_dark_gloss_asks_for_the_straightest_panels() -> None:
    # common practice, no source
    allowed = {
        (colour, gloss): evaluate(PAINT % f"colour: {colour}, gloss: {gloss}").value(
            "allowed_waviness"
        )
        for colour in ("white", "light", "mid", "dark", "black")
        for gloss in ("gloss", "satin", "matt")
    }
    assert min(allowed, key=lambda pair: allowed[pair]) == ("black", "gloss")
    assert allowed["dark", "gloss"] < allowed["mid", "gloss"] < allowed["white", "gloss"]


def test_no_blasting_takes_no_media() -> None:
    assert evaluate(PAINT % "blasting: dipping").value("blast_media") == 0.0
    hard = evaluate(PAINT % "blasting: hard media, nozzle: '9.5'")
    assert hard.value("blast_time") / 3600.0 == pytest.approx(80.0 / 21.0)
    assert hard.value("blast_media") == pytest.approx(80.0 * 24.0)
    assert hard.value("blast_air") == pytest.approx(0.0925)


def test_filler_weighs_what_it_covers() -> None:
    car = (
        "build: a\ncar: {panels: {filled_share: 20 %, filler_mean: 1 mm, "
        "filler_density: 1500 kg/m³}}\n"
    )
    found = evaluate(car)
    assert found.value("filler_mass") == pytest.approx(0.2 * found.value("outer_area") * 1.5)


def test_a_cool_shop_cures_slowly() -> None:
    warm = evaluate(PAINT % "cure_time: 16 h, shop_temperature: 20 ± 1 °C")
    cool = evaluate(PAINT % "cure_time: 16 h, shop_temperature: 15 ± 1 °C")
    assert warm.value("clear_coat_cure") == pytest.approx(16 * 3600.0)
    assert cool.value("clear_coat_cure") == pytest.approx(16 * 3600.0 * 2**0.5)
    assert cool.value("shop_temperature") == pytest.approx(288.15)


def test_air_for_the_spray_place() -> None:
    found = evaluate(PAINT % "booth_width: 4 m, booth_height: 2.5 m, booth_airflow: 6 m³/s")
    assert found.value("spray_air_needed") == pytest.approx(10.0 * 0.508)
    assert found.value("spray_air") == pytest.approx(6.0)
    assert evaluate(BARE).result("spray_air").open


def test_readings_pass_through() -> None:
    assert evaluate(PAINT % "clear_coat_film: 60 µm").value("clear_coat_film") == pytest.approx(
        60e-6
    )
    car = "build: a\ncar: {panels: {filler_thickness: 4 mm, waviness: 0.4 mm}}\n"
    assert evaluate(car).value("filler_thickness") == pytest.approx(4e-3)
    assert evaluate(car).value("panel_waviness") == pytest.approx(0.4e-3)
