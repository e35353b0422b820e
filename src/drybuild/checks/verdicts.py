"""Judge checks: good, tight, fails or open, with margin, probability and where the doubt is.

Over the samples, p is the share whose margin is not negative. With the usual bands a check is
good from 95 %, tight from 80 %, fails up to 20 %, and open between (the samples disagree too
much to say); a margin inside the check's own band is tight however sure. The bands are ours.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum
from functools import cached_property, lru_cache

import numpy as np

from drybuild.checks.check import Check
from drybuild.errors import UnitError
from drybuild.project.readings import parse_reading
from drybuild.project.samples import Values
from drybuild.quantities.graph import Evaluation, Frozen, Missing, Result, Trail, paths_of, summary

SURE, LIKELY, UNLIKELY = 0.95, 0.80, 0.20


class State(StrEnum):
    """The four verdicts, best first."""

    GOOD = "good"
    TIGHT = "tight"
    OPEN = "open"
    FAILS = "fails"


ORDER = list(State)
"""From best to worst; the worst label of a labelled check decides."""


@dataclass(frozen=True, kw_only=True)
class Judged:
    """One label of a check, judged."""

    label: str
    state: State
    values: Values
    limit: float
    margin: float
    """Nominal distance from the limit; negative when it fails."""
    probability: float
    unsolved: float
    """Share of the samples that have no solution; they count as not reached."""

    @cached_property
    def value(self) -> tuple[float, float, float]:
        """Nominal, 5 %, 95 %."""
        return summary(self.values)


@dataclass(frozen=True, kw_only=True)
class Doubt:
    """A reading that a verdict's doubt comes from, and its share of the variance."""

    path: str
    share: float


@dataclass(frozen=True, kw_only=True)
class Verdict:
    """The answer to a check."""

    check: Check
    state: State
    unit: str
    judged: tuple[Judged, ...]
    """Worst label first."""
    missing: tuple[Missing, ...]
    trails: tuple[Trail, ...]
    """Of the quantity, and of its limits."""
    doubts: tuple[Doubt, ...]

    @cached_property
    def inputs(self) -> frozenset[str]:
        """Paths of every reading that it rests on."""
        return paths_of(self.trails)

    @property
    def worst(self) -> Judged | None:
        """The label that decides; None when nothing could be judged."""
        return self.judged[0] if self.judged else None

    @property
    def senseless(self) -> bool:
        """Whether the question has no sense for this car; it is then not asked."""
        return any(lack.senseless for lack in self.missing)

    @property
    def rules_out(self) -> bool:
        """Whether it fails, and is more than advice."""
        return self.state is State.FAILS and not self.check.advice


def judge(
    check: Check,
    evaluation: Evaluation,
    *,
    picks: Mapping[str, str] | None = None,
    frozen: Frozen | None = None,
    limits: Mapping[str, str] | None = None,
    doubts: bool = True,
) -> Verdict:
    """Judge one check.

    Parameters
    ----------
    check : Check
        The question.
    evaluation : Evaluation
        The build and its samples.
    picks : mapping
        Option by system; the build's own when not given.
    frozen : Frozen
        Aggregates held at given results.
    limits : mapping
        The person's own limits by check id.
    doubts : bool
        Whether to work out where the doubt comes from.

    Returns
    -------
    Verdict
        Open when a needed input is missing.

    """
    result = evaluation.result(check.quantity, picks, frozen)
    lower, upper, others = _limits(check, result, evaluation, picks, frozen, limits)
    trails = tuple(one.trail for one in (result, *others))
    missing = tuple(lack for one in (result, *others) for lack in one.missing)
    if missing or result.value is None:
        return Verdict(
            check=check,
            state=State.OPEN,
            unit=result.quantity.unit,
            judged=(),
            missing=tuple(dict.fromkeys(missing)),
            trails=trails,
            doubts=(),
        )
    band = _constant(check.band, result) if check.band else 0.0
    judged = [
        _judge_label(label, values, _at(lower, label), _at(upper, label), band, check)
        for label, values in result.labelled().items()
        if check.label in (None, label)
    ]
    judged.sort(key=lambda one: (-ORDER.index(one.state), one.probability, one.margin))
    state = judged[0].state if judged else State.OPEN
    found: tuple[Doubt, ...] = ()
    if doubts and judged and state in (State.TIGHT, State.OPEN, State.FAILS):
        margin = _margin(
            result.labelled()[judged[0].label],
            _at(lower, judged[0].label),
            _at(upper, judged[0].label),
        )
        found = doubt_shares(margin, paths_of(trails), evaluation)[:3]
    return Verdict(
        check=check,
        state=state,
        unit=result.quantity.unit,
        judged=tuple(judged),
        missing=() if judged else (_no_label(check, result),),
        trails=trails,
        doubts=found,
    )


def _no_label(check: Check, result: Result) -> Missing:
    known = ", ".join(result.labelled()) or "nothing"
    return Missing(path=check.quantity, why=f'there is no "{check.label}" in it, only {known}')


