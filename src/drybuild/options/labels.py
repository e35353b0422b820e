"""The best few builds, exactly: each node keeps the partial sums worth keeping.

References
----------
Martins, "On a multicriteria shortest path problem", European Journal of Operational Research
16:236-245, 1984 (from memory): labels on the nodes of a graph without circles.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from math import floor, isfinite, log10
from typing import TypeAlias

import numpy as np
import numpy.typing as npt

from drybuild.options.automaton import Places
from drybuild.options.diagram import Diagram
from drybuild.options.network import Network, NetworkError, Picks

Weights: TypeAlias = Mapping[str, Mapping[str, float]]
"""What each option of each system costs, weighs or takes; one left out counts as nothing."""
Costs: TypeAlias = npt.NDArray[np.float64]
Select: TypeAlias = Callable[[Places, Places], Places]
"""Given each label's node and its sums (a row an objective): the labels to keep, by node."""

DIGITS = 9
"""Sums are carried in whole multiples of this many digits below the largest weight, so that
equal sums are equal and a price in cents stays exact."""


@dataclass(frozen=True, kw_only=True)
class Candidate:
    """A complete build and its sum in each objective."""

    build: dict[str, str]
    sums: tuple[float, ...]


def row_of_weights(network: Network, weights: Weights) -> Costs:
    """Return the weights in the network's row of options.

    Raises
    ------
    NetworkError
        A weight is not a finite number, or belongs to no option.

    """
    row = np.zeros(len(network.labels))
    for system, by_option in weights.items():
        for option, weight in by_option.items():
            if not isfinite(weight):
                raise NetworkError(f"the weight of {system} {option} is {weight}")
            row[network.at(system, option)] = weight
    return row


def best_builds(
    diagram: Diagram, objectives: Sequence[Weights], picks: Picks, select: Select
) -> list[Candidate]:
    """Return the complete builds whose labels survive at the root, in the order of `select`."""
    network = diagram.network
    if diagram.empty:
        return []
    if not diagram.layers:
        return [Candidate(build={}, sums=(0.0,) * len(objectives))]
    rows = np.array([row_of_weights(network, weights) for weights in objectives])
    units = np.array([_unit(row) for row in rows])
    whole = np.rint(rows / units[:, np.newaxis]).astype(np.int64)
    trail = _propagate(diagram, network.mask(picks)[diagram.option], whole, select)
    found = [_walk(diagram, trail, label) for label in range(trail[-1][0].size)]
    return [Candidate(build=build, sums=_sums(rows, network, build)) for build in found]


def _unit(row: Costs) -> float:
    largest = float(np.abs(row).max(initial=0.0))
    return float(10.0 ** (floor(log10(largest)) - DIGITS)) if largest > 0.0 else 1.0


Trail: TypeAlias = list[tuple[Places, Places]]
"""A layer each, from the end: every label's arc, and its label one layer on."""


def _propagate(
    diagram: Diagram, open_: npt.NDArray[np.bool_], whole: Places, select: Select
) -> Trail:
    trail: Trail = []
    first = np.zeros(diagram.nodes, dtype=np.int64)  # each node's labels, in its layer's arrays
    count = np.zeros(diagram.nodes, dtype=np.int64)
    count[-1] = 1
    sums = np.zeros((whole.shape[0], 1), dtype=np.int64)
    for layer in reversed(diagram.layers):
        arcs = np.arange(layer.arcs.start, layer.arcs.stop)[open_[layer.arcs]]
        child = diagram.child[arcs]
        each = count[child]
        arc = np.repeat(arcs, each)
        within = np.arange(arc.size) - np.repeat(np.cumsum(each) - each, each)
        label = np.repeat(first[child], each) + within
        grown = sums[:, label] + whole[:, diagram.option[arc]]
        kept = select(diagram.parent[arc], grown)
        sums, arc = grown[:, kept], arc[kept]
        parent = diagram.parent[arc] - layer.nodes.start
        size = np.bincount(parent, minlength=layer.nodes.stop - layer.nodes.start)
        count[layer.nodes] = size
        first[layer.nodes] = np.cumsum(size) - size
        trail.append((arc, label[kept]))
    return trail


def _walk(diagram: Diagram, trail: Trail, label: int) -> dict[str, str]:
    build: dict[str, str] = {}
    for arc, onward in reversed(trail):
        system, option = diagram.network.labels[diagram.option[arc[label]]]
        build[system] = option
        label = int(onward[label])
    return build


def _sums(rows: Costs, network: Network, build: Mapping[str, str]) -> tuple[float, ...]:
    places = [network.place[label] for label in build.items()]
    return tuple(float(row[places].sum()) for row in rows)


def fewest(number: int) -> Select:
    """Return the selection that keeps, at each node, the given number of smallest sums."""

    def select(node: Places, sums: Places) -> Places:
        order = np.lexsort((sums[0], node))
        kept: Places = order[_rank(node[order]) < number]
        return kept

    return select


def undominated(node: Places, sums: Places) -> Places:
    """Keep, at each node, the labels that no other label equals or beats in both sums."""
    order = np.lexsort((sums[1], sums[0], node))
    if order.size == 0:
        return order
    by_node = node[order]
    _, second = np.unique(sums[1][order], return_inverse=True)
    # Falling by more than the whole range at each new node, the running least restarts there.
    level = second - (by_node - by_node[0]) * (int(second.max()) + 1)
    least = np.minimum.accumulate(level)
    better = np.concatenate([[True], level[1:] < least[:-1]])
    kept: Places = order[better]
    return kept


def _rank(node: Places) -> Places:
    """Return each label's rank within its node; the nodes stand sorted."""
    starts = np.flatnonzero(np.concatenate([[True], node[1:] != node[:-1]])[: node.size])
    size = np.diff(np.concatenate([starts, [node.size]]))
    return np.arange(node.size) - np.repeat(starts, size)
