"""The verdict sheet: every question, its answer, and how the ones that matter were found."""

from __future__ import annotations

from drybuild.book.pages import Block, Caution, Chapter, Section, Sheet
from drybuild.book.sheets import DEFERRAL, question, told_value
from drybuild.checks.verdicts import State, Verdict
from drybuild.present.numbers import with_minus
from drybuild.present.path_words import PathWords, plain
from drybuild.present.quantity_texts import result_text
from drybuild.present.verdict_texts import limit_text, sure_text
from drybuild.quantities.graph import Result
from drybuild.session import Session
from drybuild.sources import source

INTRO = (
    "Each line asks one question. Good: it holds in at least 95 of 100 draws of what is not known "
    "exactly. Tight: in 80 to 95, or the margin is small. Open: something is missing, or the draws "
    "disagree. Fails: it holds in 20 or fewer. Advice rules nothing out."
)
CAUTION = (
    "What can hurt in putting these right stands at the head of the sheet on each matter; read it "
    "before any tool is lifted."
)
MOST_LABELS = 4


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
        names = PathWords(session.build)
        blocks += [_explained(one, session, names) for one in poor]
        blocks.append(Caution(text=f"{CAUTION} {DEFERRAL}"))
    return Chapter(title="Verdict sheet", intro=INTRO, blocks=tuple(blocks))


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
                question(session, one),
                str(one.state),
                told_value(session, one),
                limit_text(one, session.evaluation),
                sure_text(one),
            )
            for one in verdicts
        ),
        numeric=(4,),
        states=(1,),
        widths=(3.2, 0.95, 2.6, 1.4, 0.8),
    )


def _explained(verdict: Verdict, session: Session, names: PathWords) -> Sheet:
    """Return one verdict's derivation: the figure, what it rests on, where the doubt comes from."""
    evaluation = session.evaluation
    result = evaluation.result(verdict.check.quantity)
    rows, indents = [_row(result, session)], [0]
    for below in _needs(result, session):
        rows.append(_row(below, session))
        indents.append(1)
    for doubt in verdict.doubts:
        reading = evaluation.readings[doubt.path]
        share = f"{doubt.share * 100:.0f} % of the doubt"
        rows.append(
            (names.of(doubt.path), f"{with_minus(plain(reading.text))} ({reading.origin})", share)
        )
        indents.append(2)
    for lack in verdict.missing:
        rows.append((names.of(lack.path), "missing", ""))
        indents.append(2)
    advice = ", advice" if verdict.check.advice else ""
    return Sheet(
        title=f"{question(session, verdict)} {str(verdict.state).capitalize()}{advice}.",
        columns=("figure", "value (5 to 95 %)", "method, or doubt"),
        rows=tuple(rows),
        indents=tuple(indents),
        widths=(3.2, 2.8, 1.6),
        note=_note(verdict, session),
    )


def _note(verdict: Verdict, session: Session) -> str:
    limit = limit_text(verdict, session.evaluation)
    told = f"What helps: {verdict.check.mend}"
    if limit:
        told = f"Wanted {limit} ({source(verdict.check.source)}). {told}"
    return told


def _row(result: Result, session: Session) -> tuple[str, str, str]:
    lines = result_text(result, session.evaluation).split("\n")
    if len(lines) > MOST_LABELS:
        lines = [*lines[:MOST_LABELS], f"and {len(lines) - MOST_LABELS} more, in All quantities"]
    if result.open:
        lines = ["open"]
    return result.quantity.label, "\n".join(lines), result.quantity.source


def _needs(result: Result, session: Session) -> list[Result]:
    """Return the quantities that one rests on directly, or through working steps."""
    found: dict[str, Result] = {}

    def gather(names: tuple[str, ...]) -> None:
        for name in names:
            if name not in session.graph.quantities or name in found:
                continue
            below = session.evaluation.result(name)
            if below.quantity.step:
                gather(below.quantity.needs)
            else:
                found[name] = below

    gather(result.quantity.needs)
    return list(found.values())
