"""Open questions: what is missing, what to do about it in order of worth, what to measure."""

from __future__ import annotations

from drybuild.book.pages import Block, Caution, Chapter, Section, Sheet, Words
from drybuild.book.sheets import question, told_value
from drybuild.checks.verdicts import State
from drybuild.next_steps.step import Act, Step
from drybuild.present.next_tables import effort_text, worth_text
from drybuild.present.numbers import with_minus
from drybuild.present.path_words import PathWords, part_words, plain
from drybuild.session import Session

MOST_STEPS = 25
MOST_TO_MEASURE = 40


def questions_chapter(session: Session) -> Chapter:
    """Return what is open and how to settle it."""
    names = PathWords(session.build)
    blocks: list[Block] = [*_steps(session, names), *_cautions(session)]
    blocks += [*_open(session, names), *_to_measure(session, names)]
    return Chapter(
        title="Open questions",
        intro="What is not known, in the order in which knowing it is worth the effort.",
        blocks=tuple(blocks) or (Words(text="No question is open."),),
    )


def _what(step: Step, names: PathWords) -> str:
    return f"{str(step.act).capitalize()}: {subject(step, names)}"


def subject(step: Step, names: PathWords) -> str:
    """Return what a step is about, in words."""
    return part_words(step.what) if step.what == step.about else names.of(step.about)


def _steps(session: Session, names: PathWords) -> list[Block]:
    steps = session.next_steps[:MOST_STEPS]
    if not steps:
        return []
    rows = tuple(
        (
            str(place),
            _what(one, names),
            worth_text(one, session.build.currency),
            effort_text(one),
            one.how.method if one.how else "",
        )
        for place, one in enumerate(steps, start=1)
    )
    return [
        Sheet(
            title="What to do next, by what it is worth an hour",
            columns=("#", "do", "worth", "takes", "how"),
            rows=rows,
            numeric=(0,),
            widths=(0.35, 2.4, 1.3, 0.7, 3.0),
        )
    ]


def _cautions(session: Session) -> list[Block]:
    texts = dict.fromkeys(
        one.how.caution for one in session.next_steps[:MOST_STEPS] if one.how and one.how.caution
    )
    if not texts:
        return []
    return [Caution(text="While measuring and looking:", points=tuple(texts))]


def _open(session: Session, names: PathWords) -> list[Block]:
    rows = []
    for one in session.verdicts:
        if one.state is not State.OPEN:
            continue
        if one.missing:
            why = "; ".join(f"missing: {names.of(lack.path)}" for lack in one.missing[:3])
        else:
            why = "; ".join(
                f"{names.of(doubt.path)} ({doubt.share * 100:.0f} % of the doubt)"
                for doubt in one.doubts
            )
        told = "" if one.missing else told_value(session, one)
        rows.append((question(session, one), told, why))
    if not rows:
        return [Words(text="No check is open.")]
    return [
        Section(title="Questions without an answer yet"),
        Sheet(
            title="",
            columns=("question", "value so far (5 to 95 %)", "what would settle it"),
            rows=tuple(rows),
            widths=(2.2, 1.8, 3.0),
        ),
    ]


def _to_measure(session: Session, names: PathWords) -> list[Block]:
    rows: list[tuple[str, str, str, str]] = []
    for one in session.next_steps:
        if one.act not in (Act.MEASURE, Act.ASK, Act.LOOK_UP) or len(rows) == MOST_TO_MEASURE:
            continue
        known = session.evaluation.readings.get(one.about)
        tool = one.how.tool if one.how else ""
        told = f"{with_minus(plain(known.text))} ({known.origin})" if known else "not known"
        rows.append((names.of(one.about), told, tool, ""))
    if not rows:
        return []
    return [
        Section(title="To take into the garage"),
        Sheet(
            title="Write in what you find, with its unit and how sure it is",
            columns=("reading", "taken so far", "with", "found"),
            rows=tuple(rows),
            widths=(3.0, 1.6, 1.4, 2.0),
            to_write=True,
        ),
    ]
