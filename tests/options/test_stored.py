"""Tables kept on disk: found again by content, and never in the way."""

from __future__ import annotations

from pathlib import Path

import pytest
from tests.options.small_car import FILE, chooser, its_systems

from drybuild.options.stored import content_key
from drybuild.options.tables import Tabulated, Tabulator


def again(text: str, folder: Path) -> Tabulated:
    made = chooser(text).tabulator
    with its_systems():
        return made.tabulate(folder)


def no_judging(*words: object) -> None:
    raise AssertionError("judged again")


def test_a_build_opened_again_is_not_judged_again(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    first = again(FILE, tmp_path)
    made = chooser(FILE + "picks: {box: six}\n# a remark\n").tabulator
    monkeypatch.setattr(Tabulator, "_judged", no_judging)
    second = made.tabulate(tmp_path)
    assert [one.allowed.tolist() for one in second.network.tables] == [
        one.allowed.tolist() for one in first.network.tables
    ]
    room = next(one for one in second.network.tables if one.id == "rims.room")
    with its_systems():
        assert room.why({"rims": "old"}) == "rims.room at 0.035"


def test_what_was_said_is_not_worked_out_again(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    made = [chooser(FILE).tabulator for _ in range(3)]

    def said() -> str:
        with its_systems():
            tables = made.pop().tabulate(tmp_path).network.tables
            return next(one for one in tables if one.id == "rims.room").why({"rims": "old"})

    first = said()
    monkeypatch.setattr(Tabulator, "_verdicts", no_judging)
    assert said() == first
    (kept,) = tmp_path.glob("*.json")
    kept.write_text("[]", encoding="utf-8")
    with pytest.raises(AssertionError, match="judged again"):
        said()


@pytest.mark.parametrize(
    ("was", "now"),
    [
        ("diameter: 350 mm", "diameter: 352 mm"),
        ("0.4 kW/kg", "0.5 kW/kg"),
        ("kind: unitary", "kind: ladder"),
        ("alters: [bonnet, tunnel]", "alters: [bonnet]"),
    ],
)
def test_what_the_tables_rest_on_changes_the_key(was: str, now: str) -> None:
    assert was in FILE
    keys = {
        content_key(made.build, made.tabulator.checks, 300)
        for made in (chooser(FILE), chooser(FILE.replace(was, now)))
    }
    assert len(keys) == 2


def test_a_spoilt_file_is_let_be(tmp_path: Path) -> None:
    first = again(FILE, tmp_path)
    (kept,) = tmp_path.glob("*.npz")
    kept.write_bytes(b"PK\x03\x04 not a table")
    second = again(FILE, tmp_path)
    assert len(second.network.tables) == len(first.network.tables)


def test_a_folder_that_cannot_be_written_is_let_be(tmp_path: Path) -> None:
    blocked = tmp_path / "a file"
    blocked.write_text("", encoding="utf-8")
    assert again(FILE, blocked / "below").network.tables


def test_only_the_latest_are_kept(tmp_path: Path) -> None:
    for number in range(14):
        again(FILE.replace("350 mm", f"{350 + number} mm"), tmp_path)
    assert len(list(tmp_path.glob("*.npz"))) == 12
    assert not list(tmp_path.glob("*.part"))
