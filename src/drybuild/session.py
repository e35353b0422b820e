"""The one door to a build for terminal, workbench and book: open, look, choose, plan, edit, undo.

A session holds a build as read and one evaluation of it; what it is asked for is worked out when
it is first asked, and kept. It writes only through the project's save, in place.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from functools import cached_property
from pathlib import Path
from typing import TYPE_CHECKING

from drybuild.checks.all import checks_of
from drybuild.checks.check import Check
from drybuild.checks.must import must_problems
from drybuild.checks.verdicts import ORDER, State, Verdict, judge
from drybuild.errors import Problem
from drybuild.keeping import usual_folder
from drybuild.planning.dates import decision_dates
from drybuild.present.verdict_texts import failing_words
from drybuild.project import editing, history
from drybuild.project import rename as renaming
from drybuild.project.address import Address, write_address
from drybuild.project.build import Build
from drybuild.project.changed import below, changed_paths
from drybuild.project.editing import Edited
from drybuild.project.history import Change
from drybuild.project.load import load
from drybuild.project.writing import AsTyped, Value
from drybuild.quantities.all import graph
from drybuild.quantities.graph import Evaluation, Graph, Result, Results
from drybuild.quantities.recent import Recent

if TYPE_CHECKING:
    from drybuild.next_steps.step import Step
    from drybuild.options.chooser import Chooser
    from drybuild.options.shortlist import Shortlist
    from drybuild.planning.baseline import Baseline
    from drybuild.planning.forecast import Forecast

SAMPLES = 2000
"""Draws behind every verdict; enough to tell 95 % from 94 % about half the time."""


FOUND = ("next_steps", "forecast")
"""What a session beside another works out for it."""
MOST_KEPT = 400
"""Results that are kept while options are tabulated; a first look on few draws keeps more."""
ROOM = 40e6
"""Bytes of arrays within them; tabulating a large build would take ten times as much."""
SCALE = "car.body."
"""Published ranges of other entries are scaled by entries below this."""
DEFAULT_PREFERENCE = {"total_cost": 1.0, "kerb_mass": 1.0}
"""What the shortlist goes by when the brief prefers nothing."""


class Session:
    """One open build."""

    def __init__(
        self, build: Build, place: Path, samples: int = SAMPLES, known: Graph | None = None
    ) -> None:
        """Take up a build as read; a graph that is known already need not be made again."""
        self.build = build
        self.place = place
        if known is not None:
            self.graph = known
        self.evaluation = Evaluation(self.graph, build, samples)

    @classmethod
    def open(cls, folder: Path, samples: int = SAMPLES) -> Session:
        """Open a build folder; what cannot be read is in `problems`, the rest is there."""
        return cls(load(folder), folder, samples)

    def renewed(self, build: Build, *, back: bool = True) -> Session:
        """Return a session on the same build after a change; what rests on nothing new is kept.

        Results are kept for the new picks, and for the old ones too if going `back` shall be quick.
        Published ranges may go by what else the car is, so a changed `SCALE` keeps nothing.
        """
        other = Session(build, self.place, self.evaluation.samples, self.graph)
        changed = changed_paths(self.build, build)
        if changed is None or any(path.startswith(SCALE) for path in changed):
            return other
        old, new = self.evaluation, other.evaluation
        picked = [self.build.assumed_picks()] if back else []
        picked.append(build.assumed_picks())
        keys = {old.key_of(name, picks) for name in self.graph.quantities for picks in picked}
        new.memory = {key: old.memory[key] for key in keys if key in old.memory}
        new.adopt_readings(old)
        if changed:
            paths = {path for one in new.memory.values() for path in one.inputs} | set(new.readings)
            new.forget(frozenset(path for path in paths if below(path, changed)))
        elif "chooser" in vars(self) and self.checks == other.checks:
            other.chooser = self.chooser
        return other

    def beside(self) -> Session:
        """Return a session that knows all that this one does, for another thread to ask."""
        other = Session(self.build, self.place, self.evaluation.samples, self.graph)
        other.evaluation.memory = dict(self.evaluation.memory)
        other.evaluation.adopt_readings(self.evaluation)
        for name in ("checks", "verdicts", *FOUND):
            if name in vars(self):
                vars(other)[name] = vars(self)[name]
        return other

    def hand_back(self, other: Session) -> None:
        """Take over what a session `beside` this one has found since."""
        for key, result in other.evaluation.memory.items():
            self.evaluation.memory.setdefault(key, result)
        for path, reading in other.evaluation.readings.items():
            self.evaluation.readings.setdefault(path, reading)
        for name in FOUND:
            if name in vars(other):
                vars(self).setdefault(name, vars(other)[name])

    def picked(self, system: str, option: str) -> Build:
        """Save a pick (``?`` leaves the system open) and return the build that has it."""
        return editing.take_pick(self.build, system, option)

    def chooses_like(self, other: Session) -> bool:
        """Whether the chooser of another session is right for this one, whatever the picks."""
        return self.checks == other.checks and changed_paths(self.build, other.build) == frozenset()

    def tabulate(
        self,
        between: Callable[[], None] | None = None,
        told: Callable[[int, int], None] | None = None,
    ) -> None:
        """Judge the options' tables in a bounded memory, and keep them by content.

        What is given as `between` is called before each quantity and may wait, or raise to stop
        the work; `told` is given the checks that are done, and how many there are.
        """
        if "chooser" not in vars(self):
            own = Evaluation(
                self.graph, self.build, self.evaluation.samples, memory=Recent(MOST_KEPT, ROOM)
            )
            self.chooser = self._chooser(own)
            self.chooser.tabulator.second.memory = Recent(MOST_KEPT, ROOM)
            self.chooser.tabulator.screen.memory = Recent(20 * MOST_KEPT, ROOM)
        self.chooser.tabulator.watched(between, told)
        try:
            self.chooser.tabulated  # noqa: B018  judges and keeps them
        finally:
            self.chooser.tabulator.watched(None, None)

    def ready_to_choose(
        self,
        between: Callable[[], None] | None = None,
        told: Callable[[int, int], None] | None = None,
    ) -> Chooser:
        """Tabulate and compile the options, keep the tables by content, drop what led to them."""
        self.tabulate(between, told)
        self.chooser.reasons  # noqa: B018  compiles them
        self.chooser.tabulator.forget()
        return self.chooser

    @cached_property
    def graph(self) -> Graph:
        """The graph of every quantity."""
        return graph()

    @cached_property
    def problems(self) -> tuple[Problem, ...]:
        """Everything that is wrong with the files, all at once."""
        found = (*self.build.problems, *must_problems(self.build, self.graph, self.checks))
        return tuple(sorted(found, key=lambda one: (str(one.file), one.line)))

    @cached_property
    def checks(self) -> tuple[Check, ...]:
        """The person's must lines, then every standing check."""
        return checks_of(self.build, self.graph)

    @cached_property
    def quantities(self) -> Mapping[str, Result]:
        """Every quantity of the build as picked, in the order of the graph's modules."""
        return Results(self.evaluation)

    @cached_property
    def verdicts(self) -> tuple[Verdict, ...]:
        """The verdict on every check, worst first within must lines, checks and advice."""
        picks = self.build.assumed_picks()
        found = [judge(check, self.evaluation, picks=picks) for check in self.checks]
        return self.ranked(one for one in found if not one.senseless)

    @staticmethod
    def ranked(verdicts: Iterable[Verdict]) -> tuple[Verdict, ...]:
        """Return verdicts worst first within must lines, checks and advice."""
        return tuple(sorted(verdicts, key=_verdict_rank))

    @cached_property
    def chooser(self) -> Chooser:
        """The options tabulated and compiled: what remains possible, and why not."""
        return self._chooser(self.evaluation)

    def _chooser(self, evaluation: Evaluation) -> Chooser:
        from drybuild.options.chooser import Chooser  # noqa: PLC0415  few commands ask

        return Chooser(evaluation, self.checks, failing_words, usual_folder())

    def shortlist(self, picks: dict[str, str]) -> Shortlist:
        """Return proven builds that hold the picks, by what the brief prefers."""
        given = self.build.brief.given.get("prefer")
        known = [one.name for one in self.graph.quantities.values() if not one.step]
        weights = {
            name: weight
            for name, weight in (given if isinstance(given, dict) else {}).items()
            if name in known
        }
        return self.chooser.shortlist(weights or DEFAULT_PREFERENCE, picks)

    @cached_property
    def next_steps(self) -> tuple[Step, ...]:
        """What to measure, ask, inspect, decide and order, the most rewarding first."""
        from drybuild.next_steps.advise import next_steps  # noqa: PLC0415  few commands ask

        return next_steps(self.evaluation, self.verdicts)

    @cached_property
    def forecast(self) -> Forecast | None:
        """What the runs of the work plan say; None while the plan is open."""
        from drybuild.planning.forecast import forecast  # noqa: PLC0415  few commands ask

        runs = self.evaluation.result("work_runs").value
        orders = self.evaluation.result("order_days").value
        if runs is None or orders is None:
            return None
        decisions = decision_dates(runs.plan, runs.runs, orders)
        return forecast(runs.planned, runs.runs, orders, decisions)

    def baseline(self, seconds: float) -> Baseline | None:
        """Return the shortest order of work that can be found for the plan in some seconds."""
        from drybuild.planning.baseline import baseline  # noqa: PLC0415  few commands ask

        runs = self.evaluation.result("work_runs").value
        return baseline(runs.planned.plan, seconds=seconds) if runs else None

    def count(self, state: State, *, advice: bool = False) -> int:
        """Return how many verdicts are in this state, advice apart."""
        return sum(one.state is state and one.check.advice == advice for one in self.verdicts)


