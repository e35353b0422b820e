"""A quantity's result in the person's units."""

from __future__ import annotations

from drybuild.present.numbers import with_band
from drybuild.quantities.graph import Evaluation, Result, summary


def result_text(result: Result, evaluation: Evaluation) -> str:
    """Return a result in the person's units, one line a label, or what is missing."""
    if result.open:
        return "open: " + "; ".join(f"{one.path} ({one.why})" for one in result.missing[:2])
    build, one = evaluation.build, result.quantity
    lines = []
    for label, values in result.labelled().items():
        text = with_band(summary(values), one.unit, one.shown, build.units, build.currency)
        lines.append(f"{label}: {text}" if label else text)
    return "\n".join(lines)
