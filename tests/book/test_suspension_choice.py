from __future__ import annotations

from pathlib import Path

import pytest

from drybuild.book.chapters.suspension_compare import candidates
from drybuild.book.chapters.suspension_springs import springs
from drybuild.book.pages import Block, Figure, Sheet, Words
from drybuild.session import Session
from tests.present.test_candidates import CAR


@pytest.fixture(scope="module")
def session(tmp_path_factory: pytest.TempPathFactory) -> Session:
    folder: Path = tmp_path_factory.mktemp("build")
    told = CAR.replace("{front_suspension: original", "{front_suspension: measured")
    (folder / "build.yaml").write_text(told, encoding="utf-8")
    return Session.open(folder, 100)


def sheets(blocks: list[Block]) -> dict[str, Sheet]:
    """Return the tables by title."""
    return {one.title: one for one in blocks if isinstance(one, Sheet)}


def test_candidates_have_one_table_and_one_set_of_plots(session: Session) -> None:
    blocks = candidates(session)
    table = sheets(blocks)[""]
    assert table.columns == ("figure", "original", "kit", "measured (picked)")
    assert ("geometry from", "its sheet", "its sheet", "hardpoints") in table.rows
    drawn = [one for one in blocks if isinstance(one, Figure)]
    assert any(one.caption.startswith("Camber") for one in drawn)
    assert any("kit, by its sheet" in one.words for one in drawn)
    why = next(one for one in blocks if isinstance(one, Words) and one.points)
    assert "15 in or larger" in why.points[0]


def test_springs_to_order_and_what_the_stance_does(session: Session) -> None:
    found = sheets(springs(session))
    assert len(found["Force of each damper"].rows) == 11
    assert found["What makes the rates"].rows
    lowered = found["A higher or lower front"]
    assert lowered.columns[-1] == "roll centre"
    told = {row[0]: row for row in lowered.rows}
    assert told["0 mm"][-1].endswith("mm")
    # The pillar's roll centre falls faster than the body.
    centres = [float(told[one][-1].split()[0].replace("−", "-")) for one in ("−20 mm", "20 mm")]
    assert centres[0] < centres[1]