def doubt_shares(
    values: Values, inputs: frozenset[str], evaluation: Evaluation
) -> tuple[Doubt, ...]:
    """Return the readings by their share of a result's variance: the squared correlation.

    First-order shares of a sum are exactly the squared correlations; for mildly curved results
    they are the usual estimate (Saltelli et al., Global Sensitivity Analysis, 2008, ch. 1).
    """
    drawn = values[1:]
    kept = np.isfinite(drawn)
    if kept.sum() < 10 or np.ptp(drawn[kept]) == 0.0:
        return ()
    paths = [path for path in sorted(inputs) if path in evaluation.readings]
    if not paths:
        return ()
    table = np.array([evaluation.drawn(path)[1:][kept] for path in paths])
    table = table - table.mean(axis=1, keepdims=True)
    target = drawn[kept] - drawn[kept].mean()
    spread = np.sqrt((table**2).sum(axis=1) * (target**2).sum())
    shares = np.divide(table @ target, spread, out=np.zeros(len(paths)), where=spread > 0.0) ** 2
    noise = (
        12.0 / kept.sum()
    )  # of some sixty readings that do not matter, none reaches this by chance
    ranked = sorted(zip(paths, shares, strict=True), key=lambda pair: -pair[1])
    return tuple(Doubt(path=path, share=float(share)) for path, share in ranked if share > noise)


def _limits(
    check: Check,
    result: Result,
    evaluation: Evaluation,
    picks: Mapping[str, str] | None,
    frozen: Frozen | None,
    limits: Mapping[str, str] | None,
) -> tuple[dict[str, Values], dict[str, Values], tuple[Result, ...]]:
    own = (limits or evaluation.build.limits).get(check.id)
    lower, upper = check.at_least, check.at_most
    if own is not None and lower == f"-{upper}":  # a band to either side of nought
        lower, upper = f"-{own}", own
    elif own is not None:
        lower, upper = (own, upper) if lower is not None and upper is None else (lower, own)
    found: list[dict[str, Values]] = []
    others: tuple[Result, ...] = ()
    for limit in (lower, upper):
        if limit is None:
            found.append({})
        elif limit in evaluation.graph.quantities:
            other = evaluation.result(limit, picks, frozen)
            found.append(other.labelled())
            others = (*others, other)
        else:
            found.append({"": np.array([_constant(limit, result)])})
    return found[0], found[1], others


def _constant(text: str, result: Result) -> float:
    return _constant_in(text, result.quantity.unit)


@lru_cache(maxsize=4096)
def _constant_in(text: str, unit: str) -> float:
    if unit == "date":
        return float(np.datetime64(text, "D").astype(int))
    return parse_reading(text, unit).value


def readable_limit(text: str, unit: str) -> str | None:
    """Return what is wrong with a limit's text, or None when it reads well."""
    try:
        if unit == "date":
            np.datetime64(text, "D")
        else:
            parse_reading(text, unit)
    except (UnitError, ValueError) as fault:
        return str(fault)
    return None


def _at(limit: dict[str, Values], label: str) -> Values | None:
    if not limit:
        return None
    return limit.get(label, limit.get("", next(iter(limit.values()))))


def _margin(values: Values, lower: Values | None, upper: Values | None) -> Values:
    sides = []
    if lower is not None:
        sides.append(values - lower)
    if upper is not None:
        sides.append(upper - values)
    return sides[0] if len(sides) == 1 else np.minimum(*sides)


def _judge_label(
    label: str,
    values: Values,
    lower: Values | None,
    upper: Values | None,
    band: float,
    check: Check,
) -> Judged:
    margin = _margin(values, lower, upper)
    drawn = margin[1:] if margin.size > 1 else margin
    # A sample without a solution (nan) counts as not reached: it never helps a verdict.
    probability = np.count_nonzero(drawn >= 0.0) / drawn.size
    nominal = float(margin[0])
    state = _state(probability, nominal, band, check.probability)
    limit = lower if lower is not None else upper
    if lower is not None and upper is not None and nominal == float((upper - values).flat[0]):
        limit = upper
    return Judged(
        label=label,
        state=state,
        values=values,
        limit=float(limit.flat[0]) if limit is not None else float("nan"),
        margin=nominal,
        probability=probability,
        unsolved=np.count_nonzero(np.isnan(drawn)) / drawn.size if probability < 1.0 else 0.0,
    )


def _state(probability: float, nominal: float, band: float, wanted: float | None) -> State:
    if wanted is not None:
        if probability < wanted:
            return State.FAILS
        return State.GOOD if probability >= (1.0 + wanted) / 2.0 else State.TIGHT
    if probability <= UNLIKELY:
        return State.FAILS
    if probability < LIKELY:
        return State.OPEN
    if probability < SURE or nominal < band:
        return State.TIGHT
    return State.GOOD
