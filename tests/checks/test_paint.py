from __future__ import annotations

from tests.building import BARE, evaluate

from drybuild.checks.verdicts import State

PAINT = "build: a\ncar: {panels: {waviness: 0.25 mm}}\noptions: {paint: {new: {%s}}}\n"


def test_thick_filler_fails() -> None:
    car = "build: a\ncar: {panels: {filler_thickness: %s}}\n"
    assert evaluate(car % "6 mm").verdict("paint.filler").state is State.FAILS
    assert evaluate(car % "2 mm").verdict("paint.filler").state is State.GOOD


def test_clear_coat_may_be_neither_thin_nor_thick() -> None:
    for film, state in (("40 µm", State.FAILS), ("60 µm", State.GOOD), ("90 µm", State.FAILS)):
        text = PAINT % f"clear_coat_film: {film}"
        assert evaluate(text).verdict("paint.clear-film").state is state


def test_the_same_panels_do_for_white_but_not_for_black() -> None:
    slope = "allowed_slope: 1.0 ± 0.1 mrad"
    white = evaluate(PAINT % f"colour: white, {slope}").verdict("paint.straightness")
    black = evaluate(PAINT % f"colour: black, {slope}").verdict("paint.straightness")
    assert white.state is State.GOOD
    assert black.state is State.FAILS
    assert not black.rules_out  # advice


def test_a_cold_shop_and_a_weak_fan_are_noticed() -> None:
    found = evaluate(
        PAINT % "shop_temperature: 12 ± 1 °C, booth_width: 4 m, booth_height: 2.5 m, "
        "booth_airflow: 1 m³/s"
    )
    assert found.verdict("paint.shop-warmth").state is State.FAILS
    assert found.verdict("paint.spray-air").state is State.FAILS


def test_paint_that_stays_is_not_asked_about() -> None:
    bare = evaluate(BARE)
    for check in ("filler", "clear-film", "straightness", "shop-warmth", "spray-air"):
        assert bare.verdict(f"paint.{check}").senseless


def test_every_paint_check_warns_with_figures() -> None:
    for check in evaluate(BARE).checks.values():
        if check.matter == "paint":
            assert "mg/m³" in check.caution
