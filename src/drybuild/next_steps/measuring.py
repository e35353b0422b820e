"""Which readings to measure, ask for or look up: those whose doubt could turn a check."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

import numpy as np

from drybuild.checks.verdicts import Verdict, doubt_shares
from drybuild.next_steps.fields import FieldOf, Fields
from drybuild.next_steps.margins import margin_of
from drybuild.next_steps.stakes import Stakes
from drybuild.next_steps.step import Act, Helps, Step
from drybuild.next_steps.value import partial_information
from drybuild.project.readings import Origin
from drybuild.project.samples import HALF_BAND, Values, normal_scores
from drybuild.quantities.graph import Evaluation
from drybuild.tables.measuring import HowTo, how_to

SETTLED = 0.02
"""A check that is this sure either way gains nothing from a measurement."""
CANDIDATES = 8
"""Readings looked into for each check; the rest share what doubt is left."""


@dataclass
class _Gain:
    """What is known so far of one reading."""

    field: FieldOf
    how: HowTo
    helps: list[Helps]
    worth: float = 0.0


def measurements(
    evaluation: Evaluation, verdicts: Iterable[Verdict], at_stake: Stakes
) -> tuple[Step, ...]:
    """Return a step for each reading that a better value of would be worth its while.

    Notes
    -----
    To keep a pick whose check then fails loses the stake, to change one whose check would have
    passed loses it too. The worth of a reading is what knowing it, with the error of the way to
    measure it, saves on average: the partial value of information, from the samples at hand, the
    checks taken one by one.

    References
    ----------
    .. [1] Strong and Oakley, Medical Decision Making 33(6), 2013, 755-766.

    """
    fields = Fields(evaluation.build)
    gains: dict[str, _Gain] = {}
    for verdict in verdicts:
        _look_into(verdict, evaluation, at_stake, fields, gains)
    return tuple(_step(path, gain, at_stake) for path, gain in gains.items() if gain.helps)


def _look_into(
    verdict: Verdict,
    evaluation: Evaluation,
    at_stake: Stakes,
    fields: Fields,
    gains: dict[str, _Gain],
) -> None:
    margin = margin_of(verdict, evaluation)
    if margin is None or margin.size < 100:
        return
    failing = ~(margin[1:] >= 0.0)
    if not SETTLED < failing.mean() < 1.0 - SETTLED:
        return
    stake = at_stake.of(verdict.check, evaluation)
    worths = -stake * np.array([failing, ~failing], dtype=np.float64)
    for doubt in doubt_shares(margin, verdict.inputs, evaluation)[:CANDIDATES]:
        gain = _gain(doubt.path, evaluation, fields, gains)
        if gain is None:
            continue
        known = _as_measured(doubt.path, gain, evaluation)
        gain.worth += partial_information(worths, known)
        gain.helps.append(Helps(check=verdict.check.id, share=doubt.share))


def _gain(
    path: str, evaluation: Evaluation, fields: Fields, gains: dict[str, _Gain]
) -> _Gain | None:
    """Return the entry of a reading that one can do something about."""
    if path in gains:
        return gains[path]
    found = fields.of(path)
    how = how_to(found.key, found.unit) if found else None
    reading = evaluation.readings.get(path)
    if found is None or how is None or reading is None:
        return None
    error = how.error_of(reading.value, found.unit) if found.unit else 0.0
    if reading.origin is Origin.MEASURED and reading.spread <= 1.5 * error:
        return None  # measured as well as it can be
    gains[path] = _Gain(field=found, how=how, helps=[])
    return gains[path]


def _as_measured(path: str, gain: _Gain, evaluation: Evaluation) -> Values:
    """Return what the measurement would read in each sample."""
    true = evaluation.drawn(path)[1:]
    error = gain.how.error_of(float(true.mean()), gain.field.unit) if gain.field.unit else 0.0
    return true + error / HALF_BAND * normal_scores(f"measured {path}", true.size)


def _step(path: str, gain: _Gain, at_stake: Stakes) -> Step:
    effort = max(gain.how.minutes, 5.0) / 60.0
    return Step(
        act=Act(gain.how.act),
        about=path,
        what=gain.field.words,
        worth=gain.worth,
        minutes=gain.how.minutes,
        helps=tuple(sorted(gain.helps, key=lambda one: -one.share)),
        how=gain.how,
        score=(gain.worth - effort * at_stake.hour) / effort,
    )


def gaps(evaluation: Evaluation, verdicts: Iterable[Verdict], at_stake: Stakes) -> tuple[Step, ...]:
    """Return a step for each entry whose lack leaves checks open.

    What such a check would say is not known at all: even odds, so half its stake is what knowing
    is worth; shared out where several entries lack.
    """
    fields = Fields(evaluation.build)
    worth: dict[str, float] = {}
    helps: dict[str, list[Helps]] = {}
    for verdict in verdicts:
        lacking = [one.path for one in verdict.missing if not one.senseless]
        for path in lacking:
            part = 0.5 * at_stake.of(verdict.check, evaluation) / len(lacking)
            worth[path] = worth.get(path, 0.0) + part
            helps.setdefault(path, []).append(Helps(check=verdict.check.id, share=1.0))
    return tuple(
        step
        for path in worth
        if (step := _gap(path, fields, worth[path], tuple(helps[path]), at_stake))
    )


def _gap(
    path: str, fields: Fields, worth: float, helps: tuple[Helps, ...], at_stake: Stakes
) -> Step | None:
    if path.startswith("picks."):
        system = path.removeprefix("picks.")
        return Step(
            act=Act.DECIDE, about=system, what=system, worth=worth, helps=helps, score=worth
        )
    found = fields.of(path)
    if found is None:
        return None
    how = how_to(found.key, found.unit)
    minutes = how.minutes if how else 30.0
    effort = max(minutes, 5.0) / 60.0
    return Step(
        act=Act(how.act) if how else Act.LOOK_UP,
        about=path,
        what=found.words,
        worth=worth,
        minutes=minutes,
        helps=helps,
        how=how,
        score=(worth - effort * at_stake.hour) / effort,
    )
