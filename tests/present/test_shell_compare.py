"""The shell's options side by side, in the terminal and as JSON."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from click.testing import CliRunner

from drybuild.cli import main

BUILD = (
    "build: a test car\ncar: {body: {kind: unitary}}\noptions:\n  shell:\n"
    "    left alone: {as_is: true}\n"
    "    rails: {work: connectors, mass: 14 ± 1 kg, price: 350 EUR, lead_time: 3 weeks,"
    " fitting: 16 / 25 / 42 h}\n"
    "    front: {work: bolt-in sub-frame, mass: 62 ± 5 kg, price: 2600 EUR, lead_time: 10 weeks,"
    " fitting: 40 / 65 / 110 h}\n"
    "picks: {shell: rails}\n"
)


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    (tmp_path / "build.yaml").write_text(BUILD, encoding="utf-8")
    return tmp_path


def run(*words: str) -> str:
    found = CliRunner().invoke(main, ["shell", *words, "--samples", "100"], catch_exceptions=False)
    assert found.exit_code == 0, found.output
    return found.output


def test_one_table_answers_towers_out(folder: Path) -> None:
    found = json.loads(run(str(folder), "--json", "--mass", "15 kg", "--money", "900"))
    options = {one["name"]: one["figures"] for one in found["options"]}
    assert options["left alone"]["torsion, towers out"]["value"] < 0.0
    for name in ("rails", "front"):
        for heading in ("torsion", "torsion, towers out", "adds", "price", "waiting", "work"):
            figure = options[name][heading]
            assert figure["low"] <= figure["high"]
            assert figure["shown"]
    assert [one["limit"] for one in found["sets"]] == ["15 kg", "900"]
    assert "licensed practice" in found["caution"]
    assert found["frame"]["members"]
    assert found["quantities"]["shell_case_stress"]["unit"] == "Pa"


def test_the_terminal_shows_it_with_the_drawing(folder: Path, tmp_path: Path) -> None:
    drawing = tmp_path / "strain.svg"
    told = run(str(folder), "--svg", str(drawing))
    for words in ("towers out", "Best sets", "hardpoints", "licensed practice"):
        assert words in " ".join(told.split())
    assert drawing.read_text(encoding="utf-8").startswith("<svg")


def test_a_limit_that_cannot_be_read_is_said(folder: Path) -> None:
    found = CliRunner().invoke(main, ["shell", str(folder), "--mass", "much"])
    assert found.exit_code == 1
    assert '"much" is no limit' in found.output
