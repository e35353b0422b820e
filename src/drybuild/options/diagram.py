"""All complete builds of a network, as one layered reduced decision diagram.

One layer a system, one arc an option; each path from the root to the end is one complete build
and each complete build is one path. Compiled once, it answers every question of ``queries.py`` by
a sweep over its arcs.

References
----------
Srinivasan, Kam, Malik, Brayton, "Algorithms for discrete function manipulation", ICCAD 1990
(multi-valued diagrams); Amilhastre, Fargier, Marquis, "Consistency restoration and explanations in
dynamic CSPs", Artificial Intelligence 135:199-234, 2002 (compile a configuration, then ask); both
from memory.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any, TypeAlias

import numpy as np

from drybuild.errors import DrybuildError
from drybuild.options.automaton import DEAD, Automaton, Places, automaton, distinct, reduce_rows
from drybuild.options.network import Flags, Network, Table
from drybuild.options.order import frontier_order

Children: TypeAlias = list[Places]
"""A layer a system: ``children[layer][node, option]`` is the node of the next layer, or `DEAD`."""

INT64_SAFE = 4e18
"""Totals below are counted in 64-bit integers, those above in Python's."""


class TooLarge(DrybuildError):  # noqa: N818 - says what happened; the caller falls back, no error
    """A layer outgrew the limit; ask the satisfiability fallback instead."""


@dataclass(frozen=True, eq=False)
class Layer:
    """One system's nodes and arcs, as slices of the diagram's flat arrays."""

    system: str
    nodes: slice
    arcs: slice
    starts: Places
    """First arc of each node, counted from the layer's first arc."""
    below: slice
    """The nodes of the next layer."""
    into: Places
    """The layer's arcs sorted by the node they lead to, as flat indices."""
    into_starts: Places


@dataclass(frozen=True, eq=False)
class Diagram:
    """A compiled network: node 0 is the root, the last node is the end."""

    network: Network
    layers: tuple[Layer, ...]
    parent: Places
    child: Places
    option: Places
    """Place of each arc's option in the network's row of options."""
    by_option: Places
    """The arcs sorted by option."""
    option_starts: Places
    option_present: Places
    """The options that stand on some arc; the others are dead from the start."""
    integers: np.dtype[Any]  # int64, or object for Python's integers: numpy has no narrower type

    @property
    def nodes(self) -> int:
        """Number of nodes, the end included."""
        return self.layers[-1].below.stop if self.layers else 1

    @property
    def empty(self) -> bool:
        """Whether no complete build exists."""
        return bool(self.layers) and self.parent.size == 0


