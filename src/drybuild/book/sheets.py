"""Sheets that many chapters need: figures, front beside rear, verdicts of a matter, cautions."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from drybuild.book.pages import Block, Caution, Sheet, Words
from drybuild.checks.verdicts import State, Verdict
from drybuild.present.as_json import weakest_origin
from drybuild.present.nominal import setting
from drybuild.present.numbers import value_and_band, with_band
from drybuild.present.path_words import PathWords
from drybuild.present.verdict_texts import limit_text, value_text
from drybuild.project.samples import Values
from drybuild.project.sections import Section
from drybuild.quantities.graph import Result, summary
from drybuild.session import Session

DEFERRAL = "Local codes and licensed practice decide; these figures advise and certify nothing."
FIGURE_COLUMNS = ("figure", "value", "5 to 95 %", "rests on")
FIGURE_WIDTHS = (3.2, 1.5, 1.7, 0.9)
MOST_MISSING = 6


def known(session: Session, names: Iterable[str]) -> list[Result]:
    """Return the results that have a value, in order."""
    found = (session.quantities.get(name) for name in names)
    return [one for one in found if one is not None and not one.open]


def text_of(session: Session, result: Result, values: Values) -> str:
    """Return a value with its band in the person's unit."""
    one, build = result.quantity, session.build
    return with_band(summary(values), one.unit, one.shown, build.units, build.currency)


def short_of(session: Session, result: Result, values: Values) -> str:
    """Return a value alone in the person's unit, with the digits that its band carries."""
    one, build = result.quantity, session.build
    return value_and_band(summary(values), one.unit, one.shown, build.units, build.currency)[0]


def figures(session: Session, title: str, names: Sequence[str]) -> list[Block]:
    """Return single figures with band and origin; what is not known stands in a line below."""
    rows = []
    build = session.build
    for result in known(session, names):
        one = result.quantity
        for label, values in result.labelled().items():
            value, band = value_and_band(
                summary(values), one.unit, one.shown, build.units, build.currency
            )
            words = f"{one.label}: {label}" if label else one.label
            rows.append((words, value, band, weakest_origin(result, session.evaluation)))
    sheet = Sheet(
        title=title, columns=FIGURE_COLUMNS, rows=tuple(rows), numeric=(1,), widths=FIGURE_WIDTHS
    )
    return [*([sheet] if rows else []), *unknown(session, names)]


def beside(
    session: Session, title: str, names: Sequence[str], labels: Sequence[str] = ("front", "rear")
) -> list[Block]:
    """Return labelled figures side by side, a row a quantity."""
    rows = []
    for result in known(session, names):
        by_label = result.labelled()
        cells = [
            text_of(session, result, by_label[label]) if label in by_label else ""
            for label in labels
        ]
        if any(cells):
            rows.append((result.quantity.label, *cells))
    sheet = Sheet(
        title=title,
        columns=("figure", *labels),
        rows=tuple(rows),
        widths=(2.6, *(2.2 for _ in labels)),
    )
    return [*([sheet] if rows else []), *unknown(session, names)]


def by_label(
    session: Session,
    title: str,
    heading: str,
    columns: dict[str, str],
    *,
    bands: bool = False,
    widths: tuple[float, ...] = (),
    note: str = "",
) -> list[Block]:
    """Return labelled quantities side by side, a row a label; columns name the quantities."""
    found = {
        words: result
        for words, name in columns.items()
        if (result := session.quantities.get(name)) is not None and not result.open
    }
    labels = dict.fromkeys(label for result in found.values() for label in result.labelled())
    tell = text_of if bands else short_of
    rows = tuple(
        (
            label,
            *(
                tell(session, result, result.labelled()[label])
                if label in result.labelled()
                else ""
                for result in found.values()
            ),
        )
        for label in labels
    )
    sheet = Sheet(
        title=title,
        columns=(heading, *found),
        rows=rows,
        numeric=() if bands else tuple(range(1, len(found) + 1)),
        widths=widths if len(widths) == len(found) + 1 else (2.0, *(1.0 for _ in found)),
        note=note,
    )
    return [*([sheet] if rows else []), *unknown(session, columns.values())]


