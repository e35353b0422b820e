"""The shell in the terminal: options side by side, states, measures, best sets, load cases."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from rich.table import Table

from drybuild.present.numbers import with_band
from drybuild.present.shell_compare import CHANGES, FIGURES, Compared, headings
from drybuild.project.samples import Values
from drybuild.quantities.graph import Evaluation, summary
from drybuild.quantities.shell_sets import Chosen

STATES = {
    "torsion over the original": "shell_state_torsion",
    "bending over the original": "shell_state_bending",
    "first mode": "shell_state_mode",
}
MEASURES = {
    "torsion gained": "shell_frame_candidate_gain",
    "for each kg": "shell_frame_candidate_yield",
}
CASES = {"greatest stress": "shell_case_stress"}
POINTS = {"stiffness": "shell_hardpoint_stiffness"}


def options_tables(options: tuple[Compared, ...], name: str) -> tuple[Table, Table]:
    """Return every option for the shell: what it changes, then what it costs and takes."""
    shown = headings(options)
    changes = tuple(one for one in (*CHANGES, "adds") if one in shown)
    takes = tuple(one for one in FIGURES if one in shown and one != "adds")
    title = f"The shell of {name}: change against the original (5 to 95 %); * is picked"
    return (
        _table(title, ("option", *changes), _rows(options, changes)),
        _table("What it costs and takes", ("option", *takes), _rows(options, takes)),
    )


def _rows(options: tuple[Compared, ...], columns: tuple[str, ...]) -> list[tuple[str, ...]]:
    return [
        (
            f"{one.name} *" if one.picked else one.name,
            *(one.told[column].words if column in one.told else "" for column in columns),
        )
        for one in options
    ]


def labelled_table(
    evaluation: Evaluation, title: str, first: str, columns: dict[str, str], *, ranked: bool = False
) -> Table | None:
    """Return labelled quantities side by side, a row a label; nothing where none is known."""
    results = {head: evaluation.result(name) for head, name in columns.items()}
    known = {head: one for head, one in results.items() if not one.open}
    if not known:
        return None
    labels = list(dict.fromkeys(label for one in known.values() for label in one.labelled()))
    if ranked:
        lead = next(iter(known.values())).labelled()
        labels.sort(key=lambda label: -float(lead[label][0]) if label in lead else 0.0)
    rows = []
    for label in labels:
        cells = []
        for one in known.values():
            values = one.labelled().get(label)
            unit, shown = one.quantity.unit, one.quantity.shown
            cells.append("" if values is None else _words(evaluation, values, unit, shown))
        rows.append((label, *cells))
    return _table(title, (first, *known), rows)


def sets_table(evaluation: Evaluation, sets: Sequence[tuple[str, Chosen]]) -> Table:
    """Return the best set within each limit, and how its being best was proven."""
    build = evaluation.build
    rows = [
        (
            limit,
            " + ".join(one.names) or "none fits",
            f"+{100.0 * one.gain:.0f} %" if one.names else "",
            _one(evaluation, one.mass, "kg") if one.names else "",
            f"{one.price:g} {build.currency}" if one.names and one.price is not None else "",
            f"{one.solved} solved, {one.allowed} sets there are",
        )
        for limit, one in sets
    ]
    columns = ("at most", "best set", "torsion", "steel", "price", "proof")
    return _table("Best sets of measures, each set solved anew on the nominal body", columns, rows)


def _words(evaluation: Evaluation, values: Values, unit: str, shown: str) -> str:
    build = evaluation.build
    return with_band(summary(values), unit, shown, build.units, build.currency)


def _one(evaluation: Evaluation, value: float, unit: str) -> str:
    build = evaluation.build
    return with_band((value, value, value), unit, unit, build.units, build.currency)


def _table(title: str, columns: Iterable[str], rows: Iterable[tuple[str, ...]]) -> Table:
    table = Table(title=title, title_justify="left")
    for column in columns:
        table.add_column(column, overflow="fold")
    for row in rows:
        table.add_row(*row)
    return table
