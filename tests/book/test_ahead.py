"""The options' tables judged beside the rest of the book."""

from __future__ import annotations

from pathlib import Path

import pytest

from drybuild.book.ahead import tables_ahead
from drybuild.options import stored
from drybuild.session import Session

TEXT = """
build: two engines
car: {body: {kind: unitary}}
options:
  engine:
    original: {as_is: true, mass: 150 kg, power: 60 kW at 5000 rpm}
    other: {mass: 130 kg, power: 90 kW at 5800 rpm}
"""
FEW = 120


@pytest.fixture
def session(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Session:
    monkeypatch.setenv("DRYBUILD_CACHE", str(tmp_path / "cache"))
    (tmp_path / "build.yaml").write_text(TEXT, encoding="utf-8")
    return Session.open(tmp_path, FEW)


def test_the_second_process_leaves_the_tables_to_be_found(session: Session) -> None:
    with tables_ahead(session) as ready:
        assert ready() == 0
    assert list(stored.usual_folder().glob("*.npz"))
    with tables_ahead(session) as ready:
        assert ready() is None, "tables that are kept need no second process"


def test_without_a_choice_there_is_nothing_to_wait_for(tmp_path: Path) -> None:
    (tmp_path / "build.yaml").write_text(TEXT.partition("options:")[0], encoding="utf-8")
    with tables_ahead(Session.open(tmp_path, FEW)) as ready:
        assert ready() is None
