"""`drybuild body`: the sheets of the body in the terminal, and as JSON."""

from __future__ import annotations

import json
from pathlib import Path

from click.testing import CliRunner

from drybuild.cli import main

EXAMPLES = Path(__file__).parents[2] / "examples"
FEW = ("--samples", "200")


def run(*words: str) -> str:
    done = CliRunner().invoke(main, ["body", *words])
    assert done.exit_code == 0, done.output
    return done.output


def test_the_terminal_shows_the_sheets_asked_for() -> None:
    text = run(str(EXAMPLES / "estate"), *FEW, "--sheet", "repair", "--sheet", "datum")
    for words in ("Repair order", "Never open together", "Straight, square, level", "licensed"):
        assert words in text
    assert "Shopping list" not in text


def test_the_json_tells_repairs_datum_and_paint() -> None:
    found = json.loads(run(str(EXAMPLES / "estate"), *FEW, "--json"))
    first = found["rounds"][0]["repairs"][0]
    assert first["hours"][0] < first["hours"][2]
    assert found["units"]["hours"] == "s"
    assert found["datum"]["datum_twist"][""]["tolerance"] == 4e-3
    assert 0.0 <= found["datum"]["datum_sag"]["left"]["odds_outside"] <= 1.0
    assert found["paint_to_buy"]["clear coat"]["value"] > 0.0
    assert any(not one["allowed"] for one in found["while_open"])


def test_a_sparse_build_has_a_repair_order_and_is_told_what_to_measure() -> None:
    text = run(str(EXAMPLES / "sparse"), *FEW, "--sheet", "repair", "--sheet", "datum")
    assert "Repair order" in text
    assert "Nothing is measured yet" in text
