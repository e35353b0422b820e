"""Why an option is not possible, in the person's words and units."""

from __future__ import annotations

from drybuild.checks.verdicts import Verdict
from drybuild.options.reasons import Explanation
from drybuild.present.verdict_texts import limit_text, value_text
from drybuild.quantities.graph import Evaluation


def failing_text(verdict: Verdict, evaluation: Evaluation) -> str:
    """Return what fails: "Room between disc and rim: 35 mm, ≥ 45 mm wanted"."""
    one = evaluation.graph.quantities[verdict.check.quantity]
    return (
        f"{one.label}: {value_text(verdict, evaluation)}, {limit_text(verdict, evaluation)} wanted"
    )


def reason_text(reason: Explanation) -> str:
    """Return one line: the picks that are to blame, then what each rule says."""
    others = [f"{option} ({system})" for system, option in reason.picks[:-1]]
    words = "; ".join(reason.sentences())
    return f"with {' and '.join(others)}: {words}" if others else words
