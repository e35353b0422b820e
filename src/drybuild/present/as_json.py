"""The JSON forms of quantities and verdicts: stable interfaces, all numbers in SI."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Mapping
from typing import Any

from drybuild.checks.verdicts import Judged, Verdict
from drybuild.errors import Problem
from drybuild.present.numbers import date_text, with_band
from drybuild.project.readings import Origin
from drybuild.quantities.graph import Evaluation, Result, summary
from drybuild.sources import source

WEAKEST_FIRST = (Origin.GUESS, Origin.HANDBOOK, Origin.QUOTED, Origin.MEASURED)
Json = dict[str, Any]  # JSON is free-form


def quantities_json(
    results: Mapping[str, Result],
    evaluation: Evaluation,
    problems: tuple[Problem, ...],
    system: str,
) -> Json:
    """Return every quantity by name.

    ``{"quantities": {name: {value, unit, low, high, origin, source, label, ...}}}``; labelled
    quantities hold a mapping under ``value``, ``low`` and ``high``.
    """
    return {
        "build": evaluation.build.name,
        "currency": evaluation.build.currency,
        "quantities": {
            name: quantity_json(result, evaluation, system) for name, result in results.items()
        },
        "problems": [problem_json(one) for one in problems],
    }


def quantity_json(result: Result, evaluation: Evaluation, system: str) -> Json:
    """Return one quantity."""
    one = result.quantity
    triples = {label: summary(values) for label, values in result.labelled().items()}
    return {
        "value": _by_label(triples, 0, one.unit),
        "unit": one.unit.replace("money", evaluation.build.currency),
        "low": _by_label(triples, 1, one.unit),
        "high": _by_label(triples, 2, one.unit),
        "origin": weakest_origin(result, evaluation),
        "origins": origins(result, evaluation),
        "source": str(source(one.source)),
        "source_id": one.source,
        "label": one.label,
        "matter": one.matter,
        "per": one.per,
        "shown": {
            label: with_band(triple, one.unit, one.shown, system, evaluation.build.currency)
            for label, triple in triples.items()
        },
        "needs": list(one.needs),
        "missing": [{"path": lack.path, "why": lack.why} for lack in result.missing],
    }


def weakest_origin(result: Result, evaluation: Evaluation) -> str:
    """Return the least sure origin among the readings that a result rests on."""
    readings = evaluation.readings
    found = {str(readings[path].origin) for path in result.inputs if path in readings}
    return next((str(one) for one in WEAKEST_FIRST if one in found), "definition")


def origins(result: Result, evaluation: Evaluation) -> dict[str, int]:
    """Return how many readings of each origin a result rests on."""
    readings = evaluation.readings
    counted = Counter(str(readings[path].origin) for path in result.inputs if path in readings)
    return dict(sorted(counted.items()))


def verdicts_json(
    verdicts: tuple[Verdict, ...],
    evaluation: Evaluation,
    problems: tuple[Problem, ...],
    system: str,
) -> Json:
    """Return every verdict."""
    return {
        "build": evaluation.build.name,
        "currency": evaluation.build.currency,
        "verdicts": [verdict_json(one, evaluation, system) for one in verdicts],
        "problems": [problem_json(one) for one in problems],
    }


def verdict_json(verdict: Verdict, evaluation: Evaluation, system: str) -> Json:
    """Return one verdict."""
    check, worst = verdict.check, verdict.worst
    return {
        "id": check.id,
        "asks": check.asks,
        "verdict": str(verdict.state),
        "advice": check.advice,
        "quantity": check.quantity,
        "unit": verdict.unit.replace("money", evaluation.build.currency),
        "label": worst.label if worst else None,
        "value": _number(worst.value[0], verdict.unit) if worst else None,
        "limit": _number(worst.limit, verdict.unit) if worst else None,
        "margin": _number(worst.margin, "-") if worst else None,
        "probability": _number(worst.probability, "-") if worst else None,
        "no_solution": _number(worst.unsolved, "-") if worst else None,
        "labels": [_judged_json(one, verdict.unit) for one in verdict.judged],
        "missing": [{"path": lack.path, "why": lack.why} for lack in verdict.missing],
        "inputs": [
            reading_json(path, evaluation)
            for path in sorted(verdict.inputs)
            if path in evaluation.readings
        ],
        "doubt": [{"path": one.path, "share": round(one.share, 4)} for one in verdict.doubts],
        "source": str(source(check.source)),
        "caution": check.caution,
        "mend": check.mend,
    }


def reading_json(path: str, evaluation: Evaluation) -> Json:
    """Return one reading as taken."""
    found = evaluation.readings[path]
    return {
        "path": path,
        "text": found.text,
        "value": _number(found.value, ""),
        "low": _number(found.low, ""),
        "high": _number(found.high, ""),
        "origin": str(found.origin),
        "source": found.source,
        "file": found.file.name if found.file else None,
        "line": found.line or None,
    }


def problem_json(problem: Problem) -> Json:
    """Return one problem."""
    return {
        "code": problem.code,
        "file": str(problem.file),
        "line": problem.line,
        "field": problem.field,
        "wrong": problem.wrong,
        "mend": problem.mend,
    }


def _judged_json(one: Judged, unit: str) -> Json:
    return {
        "label": one.label,
        "verdict": str(one.state),
        "value": _number(one.value[0], unit),
        "low": _number(one.value[1], unit),
        "high": _number(one.value[2], unit),
        "limit": _number(one.limit, unit),
        "margin": _number(one.margin, "-"),
        "probability": _number(one.probability, "-"),
        "no_solution": _number(one.unsolved, "-"),
    }


def _by_label(triples: dict[str, tuple[float, float, float]], place: int, unit: str) -> Any:
    """Return one number, a mapping by label, or None when open (JSON is free-form)."""
    if not triples:
        return None
    if set(triples) == {""}:
        return _number(triples[""][place], unit)
    return {label: _number(triple[place], unit) for label, triple in triples.items()}


def _number(value: float, unit: str) -> float | str | None:
    """Return a JSON number; no solution is null, a date its ISO text."""
    if not math.isfinite(value):
        return None
    return date_text(value) if unit == "date" else float(value)
