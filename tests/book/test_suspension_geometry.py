from __future__ import annotations

import re
from pathlib import Path

from drybuild.book.chapters.suspension_geometry import geometry
from drybuild.book.pages import Figure, Sheet
from drybuild.project.load import load
from drybuild.session import Session

PAGE = Path(__file__).resolve().parents[2] / "docs" / "how-to" / "enter-hardpoints.md"


BARE = "build: a bare car\ncar: {body: {kind: unitary}}\n"


def session(folder: Path, text: str) -> Session:
    (folder / "build.yaml").write_text(text, encoding="utf-8")
    return Session(load(folder), folder, samples=100)


def test_hardpoints_bring_drawings_curves_and_figures(tmp_path: Path) -> None:
    found = re.search(r"```yaml\n(.*?)```", PAGE.read_text(encoding="utf-8"), re.DOTALL)
    assert found
    blocks = geometry(session(tmp_path, found[1]))
    pictures = [one for one in blocks if isinstance(one, Figure)]
    # A drawing each end; three curves in front, and the roll centre alone of the live axle.
    assert len(pictures) == 2 + 3 + 1
    assert "Every link follows" in pictures[0].words
    assert all("nan" not in one.svg for one in pictures)
    sheets = {one.title: one for one in blocks if isinstance(one, Sheet)}
    assert len(sheets["Each end"].rows) == 10
    assert len(sheets["Under brakes and drive"].rows) == 3


def test_a_car_without_hardpoints_has_no_such_section(tmp_path: Path) -> None:
    assert geometry(session(tmp_path, BARE)) == []