def compile_network(
    network: Network,
    *,
    order: Sequence[str] | None = None,
    limit: int = 300_000,
    batch: int | None = None,
) -> Diagram:
    """Compile a network.

    Parameters
    ----------
    network : Network
        Systems, options and tables.
    order : sequence of str
        Reading order of the systems; found by `frontier_order` when not given.
    limit : int
        Largest number of nodes that a layer may grow to. [-]
    batch : int
        Tables conjoined at a time; by default six, more where there are hundreds. [-]

    Raises
    ------
    TooLarge
        A layer outgrew the limit.

    Notes
    -----
    Tables are conjoined a batch at a time, sorted by the position of their last system, and the
    diagram is reduced after each batch: a product of all at once grows far larger on the way.

    """
    order = tuple(order) if order is not None else frontier_order(network)
    position = {system: place for place, system in enumerate(order)}
    read = [
        automaton(table.allowed, tuple(position[system] for system in table.scope))
        for table in _absorbed(network)
    ]
    read.sort(key=lambda table: (table.positions[-1:], table.positions))
    sizes = [len(network.options[system]) for system in order]
    children: Children = [np.zeros((1, size), dtype=np.int64) for size in sizes]
    if any(table.empty for table in read):
        children = [np.zeros((0, size), dtype=np.int64) for size in sizes]
        read = []
    batch = batch or max(6, len(read) // 40)  # each batch costs a pass over all layers
    for start in range(0, len(read), batch):
        children = _reduce(_conjoin(children, read[start : start + batch], limit))
    return _flatten(network, order, children)


def _absorbed(network: Network) -> list[Table]:
    """Return fewer tables with the same meaning: small scopes folded into those that hold them."""
    folded: dict[frozenset[str], tuple[tuple[str, ...], Flags]] = {}
    for table in sorted(network.tables, key=lambda table: -len(table.scope)):
        home = next((scope for scope in folded if scope.issuperset(table.scope)), None)
        if home is None:
            folded[frozenset(table.scope)] = (table.scope, table.allowed)
        else:
            scope, allowed = folded[home]
            folded[home] = (scope, allowed & table.over(scope))
    return [
        Table(id=str(number), scope=scope, allowed=allowed, reason="")
        for number, (scope, allowed) in enumerate(folded.values())
    ]


def _conjoin(children: Children, tables: Sequence[Automaton], limit: int) -> Children:
    """Return the product of a diagram and some tables, layer by layer; a node is a state tuple."""
    grown: Children = []
    states: dict[int, Places] = {DEAD: np.zeros(1, dtype=np.int64)}  # DEAD stands for the diagram
    for layer, steps in enumerate(children):
        after = {DEAD: steps[states[DEAD]]}
        alive = after[DEAD] >= 0
        for number, table in enumerate(tables):
            if not table.positions[0] <= layer <= table.positions[-1]:
                continue
            state = states.get(number)
            if state is None:
                state = np.zeros(alive.shape[0], dtype=np.int64)
            if layer in table.positions:
                moved = table.steps[table.positions.index(layer)][state]
                alive &= moved >= 0
            else:
                moved = np.broadcast_to(state[:, np.newaxis], alive.shape)
            if layer < table.positions[-1]:
                after[number] = moved
        keys = np.stack([moved[alive] for moved in after.values()], axis=1)
        first, kind = distinct(keys)
        if first.size > limit:
            raise TooLarge(f"a layer of the diagram has {first.size} nodes, more than {limit}")
        table_of_kinds = np.full(alive.shape, DEAD, dtype=np.int64)
        table_of_kinds[alive] = kind
        grown.append(table_of_kinds)
        states = {number: keys[first, column] for column, number in enumerate(after)}
    return grown


def _reduce(children: Children) -> Children:
    """Return the diagram without dead ends and with equal nodes merged, from the end upwards."""
    reduced: Children = []
    number: Places | None = None
    for steps in reversed(children):
        renamed = steps if number is None else np.append(number, DEAD)[steps]
        rows, number = reduce_rows(renamed)
        reduced.insert(0, rows)
    return reduced


def _flatten(network: Network, order: Sequence[str], children: Children) -> Diagram:
    parents, childs, options = [], [], []
    layers: list[Layer] = []
    nodes, arcs = 0, 0
    widths = [steps.shape[0] for steps in children] + [1]  # the end is one node, come what may
    for system, steps, below in zip(order, children, widths[1:], strict=True):
        node, choice = np.nonzero(steps >= 0)
        lead = steps[node, choice]
        into = np.argsort(lead, kind="stable")
        size = steps.shape[0]
        layers.append(
            Layer(
                system=system,
                nodes=slice(nodes, nodes + size),
                arcs=slice(arcs, arcs + lead.size),
                starts=np.searchsorted(node, np.arange(size)),
                below=slice(nodes + size, nodes + size + below),
                into=into + arcs,
                into_starts=np.searchsorted(lead[into], np.arange(below)),
            )
        )
        parents.append(node + nodes)
        childs.append(lead + nodes + size)
        options.append(choice + network.first[system])
        nodes, arcs = nodes + size, arcs + lead.size
    option = _joined(options)
    by_option = np.argsort(option, kind="stable")
    present, starts = np.unique(option[by_option], return_index=True)
    diagram = Diagram(
        network=network,
        layers=tuple(layers),
        parent=_joined(parents),
        child=_joined(childs),
        option=option,
        by_option=by_option,
        option_starts=starts.astype(np.int64),
        option_present=present.astype(np.int64),
        integers=np.dtype(np.int64),
    )
    return diagram if diagram.empty or _total(diagram) < INT64_SAFE else _with_big_integers(diagram)


def _joined(parts: list[Places]) -> Places:
    return np.concatenate(parts) if parts else np.zeros(0, dtype=np.int64)


def _total(diagram: Diagram) -> float:
    """Return about how many builds there are; not asked of an empty diagram."""
    paths = np.ones(diagram.nodes)
    for layer in reversed(diagram.layers):
        if layer.starts.size:
            paths[layer.nodes] = np.add.reduceat(paths[diagram.child[layer.arcs]], layer.starts)
    return float(paths[0])


def _with_big_integers(diagram: Diagram) -> Diagram:
    return Diagram(**{**vars(diagram), "integers": np.dtype(object)})
