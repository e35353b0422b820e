from __future__ import annotations

import pytest
from tests.building import BARE, evaluate

from drybuild.checks.verdicts import State

PAINT = "build: a\noptions: {paint: {new: {%s}}}\n"
GAPS = "build: a\ncar: {panels: {joints: {%s}}}\n"


def test_what_is_bought_covers_eight_in_ten() -> None:
    found = evaluate(PAINT % "colour: mid")
    needed = found.samples_of("paint_volume_needed", "surfacer")
    parts = ("surfacer", "surfacer: hardener", "surfacer: thinner")
    bought = sum(found.value("paint_to_buy", part) for part in parts)
    assert (needed <= bought).mean() == pytest.approx(0.8, abs=0.03)
    assert "base coat: hardener" not in found.result("paint_to_buy").labelled()


def test_a_cold_shop_waits_longer_at_every_stage_and_in_the_plan() -> None:
    warm = evaluate(PAINT % "shop_temperature: 20 °C, two_pack: true")
    cold = evaluate(PAINT % "shop_temperature: 12 °C, two_pack: true")
    factor = 2.0**0.8
    assert cold.value("paint_cure_factor") == pytest.approx(factor)
    assert cold.value("paint_stage_cure", "surfacer") == pytest.approx(4 * 3600.0 * factor)
    waits = [
        {job.name: job.cure_days.likely for job in one.result("work_plan").value.plan.jobs}
        for one in (warm, cold)
    ]
    assert waits[1]["spray the colour"] == pytest.approx(waits[0]["spray the colour"] * factor)


def test_the_mask_stays_on_until_the_place_is_clear() -> None:
    booth = "booth_width: 4 m, booth_height: 2.5 m, booth_length: 6 m, booth_airflow: %s"
    weak, strong = (evaluate(PAINT % (booth % flow)) for flow in ("0.5 m³/s", "5 m³/s"))
    assert weak.value("spray_clearance") == pytest.approx(10.0 * strong.value("spray_clearance"))
    assert evaluate(BARE).result("spray_clearance").open


def test_hard_media_on_flat_skins_is_told() -> None:
    hard = evaluate(PAINT % "blasting: hard media").verdict("paint.blasted-skins")
    assert hard.state is State.FAILS
    assert not hard.rules_out  # advice
    for how in ("blasting: soft media", "blasting: hard media, spare_skins: true"):
        assert evaluate(PAINT % how).verdict("paint.blasted-skins").state is State.GOOD


def test_gaps_tapers_and_steps_are_judged_by_joint() -> None:
    good = evaluate(
        GAPS % "front wing to door left: {start: 4 ± 0.1 mm, end: 4.2 ± 0.1 mm, step: 0 ± 0.1 mm}"
    )
    for check in ("paint.gaps", "paint.gap-taper", "paint.steps"):
        assert good.verdict(check).state is State.GOOD, check
    bad = evaluate(
        GAPS % "front wing to door left: {start: 4 ± 0.1 mm, end: 6 ± 0.1 mm, step: 1.5 ± 0.1 mm}"
    )
    for check in ("paint.gaps", "paint.gap-taper", "paint.steps"):
        assert bad.verdict(check).state is State.FAILS, check
    assert bad.value("panel_gap_room", "front wing to door left") == pytest.approx(-1e-3)
    assert evaluate(BARE).verdict("paint.gaps").senseless


def test_a_joint_misspelt_is_a_problem_with_a_hint() -> None:
    found = evaluate(GAPS % "bonet to wing: {start: 4 mm}")
    assert "bonnet to wing" in found.problems[0].mend


def test_thick_putty_fails() -> None:
    text = "build: a\ncar: {panels: {putty_thickness: %s}}\n"
    assert evaluate(text % "2 mm").verdict("paint.putty").state is State.FAILS
    assert evaluate(text % "0.3 mm").verdict("paint.putty").state is State.GOOD
