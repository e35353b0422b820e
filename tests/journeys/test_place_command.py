"""A person asks where the engine sits best: the demo's engines, by command, and the file after."""

from __future__ import annotations

import json
import shutil
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from drybuild.cli import main

ESTATE = Path(__file__).parents[2] / "examples" / "estate"
SPARSE = Path(__file__).parents[2] / "examples" / "sparse"


def run(*words: str) -> Result:
    return CliRunner().invoke(main, words)


def asked(folder: Path, *words: str) -> dict[str, object]:
    result = run("place", str(folder), "--json", "--samples", "200", *words)
    assert result.exit_code == 0, result.output
    found = json.loads(result.stdout)["placement"]
    assert isinstance(found, dict)
    return found


@pytest.fixture(scope="module")
def tall() -> dict[str, object]:
    return asked(ESTATE, "--engine", "tall six")


def test_the_tall_engine_finds_no_place_and_what_holds_it_is_named(tall: dict[str, object]) -> None:
    assert tall["fits"] is False
    assert tall["probability"] == 0.0
    held = tall["held by"]
    assert isinstance(held, list)
    assert "bonnet" in {one["against"] for one in held}
    assert all(one["gap"] < one["needed"] for one in held)


def test_the_least_change_is_offered_against_the_brief(tall: dict[str, object]) -> None:
    ways = tall["alter"]
    assert isinstance(ways, list)
    (part,) = ways[0]["parts"]
    assert part["alteration"] == "bonnet bulge"
    assert part["against"] == ["bonnet"]
    assert 0.03 < part["amount"] < 0.12
    assert ways[0]["margin"] >= 0.0


def test_the_maps_show_no_place_for_it(tall: dict[str, object]) -> None:
    maps = tall["maps"]
    assert isinstance(maps, list)
    assert [(one["across"], one["up"]) for one in maps] == [("x", "z"), ("x", "pitch")]
    assert max(max(row) for row in maps[0]["margins"]) < 0.0


def test_another_engine_fits_with_its_margin_and_odds() -> None:
    found = asked(ESTATE, "--engine", "two litre")
    assert found["fits"] is True
    assert float(str(found["margin"])) > 0.0
    assert float(str(found["probability"])) > 0.8


def test_the_words_say_what_is_lacking(tmp_path: Path) -> None:
    result = run("place", str(ESTATE), "--engine", "tall six", "--samples", "200", "--save")
    assert result.exit_code == 1
    flat = " ".join(result.output.split())
    assert "there is no place for it" in flat
    assert "the brief keeps the bonnet" in flat
    assert "Nothing saved" in flat


def test_a_better_place_is_written_and_taken_back(tmp_path: Path) -> None:
    folder = tmp_path / "estate"
    shutil.copytree(ESTATE, folder)
    before = (folder / "build.yaml").read_text(encoding="utf-8")
    result = run("place", str(folder), "--engine", "turbo four", "--samples", "200", "--save")
    assert result.exit_code == 0, result.output
    after = (folder / "build.yaml").read_text(encoding="utf-8")
    old, new = before.splitlines(), after.splitlines()
    changed = [(a, b) for a, b in zip(old, new, strict=True) if a != b]
    assert len(changed) == 1
    assert changed[0][0].strip().startswith("turbo four:")
    assert run("undo", str(folder)).exit_code == 0
    assert (folder / "build.yaml").read_text(encoding="utf-8") == before


def test_an_unknown_engine_and_nothing_to_place_are_told() -> None:
    unknown = run("place", str(ESTATE), "--engine", "tall sixx")
    assert unknown.exit_code == 1
    assert "tall six" in unknown.output
    nothing = run("place", str(SPARSE))
    assert nothing.exit_code == 1
    assert "Nothing to place" in nothing.output
