"""Write a small build file, load it, and read quantities and verdicts off it."""

from __future__ import annotations

import tempfile
from dataclasses import dataclass
from functools import cached_property
from pathlib import Path

import numpy as np

from drybuild.checks.all import checks_of
from drybuild.checks.check import Check
from drybuild.checks.verdicts import Verdict, judge
from drybuild.errors import Problem
from drybuild.project.build import Build
from drybuild.project.load import load
from drybuild.project.samples import Values
from drybuild.quantities.all import graph
from drybuild.quantities.graph import Evaluation, Result

BARE = "build: a bare car\ncar: {body: {kind: unitary}}\n"
"""The least that a build file can say."""


@dataclass
class Evaluated:
    """A build file as loaded and evaluated."""

    build: Build
    samples: int

    @cached_property
    def evaluation(self) -> Evaluation:
        return Evaluation(graph(), self.build, self.samples)

    @property
    def problems(self) -> tuple[Problem, ...]:
        return self.build.problems

    @cached_property
    def checks(self) -> dict[str, Check]:
        return {check.id: check for check in checks_of(self.build, graph())}

    def result(self, name: str) -> Result:
        return self.evaluation.result(name)

    def value(self, name: str, label: str = "") -> float:
        """Return the nominal value; fail, saying what is missing, when it is open."""
        return float(self.samples_of(name, label)[0])

    def samples_of(self, name: str, label: str = "") -> Values:
        result = self.result(name)
        assert not result.open, f"{name} is open: {[str(m) for m in result.missing]}"
        values = result.labelled()
        return np.asarray(values[label])

    def verdict(self, check: str) -> Verdict:
        return judge(self.checks[check], self.evaluation)


def evaluate(text: str = BARE, *, samples: int = 200) -> Evaluated:
    """Load a build file's text and get ready to evaluate it."""
    with tempfile.TemporaryDirectory() as folder:
        (Path(folder) / "build.yaml").write_text(text, encoding="utf-8")
        return Evaluated(load(Path(folder)), samples)
