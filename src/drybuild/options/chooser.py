"""The one object that faces use to choose parts: what is left, why, what next, what is best."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property
from pathlib import Path

from drybuild.checks.check import Check
from drybuild.options.additive import additives
from drybuild.options.conflicts import ways_out
from drybuild.options.diagram import Diagram, TooLarge, compile_network
from drybuild.options.fallback import OWN, Clauses
from drybuild.options.network import Network, Picks, Table
from drybuild.options.paths import cheapest, cheapest_with, least_worst
from drybuild.options.queries import (
    Narrowing,
    Standing,
    decide_first,
    remaining,
    rules_out,
    together,
)
from drybuild.options.reasons import Explanation, Label, Reasons
from drybuild.options.shortlist import Search, Shortlist
from drybuild.options.tables import Say, Tabulated, Tabulator
from drybuild.quantities.graph import Evaluation

OWN_WEIGHT = 1.5
"""Giving up a must line counts more than giving up a pick."""


@dataclass(frozen=True, kw_only=True)
class State:
    """What some picks leave."""

    total: int | None
    """Complete builds that hold the picks and that no table excludes; None when only yes and no
    are known, because the options hang together too closely to count."""
    possible: Mapping[str, tuple[str, ...]]
    """The options of each system that go with the picks of the other systems."""
    counts: Mapping[str, Mapping[str, int]]
    """Complete builds by option; empty when only yes and no are known."""
    reasons: Mapping[Label, Explanation]
    """Why each other option does not go with the picks of the other systems."""
    rules_out: Mapping[Label, tuple[Label, ...]]
    """What each possible option of an open system would rule out."""
    decide_first: tuple[Narrowing, ...]
    """The open systems, the one that narrows the rest most first."""
    forced: Mapping[str, str]
    """Open systems with a single possible option."""


@dataclass(frozen=True, kw_only=True)
class Conflict:
    """Why some picks cannot be had together, and the lightest ways out."""

    explanation: Explanation
    ways_out: tuple[tuple[Label | Table, ...], ...]
    """Picks, must lines and kept areas to give up; each way is enough by itself."""


@dataclass(frozen=True, kw_only=True)
class Completion:
    """The best complete build that holds some picks."""

    build: Mapping[str, str]
    total: float
    """In SI, or in the build's currency; a lead time is that of the slowest part."""
    unknown: tuple[Label, ...]
    """Its options that do not say how much they add; they counted as nothing."""


