"""The order in which a diagram reads the systems: neighbours close together, few loose ends.

The width of a layered diagram is bounded by what must be remembered at each cut: the options of
the systems already read that still share a table with one not yet read.
"""

from __future__ import annotations

from collections.abc import Mapping
from math import exp, log
from random import Random

from drybuild.options.network import Network

WORK = 6000
"""Systems placed in all restarts together; keeps large networks as quick as small ones."""


def frontier_order(network: Network) -> tuple[str, ...]:
    """Return a reading order with a small frontier; the same network gives the same order.

    Notes
    -----
    Greedy: append the neighbour that leaves the smallest sum of log(number of options) over the
    placed systems with neighbours still to come. Restarted from other systems and with random
    ties; the order with the smallest sum of exp(frontier) over all cuts stays.

    """
    neighbours = _neighbours(network)
    restarts = max(6, min(120, WORK // max(1, len(neighbours))))
    random = Random(20)  # any fixed seed: only so that the order is repeatable
    best: tuple[str, ...] = network.systems
    least = float("inf")
    for restart in range(restarts):
        attempt = _Attempt(network, neighbours, random)
        if attempt.run(restart, least):
            best, least = tuple(attempt.placed), attempt.cost
    return best


def _neighbours(network: Network) -> dict[str, set[str]]:
    near: dict[str, set[str]] = {system: set() for system in network.systems}
    for table in network.tables:
        for system in table.scope:
            near[system].update(table.scope)
    for system, others in near.items():
        others.discard(system)
    return near


class _Attempt:
    """One greedy order, under way."""

    def __init__(
        self, network: Network, neighbours: Mapping[str, set[str]], random: Random
    ) -> None:
        self.neighbours = neighbours
        self.random = random
        self.size = {system: log(len(options)) for system, options in network.options.items()}
        self.loose = {system: len(near) for system, near in neighbours.items()}
        """How many neighbours of each system are still to come."""
        self.placed: dict[str, None] = {}
        self.edge: set[str] = set()
        """Systems not placed that are next to one that is."""
        self.width = 0.0
        self.cost = 0.0

    def run(self, restart: int, give_up_at: float) -> bool:
        """Place all systems; stop and return false when the cost reaches what is known already."""
        systems = list(self.neighbours)
        while len(self.placed) < len(systems):
            if self.edge:
                step = self._closest()
            elif self.placed:
                rest = [system for system in systems if system not in self.placed]
                step = min(rest, key=lambda system: self.loose[system])
            else:
                step = systems[restart % len(systems)]
            self._place(step)
            self.cost += exp(min(self.width, 500.0))
            if self.cost >= give_up_at:
                return False
        return True

    def _place(self, step: str) -> None:
        self.width += self._growth(step)
        self.placed[step] = None
        for near in self.neighbours[step]:
            self.loose[near] -= 1
            if near not in self.placed:
                self.edge.add(near)
        self.edge.discard(step)

    def _growth(self, step: str) -> float:
        settled = 0.0
        for near in self.neighbours[step]:
            if self.loose[near] == 1 and near in self.placed:
                settled += self.size[near]
        return (self.size[step] if self.loose[step] else 0.0) - settled

    def _closest(self) -> str:
        growth = {system: self._growth(system) for system in sorted(self.edge)}
        least = min(growth.values()) + 1e-9
        return self.random.choice([system for system, grown in growth.items() if grown <= least])
