"""What to do next, ranked: measure, ask, look up, inspect, decide, order."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from drybuild.checks.verdicts import Verdict
from drybuild.next_steps.deciding import decisions, orders
from drybuild.next_steps.inspecting import inspections
from drybuild.next_steps.measuring import gaps, measurements
from drybuild.next_steps.stakes import stakes
from drybuild.next_steps.step import Act, Step
from drybuild.quantities.graph import Evaluation


def next_steps(evaluation: Evaluation, verdicts: Iterable[Verdict]) -> tuple[Step, ...]:
    """Return every step that could be taken next, the most rewarding first.

    Parameters
    ----------
    evaluation : Evaluation
        The build with its samples; 1,000 or more tell small differences.
    verdicts : iterable of Verdict
        The verdicts on its checks.

    Returns
    -------
    tuple of Step
        Ranked by net worth an hour of effort: rework avoided, weeks saved at what the owner's
        hours are worth, the cost of money kept ready. Each kind's worth is worked out by itself
        and those of several steps do not add up.

    """
    found, at_stake = tuple(verdicts), stakes(evaluation)
    steps = _joined(
        (
            *gaps(evaluation, found, at_stake),
            *measurements(evaluation, found, at_stake),
            *inspections(evaluation, at_stake),
            *orders(evaluation, at_stake),
            *decisions(evaluation, at_stake),
        )
    )
    worth_it = [step for step in steps if step.score > 0.0 or _comes_up(step)]
    return tuple(sorted(worth_it, key=lambda step: -step.score))


def _comes_up(step: Step) -> bool:
    """Whether it has to be done some day anyway; all else is dropped when it does not pay."""
    return step.act is Act.ORDER or (step.act is Act.DECIDE and step.how is None)


def _joined(steps: tuple[Step, ...]) -> tuple[Step, ...]:
    """Return one step a matter: a decision that checks wait for is also due on its day."""
    kept: dict[tuple[Act, str], Step] = {}
    for step in steps:
        key = (step.act, step.about)
        known = kept.get(key)
        kept[key] = step if known is None else _both(known, step)
    return tuple(kept.values())


def _both(one: Step, other: Step) -> Step:
    return replace(
        one,
        worth=max(one.worth, other.worth),
        by=one.by if other.by is None else other.by,
        helps=one.helps or other.helps,
        minutes=max(one.minutes, other.minutes),
        score=max(one.score, other.score),
    )
