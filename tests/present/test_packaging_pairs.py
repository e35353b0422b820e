from __future__ import annotations

import json
from pathlib import Path

from click.testing import CliRunner
from tests.building import BARE, evaluate
from tests.quantities.test_packaging import build

from drybuild.cli import main
from drybuild.present.packaging_pairs import near, pair_cells, pairs_of

CHECKS = ("packaging.bay", "packaging.bonnet")
BOX = (
    "boxes: {servo: {rear: -450 mm, front: -200 mm, right: 285 mm, left: 500 mm, "
    "bottom: 300 mm, top: 550 mm}}"
)


def test_the_worst_pair_stands_first_with_where_it_meets() -> None:
    found = evaluate(build(boxes=BOX, rock="12 mm"))
    gaps = {"bay_gaps": found.result("bay_gaps").value}
    pairs = pairs_of([found.verdict(one) for one in CHECKS], gaps)
    assert pairs[0].name == "servo"
    cells = pair_cells(pairs[0], "metric", "EUR")
    assert cells[4] == "fails"
    assert "rocked to the left" in cells[6]
    kept, far = near(pairs)
    assert kept[0] is pairs[0]
    assert len(kept) + far == len(pairs)


def test_the_command_lists_pairs_and_writes_json(tmp_path: Path) -> None:
    (tmp_path / "build.yaml").write_text(build(boxes=BOX, rock="12 mm"), encoding="utf-8")
    told = CliRunner().invoke(main, ["fit", str(tmp_path)], env={"COLUMNS": "160"})
    assert told.exit_code == 0
    assert "servo" in told.output
    assert "more pairs are well clear" in told.output
    asked = CliRunner().invoke(main, ["fit", str(tmp_path), "--json"])
    worst = json.loads(asked.output)["pairs"][0]
    assert worst["pair"] == "servo"
    assert worst["gap"] < worst["needed"]
    assert len(worst["way out"]) == 3


def test_an_engine_that_stays_has_nothing_to_fit(tmp_path: Path) -> None:
    (tmp_path / "build.yaml").write_text(BARE, encoding="utf-8")
    told = CliRunner().invoke(main, ["fit", str(tmp_path)])
    assert told.exit_code == 0
    assert "Nothing to fit" in told.output
