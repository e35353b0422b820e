"""The margin of a verdict in every sample, for asking what it depends on."""

from __future__ import annotations

import numpy as np

from drybuild.checks.verdicts import Verdict
from drybuild.errors import UnitError
from drybuild.project.readings import parse_reading
from drybuild.project.samples import Values
from drybuild.quantities.graph import Evaluation


def margin_of(verdict: Verdict, evaluation: Evaluation) -> Values | None:
    """Return the margin of the label that decides, nominal first; None where there is none."""
    worst = verdict.worst
    values = evaluation.result(verdict.check.quantity).labelled()
    if worst is None or worst.label not in values:
        return None
    found = values[worst.label]
    sides = []
    for limit, sign in ((verdict.check.at_least, 1.0), (verdict.check.at_most, -1.0)):
        if limit is not None:
            sides.append(sign * (found - _limit(limit, verdict, evaluation)))
    margin: Values = sides[0] if len(sides) == 1 else np.minimum(*sides)
    return margin


def _limit(limit: str, verdict: Verdict, evaluation: Evaluation) -> Values | float:
    """Return a limit: of another quantity by sample, else a constant."""
    worst, check = verdict.worst, verdict.check
    if worst is None:
        return float("nan")
    if check.id not in evaluation.build.limits and limit in evaluation.graph.quantities:
        other = evaluation.result(limit).labelled()
        return other.get(worst.label, next(iter(other.values())))
    if check.at_least is None or check.at_most is None:
        return worst.limit
    try:
        return parse_reading(limit, verdict.unit).value
    except UnitError:
        return worst.limit