def edit(place: Path, address: str, value: Value, why: str = "") -> Edited:
    """Change one entry of a build in place; see `drybuild.project.editing.edit`."""
    return editing.edit(place, address, value, why)


def edit_together(place: Path, values: Mapping[str, Value], what: str, why: str = "") -> Edited:
    """Change several entries of a build at once; see `drybuild.project.editing.edit_together`."""
    return editing.edit_together(place, values, what, why)


def remove(place: Path, address: str, why: str = "") -> Edited:
    """Take one entry of a build out, in place."""
    return editing.edit(place, address, editing.OUT, why)


def pick(place: Path, system: str, option: str, why: str = "") -> Edited:
    """Take an option for a system; ``?`` leaves it open again."""
    return editing.edit(place, write_address(("picks", system)), AsTyped(option), why)


def rename(place: Path, steps: Address, name: str, why: str = "") -> tuple[Problem, ...]:
    """Give an option or a job another name; see `drybuild.project.rename.rename`."""
    return renaming.rename(place, steps, name, why)


def undo(place: Path) -> Change | None:
    """Take the last change back; None when there is none."""
    return history.undo(place if place.is_dir() else place.parent)


def redo(place: Path) -> Change | None:
    """Do again what was taken back; None when there is nothing."""
    return history.redo(place if place.is_dir() else place.parent)


def _verdict_rank(verdict: Verdict) -> tuple[bool, bool, int]:
    return (
        not verdict.check.id.startswith("must."),
        verdict.check.advice,
        -ORDER.index(verdict.state),
    )
