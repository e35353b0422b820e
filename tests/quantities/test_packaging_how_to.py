"""The worked how-to on the bay runs as written."""

from __future__ import annotations

import re
from pathlib import Path

from tests.building import evaluate

from drybuild.checks.verdicts import State

PAGE = Path(__file__).resolve().parents[2] / "docs" / "how-to" / "enter-the-bay.md"


def test_the_how_to_on_the_bay_runs() -> None:
    first = re.findall(r"```yaml\n(.*?)```", PAGE.read_text(encoding="utf-8"), re.DOTALL)[0]
    found = evaluate(first)
    assert found.problems == ()
    gaps = found.result("bay_gaps").value
    assert {"steering shaft", "track rod", "left tower", "exhaust to steering shaft"} <= set(gaps)
    assert gaps["steering shaft"].nominal.need == 0.020
    assert found.verdict("packaging.bonnet").state is State.GOOD
