"""A person asks for the brakes: verdicts, sizing, and whether they do without a servo."""

from __future__ import annotations

import json
from pathlib import Path

from click.testing import CliRunner

from drybuild.cli import main

EXAMPLES = Path(__file__).parents[2] / "examples"


def run(*words: str) -> str:
    found = CliRunner().invoke(main, ["brakes", *words, "--samples", "100"])
    assert found.exit_code == 0, found.output
    return found.output


def test_the_estate_is_sized_in_words() -> None:
    told = " ".join(run(str(EXAMPLES / "estate")).split())
    for words in (
        "licensed shop", "Master cylinders that are made", "Other pistons at the rear",
        "Best setting of a rear valve", "They may do", "of 100", "in a low gear",
    ):  # fmt: skip
        assert words in told, words


def test_the_sheet_lists_every_figure() -> None:
    assert "pedal_firmness" in run(str(EXAMPLES / "roadster"), "--sheet").replace("\n", "")


def test_a_bare_build_is_sized_too(tmp_path: Path) -> None:
    (tmp_path / "build.yaml").write_text("car: {body: {kind: unitary}}\n", encoding="utf-8")
    found = json.loads(run(str(tmp_path), "--json"))
    assert {"sizing", "quantities", "verdicts", "caution"} <= set(found)
    sizing = found["sizing"]
    assert len(sizing["bores"]) == 10
    assert {one["kind"] for one in sizing["valves"]} == {"no valve", "fixed", "load-sensing"}
    assert 0.2 < sizing["unassisted"]["disc"]["value"] < 0.35
    for one in sizing["bores"]:
        assert 0.0 <= one["odds"] <= 1.0
        assert one["pedal_force"]["low"] <= one["pedal_force"]["high"]
