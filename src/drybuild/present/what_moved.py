"""What a change of the build moved: figures by more than their noise, and verdicts.

A figure's noise is what another draw of as many samples would do to its mean: its spread over the
root of their number, for both sides. Three times that counts as moved.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping
from dataclasses import dataclass, replace

import numpy as np
from rich.console import Group
from rich.table import Table
from rich.text import Text

from drybuild.checks.check import Check
from drybuild.checks.verdicts import Verdict
from drybuild.present.numbers import with_band
from drybuild.project.build import Build
from drybuild.project.samples import Values
from drybuild.quantities.graph import Result, summary

MovedVerdict = tuple[Check, str, str]
"""A check, with the words for its verdict before and after."""
TIMES = 3.0
"""So many times its noise a figure has to move: one in several hundred would by chance."""
SURE = 1e-9
"""A spread below this share of a figure is the arithmetic's."""
MOST = 25
"""Figures that are listed; the others are counted."""


@dataclass(frozen=True, kw_only=True)
class Moved:
    """A figure that moved."""

    label: str
    name: str
    before: str
    after: str
    times: float
    """Its move over the wider of its spreads; over its size where it has none."""
    others: int = 0
    """Labels of the same quantity that moved less far."""


def moved_figures(
    before: Mapping[str, Result],
    after: Mapping[str, Result],
    build: Build,
    first: Collection[str] = (),
) -> tuple[Moved, ...]:
    """Return the quantities that moved by more than their noise, the farthest first.

    Parameters
    ----------
    before, after : mapping
        Results by the quantity's name.
    build : Build
        The build: units and currency.
    first : collection
        Quantities that come first whatever they moved by: those that the brief asks for.

    """
    found = []
    for name, result in after.items():
        old = before.get(name)
        if old is None or old is result:
            continue
        labels = dict.fromkeys((*old.labelled(), *result.labelled()))
        moved = [one for label in labels if (one := _moved(old, result, label, build))]
        if moved:
            farthest = max(moved, key=lambda one: one.times)
            found.append(replace(farthest, others=len(moved) - 1))
    return tuple(sorted(found, key=lambda one: (one.name not in first, -one.times)))


def moved_verdicts(before: Iterable[Verdict], after: Iterable[Verdict]) -> tuple[MovedVerdict, ...]:
    """Return the checks whose verdict is another: the check, before, after."""
    old = {one.check.id: one for one in before}
    new = {one.check.id: one for one in after}
    found = []
    for key in dict.fromkeys((*old, *new)):
        states = [str(where[key].state) if key in where else "not asked" for where in (old, new)]
        if states[0] != states[1]:
            found.append(((new.get(key) or old[key]).check, states[0], states[1]))
    return tuple(found)


def moved_text(figures: tuple[Moved, ...], verdicts: tuple[MovedVerdict, ...]) -> Group:
    """Return both as tables for the terminal."""
    parts: list[Table | Text] = []
    if figures:
        table = Table(title="Moved by more than their noise", title_justify="left")
        for column in ("figure", "before (5 to 95 %)", "after (5 to 95 %)"):
            table.add_column(column, overflow="fold")
        for one in figures[:MOST]:
            more = f", and {one.others} more of its kind" if one.others else ""
            title = Text.assemble(one.label + more, "\n", (one.name, "dim"))
            table.add_row(title, one.before, one.after)
        parts.append(table)
        if len(figures) > MOST:
            parts.append(Text(f"and {len(figures) - MOST} more figures, less far"))
    else:
        parts.append(Text("No figure moved by more than its noise."))
    if verdicts:
        table = Table(title="Verdicts that are others now", title_justify="left")
        for column in ("question", "before", "after"):
            table.add_column(column, overflow="fold")
        for check, was, now in verdicts:
            table.add_row(check.asks, was, now)
        parts.append(table)
    else:
        parts.append(Text("Every verdict stands as it was."))
    return Group(*parts)


def _moved(old: Result, new: Result, label: str, build: Build) -> Moved | None:
    one = new.quantity
    values = [result.labelled().get(label) for result in (old, new)]
    times = _times(*values)
    if times is None:
        return None
    told = [_told(value, result, build) for value, result in zip(values, (old, new), strict=True)]
    if told[0] == told[1]:
        return None
    words = f"{one.label}: {label}" if label else one.label
    return Moved(label=words, name=one.name, before=told[0], after=told[1], times=times)


def _times(old: Values | None, new: Values | None) -> float | None:
    """Return how far a figure moved over its spread; None where that is no more than noise."""
    if old is None or new is None:
        return 1.0 if (old is None) != (new is None) else None
    first, second = _drawn(old), _drawn(new)
    move = abs(float(second.mean() - first.mean()))
    spread = max(float(np.std(first)), float(np.std(second)))
    noise = float(np.sqrt(first.var() / len(first) + second.var() / len(second)))
    if not move > TIMES * noise or not move > 0.0:
        return None
    size = max(abs(float(first.mean())), abs(float(second.mean())))
    return move / spread if spread > SURE * size else move / size


def _drawn(values: Values) -> Values:
    """Return the samples that have a solution; the nominal value where there are none."""
    drawn = values[1:][np.isfinite(values[1:])]
    return drawn if drawn.size else np.nan_to_num(values[:1])


def _told(values: Values | None, result: Result, build: Build) -> str:
    one = result.quantity
    if values is None:
        return "open" if result.open else "none"
    return with_band(summary(values), one.unit, one.shown, build.units, build.currency)