def settings(
    session: Session,
    title: str,
    entries: Iterable[tuple[Section, str, str]],
    note: str = "",
) -> list[Block]:
    """Return entries of the file as settings: section, entry, unit that people read it in."""
    found = [setting(section, name, session.build, shown) for section, name, shown in entries]
    rows = tuple((one.words, one.value, one.band, one.origin) for one in found if one)
    columns = ("setting", *FIGURE_COLUMNS[1:])
    sheet = Sheet(
        title=title, columns=columns, rows=rows, numeric=(1,), widths=FIGURE_WIDTHS, note=note
    )
    return [sheet] if rows else []


def unknown(session: Session, names: Iterable[str]) -> list[Block]:
    """Return one line on what is not known and why; questions without sense are left out."""
    told = []
    for name in names:
        result = session.quantities.get(name)
        if result is None or not result.open or _senseless(result):
            continue
        told.append(_lacking(session, result))
    if not told:
        return []
    more = f"; and {len(told) - MOST_MISSING} more" if len(told) > MOST_MISSING else ""
    return [Words(text="Not known yet: " + "; ".join(told[:MOST_MISSING]) + more + ".")]


def _lacking(session: Session, result: Result) -> str:
    """Return a figure's name with what it lacks, the first of several."""
    label, missing = _lower(result.quantity.label), result.missing
    lacks = path_words(session).of(missing[0].path)
    more = f", and {len(missing) - 1} more" if len(missing) > 1 else ""
    return label if lacks == label and not more else f"{label} (missing: {lacks}{more})"


def question(session: Session, verdict: Verdict) -> str:
    """Return a check's question; a line of the brief in words instead of its spelling."""
    check = verdict.check
    if not check.id.startswith("must."):
        return check.asks
    label = session.graph.quantities[check.quantity].label
    rest = check.asks.removeprefix(check.quantity).rstrip("?").strip()
    for typed, sign in (("<=", "≤"), (">=", "≥")):
        rest = rest.replace(typed, sign)
    return f"{label} {rest.removeprefix('.')}?"


def told_value(session: Session, verdict: Verdict) -> str:
    """Return the value that decided, or in words what is missing."""
    if verdict.worst is None and verdict.missing:
        return f"missing: {path_words(session).of(verdict.missing[0].path)}"
    return value_text(verdict, session.evaluation)


def verdicts_of(session: Session, title: str, *matters: str) -> list[Block]:
    """Return the verdicts on a matter that are not good, and how many are."""
    found = [one for one in session.verdicts if one.check.matter in matters]
    poor = [one for one in found if one.state is not State.GOOD]
    good = len(found) - len(poor)
    if not found:
        return []
    rows = tuple(
        (
            question(session, one) + (" (advice)" if one.check.advice else ""),
            str(one.state),
            told_value(session, one),
            limit_text(one, session.evaluation),
        )
        for one in poor
    )
    sheet = Sheet(
        title=title,
        columns=("question", "verdict", "value (5 to 95 %)", "limit"),
        rows=rows,
        states=(1,),
        widths=(3.0, 0.9, 2.5, 1.2),
    )
    others = "the others" if rows else "all"
    count = f"Good: {others}, {good} of {len(found)}; they stand in the verdict sheet."
    return [*([sheet] if rows else []), *([Words(text=count)] if good else [])]


def cautions(session: Session, *matters: str, extra: Iterable[str] = ()) -> list[Block]:
    """Return one block with every caution of some matters, each once."""
    texts = dict.fromkeys(
        (
            *(
                check.caution
                for check in session.checks
                if check.matter in matters and check.caution
            ),
            *extra,
        )
    )
    said = {text: _sentences(text) for text in texts}
    kept = tuple(text for text in texts if not any(said[text] < said[other] for other in texts))
    return [Caution(text=DEFERRAL, points=kept)] if kept else []


def path_words(session: Session) -> PathWords:
    """Return words for the paths of a session's build."""
    return PathWords(session.build)


def _sentences(text: str) -> frozenset[str]:
    return frozenset(part.strip(". ") for part in text.split(". "))


def _senseless(result: Result) -> bool:
    return any(lack.senseless for lack in result.missing)


def _lower(label: str) -> str:
    return label if label[:2].isupper() else label[:1].lower() + label[1:]
