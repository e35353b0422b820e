"""A verdict's value, limit and sureness in the person's units."""

from __future__ import annotations

from drybuild.checks.verdicts import Judged, Verdict
from drybuild.present.numbers import as_text, date_text, in_unit, unit_for, with_band
from drybuild.quantities.graph import Evaluation


def value_text(verdict: Verdict, evaluation: Evaluation) -> str:
    """Return the value that decided, with its label, or what is missing."""
    worst = verdict.worst
    if worst is None:
        return "missing: " + "; ".join(f"{one.path}: {one.why}" for one in verdict.missing[:2])
    one = evaluation.graph.quantities[verdict.check.quantity]
    build = evaluation.build
    text = with_band(worst.value, one.unit, one.shown, build.units, build.currency)
    if worst.unsolved:
        text = f"{text}, {_part(worst.unsolved)} of the samples have no solution"
    return f"{worst.label}: {text}" if worst.label else text


def limit_text(verdict: Verdict, evaluation: Evaluation) -> str:
    """Return the limit with its side."""
    worst = verdict.worst
    if worst is None:
        return ""
    one, build = evaluation.graph.quantities[verdict.check.quantity], evaluation.build
    sign = _sign(verdict, worst)
    if one.unit == "date":
        return f"{sign} {date_text(worst.limit)}"
    number = as_text(in_unit(worst.limit, one.unit, one.shown, build.units))
    unit = unit_for(one.shown, build.units, build.currency)
    return f"{sign} {number}" + ("" if unit == "-" else f" {unit}")


def _sign(verdict: Verdict, worst: Judged) -> str:
    check = verdict.check
    if check.at_most is None:
        return "≥"
    if check.at_least is None:
        return "≤"
    from_below = worst.value[0] - worst.limit
    return "≥" if abs(from_below - worst.margin) <= 1e-9 * max(1.0, abs(worst.limit)) else "≤"


def sure_text(verdict: Verdict) -> str:
    """Return the probability that the check holds."""
    worst = verdict.worst
    if worst is None:
        return ""
    return _part(worst.probability)


def _part(share: float) -> str:
    percent = share * 100.0
    if 0.0 < percent < 1.0:
        return "< 1 %"
    return "> 99 %" if 99.0 < percent < 100.0 else f"{percent:.0f} %"


def failing_words(verdict: Verdict, evaluation: Evaluation) -> str:
    """Return one sentence on why a check rules something out: what it is, and what was wanted."""
    quantity = evaluation.graph.quantities[verdict.check.quantity]
    what = quantity.label[:1].lower() + quantity.label[1:]
    value = value_text(verdict, evaluation)
    if verdict.check.fails:
        told = verdict.check.fails.format(
            value=value, limit=limit_text(verdict, evaluation), kept=_kept(evaluation)
        )
        return f"{told} ({verdict.check.id})"
    return f"{what}: {value}, wanted {limit_text(verdict, evaluation)} ({verdict.check.id})"


def _kept(evaluation: Evaluation) -> str:
    """Return what the brief keeps as the end of a sentence; nothing where it keeps nothing."""
    areas = evaluation.build.brief.given.get("keep")
    if not isinstance(areas, tuple) or not areas:
        return ""
    *others, last = areas
    return f"; the brief keeps {', '.join(others)}{' and ' if others else ''}{last}"
