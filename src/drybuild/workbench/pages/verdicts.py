"""Verdicts: every question with its answer, and how one answer was found."""

from __future__ import annotations

from typing import Any

from drybuild.checks.verdicts import Verdict
from drybuild.present.derivations import derivation
from drybuild.present.numbers import with_band
from drybuild.sources import source
from drybuild.workbench.desk import Desk
from drybuild.workbench.pages.page import Asked, Page
from drybuild.workbench.rendering import told


def fill(desk: Desk, asked: Asked) -> dict[str, Any]:  # a template takes anything
    """Return what the page shows: all verdicts, or those of one state."""
    only, found = asked.get("state", ""), desk.verdicts()
    shown = [one for one in found if not only or str(one.state) == only]
    groups = [
        ("What the brief asks", [one for one in shown if one.check.id.startswith("must.")]),
        (
            "What any car must do",
            [one for one in shown if not one.check.id.startswith("must.") and not one.check.advice],
        ),
        ("Advice", [one for one in shown if one.check.advice]),
    ]
    session = desk.session
    return {
        "only": only,
        "groups": [(title, [told(one, session) for one in ones]) for title, ones in groups if ones],
        "waiting_for": [one.asks for one in desk.waiting()],
    }


def explained(desk: Desk, verdict: Verdict) -> dict[str, Any]:  # a template takes anything
    """Return how one verdict was found."""
    session, evaluation = desk.session, desk.session.evaluation
    quantity = evaluation.graph.quantities[verdict.check.quantity]
    build = desk.build
    labels = [
        (
            one.label,
            with_band(one.value, quantity.unit, quantity.shown, build.units, build.currency),
            str(one.state),
        )
        for one in verdict.judged
        if one.label
    ]
    return {
        "one": told(verdict, session),
        "check": verdict.check,
        "source": str(source(verdict.check.source)),
        "labels": labels,
        "missing": verdict.missing,
        "doubts": [
            (f"{one.share * 100:.0f} %", one.path, evaluation.readings[one.path])
            for one in verdict.doubts
        ],
        "derivation": [
            (len(line) - len(line.lstrip()), line.strip())
            for line in derivation(verdict.check.quantity, evaluation)
        ],
        "readings": [
            (path, evaluation.readings[path])
            for path in sorted(verdict.inputs)
            if path in evaluation.readings
        ],
    }


PAGE = Page(
    path="/verdicts",
    title="Verdicts",
    asks="What works together, what does not, and how sure is that?",
    template="verdicts.html.j2",
    fill=fill,
)
