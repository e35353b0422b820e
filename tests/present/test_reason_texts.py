from __future__ import annotations

from tests.options.small_car import CHECKS, FILE, chooser

from drybuild.checks.verdicts import judge
from drybuild.options.reasons import Explanation
from drybuild.present.reason_texts import failing_text, reason_text


def test_a_failing_check_is_said_with_value_and_limit() -> None:
    evaluation = chooser(FILE).tabulator.screen
    verdict = judge(CHECKS[0], evaluation, picks={"rims": "old", "discs": "middle"})
    assert failing_text(verdict, evaluation) == "Room between disc and rim: 35 mm, ≥ 45 mm wanted"


def test_a_reason_names_the_picks_to_blame() -> None:
    made = chooser(FILE)
    joint = next(one for one in made.network.tables if one.id.startswith("joint"))
    reason = Explanation(picks=(("box", "old"), ("motor", "strong")), tables=(joint,))
    assert reason_text(reason) == (
        "with old (box): strong (motor) has bell B, old (box) has bell A"
    )
    assert reason_text(Explanation(picks=(("motor", "huge"),), tables=())) == ""
