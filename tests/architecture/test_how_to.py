"""The worked how-to runs as written."""

from __future__ import annotations

import re
from pathlib import Path
from types import ModuleType
from typing import Any

from tests.building import evaluate

from drybuild.checks.verdicts import judge
from drybuild.quantities.graph import Evaluation, Graph

PAGE = Path(__file__).resolve().parents[2] / "docs" / "how-to" / "add-a-check.md"


def test_the_how_to_on_adding_a_check_runs() -> None:
    room = ModuleType("room")
    names: dict[str, Any] = vars(room)  # whatever the page defines
    for code in re.findall(r"```python\n(.*?)```", PAGE.read_text(encoding="utf-8"), re.DOTALL):
        exec(compile(code, str(PAGE), "exec"), names)
    evaluation = Evaluation(Graph((room,)), evaluate(names["build"]).build, 500)
    verdict = judge(names["JOURNEY_LOAD"], evaluation)
    assert str(verdict.state) == names["wanted"]
    assert verdict.worst is not None
    assert verdict.worst.value[0] == 380.0
