"""What is at stake in a build: a wrong part, an hour, a week, money kept ready."""

from __future__ import annotations

from dataclasses import dataclass
from statistics import median

from drybuild.checks.check import Check
from drybuild.quantities.graph import Evaluation
from drybuild.tables.work import habit

HOUR = 3600.0


@dataclass(frozen=True, kw_only=True)
class Stakes:
    """Prices of being wrong, in the build's money."""

    hour: float
    """An hour of the owner's."""
    week: float
    """A week later on the road, at the hours that the owner would have worked in it."""
    idle: float
    """What money kept ready costs in a year, a share of it."""
    parts: dict[str, float]
    """By system: price and fitting of what is picked, lost if it proves wrong."""

    def of(self, check: Check, evaluation: Evaluation) -> float:
        """Return what is lost if a check is misjudged.

        Notes
        -----
        Rework, and for more than advice a part too: of those that the check is about the middle
        one by price and fitting, since nobody knows beforehand which will have to go. To keep what
        then fails and to change what would have passed are held to cost the same.

        """
        rework = habit("redo")[1] * self.hour
        if check.advice:
            return rework
        scope = evaluation.graph.scope(check.quantity, cut=True)
        systems = self.parts if scope is None else scope & self.parts.keys()
        return rework + (median(self.parts[system] for system in systems) if systems else 0.0)


def stakes(evaluation: Evaluation) -> Stakes:
    """Return what is at stake in the build as picked."""
    hour = HOUR * float(evaluation.result("own_hour_worth").value[0])
    weekly = float(evaluation.result("hours_a_week_given").value[0]) / HOUR
    lost = evaluation.result("part_at_stake").labelled()
    return Stakes(
        hour=hour,
        week=weekly * hour,
        idle=habit("idle")[1],
        parts={system: float(values[0]) for system, values in lost.items()},
    )
