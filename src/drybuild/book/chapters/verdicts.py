"""The verdict sheet: every question, its answer, and how the ones that matter were found."""

from __future__ import annotations

from drybuild.book.pages import Block, Caution, Chapter, Section, Sheet, Words
from drybuild.checks.verdicts import State, Verdict
from drybuild.present.derivations import derivation
from drybuild.present.verdict_texts import limit_text, sure_text, value_text
from drybuild.session import Session
from drybuild.sources import source

INTRO = (
    "Each line asks one question. Good: it holds in at least 95 of 100 draws of what is not known "
    "exactly. Tight: in 80 to 95, or the margin is small. Open: something is missing, or the draws "
    "disagree. Fails: it holds in 20 or fewer. Advice rules nothing out."
)


def verdicts_chapter(session: Session) -> Chapter:
    """Return the verdict sheet with derivations of all that is not good."""
    blocks: list[Block] = []
    for title, chosen in (
        ("What the brief asks", [one for one in session.verdicts if _must(one)]),
        ("What any car must do", [one for one in session.verdicts if _standing(one)]),
        ("Advice", [one for one in session.verdicts if one.check.advice]),
    ):
        if chosen:
            blocks.append(_sheet(title, chosen, session))
    poor = [one for one in session.verdicts if one.state is not State.GOOD]
    if poor:
        blocks.append(Section(title="How these were found, and what helps"))
    for one in poor:
        blocks += _explained(one, session)
    return Chapter(title="Verdicts", intro=INTRO, blocks=tuple(blocks))


def _must(verdict: Verdict) -> bool:
    return verdict.check.id.startswith("must.")


def _standing(verdict: Verdict) -> bool:
    return not _must(verdict) and not verdict.check.advice


def _sheet(title: str, verdicts: list[Verdict], session: Session) -> Sheet:
    return Sheet(
        title=title,
        columns=("question", "verdict", "value (5 to 95 %)", "limit", "sure"),
        rows=tuple(
            (
                one.check.asks,
                str(one.state),
                value_text(one, session.evaluation),
                limit_text(one, session.evaluation),
                sure_text(one),
            )
            for one in verdicts
        ),
        numeric=(4,),
        widths=(3.2, 1.0, 2.6, 1.4, 0.8),
    )


def _explained(verdict: Verdict, session: Session) -> list[Block]:
    check, evaluation = verdict.check, session.evaluation
    points = list(derivation(check.quantity, evaluation, depth=2))
    if verdict.worst:
        points.append(
            f"Limit {limit_text(verdict, evaluation)}, from {source(check.source)}; "
            f"sure to {sure_text(verdict)}."
        )
    points += [
        f"{doubt.share * 100:.0f} % of the doubt is {doubt.path} = "
        f"{evaluation.readings[doubt.path].text} ({evaluation.readings[doubt.path].origin})."
        for doubt in verdict.doubts
    ]
    points += [f"Missing: {one.path}: {one.why}." for one in verdict.missing]
    found: list[Block] = [
        Words(text=f"{check.asks} {str(verdict.state).capitalize()}.", points=tuple(points)),
        Words(text=f"What helps: {check.mend}"),
    ]
    if check.caution:
        found.append(Caution(text=check.caution))
    return found
