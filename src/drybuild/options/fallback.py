"""The network as clauses: answers yes and no when the diagram grows too large, and names tables.

The diagram holds all tables at once; which of them make a conflict is asked here, where each table
can be left out.

References
----------
Gent, "Arc consistency in SAT", ECAI 2002 (support encoding, from memory): here one literal a state
of each table's automaton, so that a table costs one clause a step and not one a combination.
"""

from __future__ import annotations

from collections.abc import Iterable
from itertools import combinations
from weakref import finalize

from drybuild.options.automaton import automaton
from drybuild.options.network import Network, Picks, Table

OWN = ("must.", "keep.")
"""Tables that the person can give up: their must lines and the areas to keep."""


class Clauses:
    """An incremental satisfiability solver over a network's options and tables."""

    def __init__(self, network: Network) -> None:
        from pysat.solvers import Minisat22  # noqa: PLC0415 - slow to import, seldom needed

        self.network = network
        self._solver = Minisat22()
        finalize(self, self._solver.delete)
        self._literals = len(network.labels)
        self._table: dict[str, int] = {}
        for system in network.systems:
            block = network.block(system)
            literals = list(range(block.start + 1, block.stop + 1))
            self._solver.add_clause(literals)
            for one, other in combinations(literals, 2):
                self._solver.add_clause([-one, -other])
        for table in network.tables:
            self._add(table)

    def _add(self, table: Table) -> None:
        switch = self._table[table.id] = self._new()
        read = automaton(table.allowed, tuple(range(len(table.scope))))
        if read.empty:
            self._solver.add_clause([-switch])
            return
        state = [switch]
        for level, steps in enumerate(read.steps):
            last = level + 1 == len(read.steps)
            first = self.network.first[table.scope[level]] + 1
            onward = [] if last else [self._new() for _ in range(len(read.steps[level + 1]))]
            for here, row in zip(state, steps.tolist(), strict=True):
                for option, after in enumerate(row):
                    if after < 0:
                        self._solver.add_clause([-here, -(first + option)])
                    elif not last:
                        self._solver.add_clause([-here, -(first + option), onward[after]])
            state = onward

    def _new(self) -> int:
        self._literals += 1
        return self._literals

    def consistent(self, picks: Picks, tables: Iterable[str] | None = None) -> bool:
        """Return whether some complete build holds the picks under the tables (all by default)."""
        return bool(self._solver.solve(assumptions=self._assumed(picks, tables)))

    def _assumed(self, picks: Picks, tables: Iterable[str] | None) -> list[int]:
        switches = [self._table[table] for table in (self._table if tables is None else tables)]
        return [*switches, *(self.network.at(*pick) + 1 for pick in picks.items())]

    def conflict(self, picks: Picks) -> tuple[str, ...]:
        """Return a smallest-by-inclusion set of tables that do not allow the picks; empty if none.

        Leaves out one table after another; the solver's own account of each failure usually
        removes several at once. What the person asked for is left out last: a wish of one's own
        says more than a gap that fails as well.
        """
        own = tuple(table for table in self._table if table.startswith(OWN))
        needed = self._blamed(picks, tuple(self._table), own)
        for table in (*(one for one in needed if one not in own), *own):
            fewer = tuple(other for other in needed if other != table)
            if table in needed and not self.consistent(picks, fewer):
                needed = self._blamed(picks, fewer, () if table in own else own)
        return needed

    def _blamed(
        self, picks: Picks, tables: tuple[str, ...], kept: tuple[str, ...]
    ) -> tuple[str, ...]:
        if self.consistent(picks, tables):
            return ()
        core = set(self._solver.get_core() or ())
        return tuple(table for table in tables if table in kept or self._table[table] in core)

    def build(self, picks: Picks) -> dict[str, str] | None:
        """Return some complete build that holds the picks, or None."""
        if not self.consistent(picks):
            return None
        return dict(self._model())

    def _model(self) -> list[tuple[str, str]]:
        model = self._solver.get_model() or []
        labels = self.network.labels
        return [labels[literal - 1] for literal in model[: len(labels)] if literal > 0]

    def possible(self, picks: Picks) -> dict[str, tuple[str, ...]]:
        """Return, for each system, the options that some build has with the *other* picks.

        Every option seen in a model counts as shown; only the others are asked for.
        """
        shown: set[tuple[str, str]] = set()
        for system in self.network.systems:
            others = {s: o for s, o in picks.items() if s != system}
            for option in self.network.options[system]:
                if (system, option) in shown:
                    continue
                if self.consistent({**others, system: option}):
                    shown.update(self._shown_by(picks))
        return {
            system: tuple(option for option in options if (system, option) in shown)
            for system, options in self.network.options.items()
        }

    def _shown_by(self, picks: Picks) -> list[tuple[str, str]]:
        """Return the model's options that differ from the picks in no other system."""
        model = self._model()
        against = {s for s, o in model if picks.get(s, o) != o}
        return [(s, o) for s, o in model if not against - {s}]