class Chooser:
    """A build's options, tabulated and compiled once."""

    def __init__(
        self,
        evaluation: Evaluation,
        checks: Sequence[Check],
        say: Say,
        folder: Path | None = None,
    ) -> None:
        """Get ready; judged tables are kept in the folder by content, if one is given."""
        self.folder = folder
        self.build = evaluation.build
        self.additives = additives(self.build)
        self.tabulator = Tabulator(evaluation, checks, self.additives, say)

    @cached_property
    def tabulated(self) -> Tabulated:
        """The build as a network of tables."""
        return self.tabulator.tabulate(self.folder)

    @property
    def network(self) -> Network:
        """The systems with a choice and the tables over them."""
        return self.tabulated.network

    @cached_property
    def diagram(self) -> Diagram | None:
        """The compiled network; None when it grows too large to compile."""
        try:
            return compile_network(self.network)
        except TooLarge:
            return None

    @cached_property
    def clauses(self) -> Clauses:
        """The network for yes and no, tables apart."""
        return Clauses(self.network)

    @cached_property
    def reasons(self) -> Reasons:
        """What explains options that are not possible."""
        if self.diagram is not None:
            return Reasons(self.network, Standing(self.diagram), together(self.diagram, {}))
        return Reasons(
            self.network, lambda picks, option: self.clauses.consistent(dict([*picks, option]))
        )

    def state(self, picks: Picks) -> State:
        """Return what the picks leave; picks of systems without a choice count for nothing."""
        own = self._own(picks)
        if self.diagram is None:
            return self._yes_and_no(own)
        left = remaining(self.diagram, own)
        return State(
            total=left.total,
            possible={system: left.possible(system) for system in left.counts},
            counts=left.counts,
            reasons=self.reasons.why_not(left.impossible(), own),
            rules_out=rules_out(self.diagram, own),
            decide_first=decide_first(left, own),
            forced={s: option for s, option in left.forced().items() if s not in own},
        )

    def _yes_and_no(self, picks: Picks) -> State:
        possible = self.clauses.possible(picks)
        gone = [(s, o) for s, o in self.network.labels if o not in possible[s]]
        return State(
            total=None,
            possible=possible,
            counts={},
            reasons=self.reasons.why_not(gone, picks),
            rules_out={},
            decide_first=(),
            forced={s: o[0] for s, o in possible.items() if len(o) == 1 and s not in picks},
        )

    def _own(self, picks: Picks) -> dict[str, str]:
        return {
            system: option for system, option in picks.items() if system in self.network.options
        }

    def conflict(self, picks: Picks) -> Conflict | None:
        """Return why the picks do not fit together, the first picks being the dearest; or None."""
        own = self._own(picks)
        if self.clauses.consistent(own):
            return None
        explanation = self.reasons.conflict(own)
        if explanation is None:
            return None
        return Conflict(explanation=explanation, ways_out=self._ways_out(own))

    def _ways_out(self, picks: Picks) -> tuple[tuple[Label | Table, ...], ...]:
        soft = {table.id: table for table in self.network.tables if table.id.startswith(OWN)}
        hard = [table.id for table in self.network.tables if table.id not in soft]
        wishes: list[Label | Table] = [*soft.values(), *picks.items()]

        def fits(kept: tuple[Label | Table, ...]) -> bool:
            tables = [wish.id for wish in kept if isinstance(wish, Table)]
            chosen = dict(wish for wish in kept if not isinstance(wish, Table))
            return self.clauses.consistent(chosen, [*hard, *tables])

        weights = [OWN_WEIGHT if isinstance(wish, Table) else 1.0 for wish in wishes]
        return tuple(ways_out(wishes, fits, weights))

    def completion(self, picks: Picks, by: str) -> Completion | None:
        """Return the complete build with the least price or mass, or the one to be had soonest.

        Parameters
        ----------
        picks : picks
            What it must hold. [-]
        by : str
            ``price``, ``mass``, ``current`` or ``lead_time``. [-]

        Returns
        -------
        Completion or None
            None if no build holds the picks, or if the network is too large to compile.

        """
        if self.diagram is None:
            return None
        own = self._own(picks)
        found = (
            least_worst(self.diagram, self._weights(by), own, then=self._weights("price"))
            if by == "lead_time"
            else cheapest(self.diagram, self._weights(by), own)
        )
        if found is None:
            return None
        fixed = [self._weight(by, *one) for one in self.tabulated.fixed.items()]
        total = max([*fixed, *found.sums]) if by == "lead_time" else sum([*fixed, *found.sums])
        build = self.tabulator.whole(found.build)
        unknown = tuple(one for one in self.additives[by].unknown if one in build.items())
        return Completion(build=build, total=total, unknown=unknown)

    def _weights(self, name: str) -> dict[str, Mapping[str, float]]:
        weights = self.additives[name].weights
        return {system: weights[system] for system in self.network.options}

    def _weight(self, name: str, system: str, option: str) -> float:
        return self.additives[name].weights[system].get(option, 0.0)

    def least_with(self, picks: Picks, by: str) -> dict[str, dict[str, float]]:
        """Return, for each possible option, the least price or mass of a build that holds it."""
        if self.diagram is None:
            return {}
        fixed = sum(self._weight(by, *one) for one in self.tabulated.fixed.items())
        found = cheapest_with(self.diagram, self._weights(by), self._own(picks))
        return {s: {o: sum_ + fixed for o, sum_ in least.items()} for s, least in found.items()}

    def shortlist(
        self, prefer: Mapping[str, float], picks: Picks, evaluations: int = 150, most: int = 6
    ) -> Shortlist:
        """Return the builds holding the picks that no other found beats in all that is preferred.

        See `drybuild.options.shortlist`. Empty when the network is too large to compile.
        """
        if self.diagram is None or self.diagram.empty:
            return Shortlist(listed=(), tried=0, failing={}, open=tuple(prefer))
        own = self._own(picks)
        search = Search(self.tabulator, self.diagram, self.additives, prefer, own)
        return search.run(evaluations, most)
