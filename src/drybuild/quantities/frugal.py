"""Large results in between, let go of as soon as all that needs them is worked out."""

from __future__ import annotations

from collections.abc import Iterable

from drybuild.quantities.graph import Evaluation, Graph
from drybuild.quantities.recent import Key, weight

LARGE = 2e6
"""Bytes of arrays that a step in between may keep for good."""


class Frugal:
    """Watches over an evaluation while known quantities are asked for, one after the other.

    A step that is let go of is worked out again should anybody want it later; what came of it
    stays.
    """

    def __init__(self, evaluation: Evaluation, names: Iterable[str]) -> None:
        """Watch while these quantities are asked for."""
        self.evaluation = evaluation
        self._heirs = heirs(evaluation.graph, names)
        self._done: set[str] = set()
        self._small: set[Key] = set()
        self._large: set[Key] = set()

    def tidy(self) -> None:
        """Let go of each large step that nothing still to come needs."""
        memory = self.evaluation.memory
        for key in memory.keys() - self._small - self._large:
            self._done.add(key[0])
            result = memory[key]
            large = result.quantity.step and weight(result.value) >= LARGE
            (self._large if large else self._small).add(key)
        for key in list(self._large):
            if self._heirs.get(key[0], frozenset()) <= self._done:
                self._large.remove(key)
                memory.pop(key, None)


def heirs(graph: Graph, names: Iterable[str]) -> dict[str, frozenset[str]]:
    """Return what needs each quantity, of all that some quantities rest on."""
    found: dict[str, set[str]] = {}
    wanted = {name: None for name in names if name in graph.quantities}
    for name in reversed(graph.order):  # whatever needs it came before it
        if name in wanted:
            for need in graph.quantities[name].needs:
                if need in graph.quantities:
                    wanted[need] = None
                    found.setdefault(need, set()).add(name)
    return {name: frozenset(by) for name, by in found.items()}


def without_large_steps(evaluation: Evaluation) -> None:
    """Let go of every large step of an evaluation that is not worked on any more."""
    Frugal(evaluation, ()).tidy()
