"""What remains, what goes together, what to decide first: one or two sweeps over the arcs each."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from math import log2
from typing import Any, TypeAlias

import numpy as np
import numpy.typing as npt

from drybuild.options.diagram import Diagram
from drybuild.options.network import Flags, Picks

Numbers: TypeAlias = npt.NDArray[Any]  # int64, or object where counts outgrow 64 bits


@dataclass(frozen=True, kw_only=True, eq=False)
class Remaining:
    """What the picks leave."""

    total: int
    """Complete builds that hold every pick."""
    counts: dict[str, dict[str, int]]
    """Complete builds with this option and every pick of the *other* systems: for a system still
    open they add up to the total, for a picked one they also tell what its rivals would leave."""

    def possible(self, system: str) -> tuple[str, ...]:
        """Return the options that still stand in some complete build."""
        return tuple(option for option, count in self.counts[system].items() if count)

    def impossible(self) -> tuple[tuple[str, str], ...]:
        """Return the options that no complete build has with the picks of the other systems."""
        return tuple((s, o) for s, counts in self.counts.items() for o in counts if not counts[o])

    def forced(self) -> dict[str, str]:
        """Return the systems with a single possible option."""
        found = {system: self.possible(system) for system in self.counts}
        return {system: options[0] for system, options in found.items() if len(options) == 1}


def remaining(diagram: Diagram, picks: Picks) -> Remaining:
    """Count the complete builds under the picks, in all and by option."""
    mask = diagram.network.mask(picks)
    below, above = builds_below(diagram, mask), builds_above(diagram, mask)
    counts = np.zeros(mask.size, dtype=diagram.integers)
    if not diagram.empty and diagram.layers:
        through = above[diagram.parent] * below[diagram.child]
        counts[diagram.option_present] = np.add.reduceat(
            through[diagram.by_option], diagram.option_starts
        )
    by_system: dict[str, dict[str, int]] = {system: {} for system in diagram.network.systems}
    for (system, option), count in zip(diagram.network.labels, counts.tolist(), strict=True):
        by_system[system][option] = count
    return Remaining(total=0 if diagram.empty else int(below[0]), counts=by_system)


def builds_below(diagram: Diagram, mask: Flags) -> Numbers:
    """Return, for each node, the number of ways from it to the end."""
    ways = np.ones(diagram.nodes, dtype=diagram.integers)
    open_ = mask[diagram.option]
    for layer in reversed(diagram.layers):
        if layer.starts.size:
            ahead = ways[diagram.child[layer.arcs]] * open_[layer.arcs]
            ways[layer.nodes] = np.add.reduceat(ahead, layer.starts)
    return ways


def builds_above(diagram: Diagram, mask: Flags) -> Numbers:
    """Return, for each node, the number of ways from the root to it.

    Notes
    -----
    Nodes without a way to the end are swept all the same: a rival of a pick may lie behind them.

    """
    ways = np.ones(diagram.nodes, dtype=diagram.integers)
    for layer in diagram.layers:
        if layer.into.size:
            coming = ways[diagram.parent[layer.into]] * mask[diagram.option[layer.into]]
            ways[layer.below] = np.add.reduceat(coming, layer.into_starts)
    return ways


def possible(diagram: Diagram, picks: Picks) -> Flags:
    """Return which options of the row stand in some build with the picks of the *other* systems."""
    mask = diagram.network.mask(picks)
    shown = np.zeros(mask.size, dtype=np.bool_)
    if diagram.empty or not diagram.layers:
        return shown
    open_ = mask[diagram.option]
    below = np.ones(diagram.nodes, dtype=np.bool_)
    for layer in reversed(diagram.layers):
        ahead = below[diagram.child[layer.arcs]] & open_[layer.arcs]
        below[layer.nodes] = np.logical_or.reduceat(ahead, layer.starts)
    above = np.ones(diagram.nodes, dtype=np.bool_)
    for layer in diagram.layers:
        coming = above[diagram.parent[layer.into]] & open_[layer.into]
        above[layer.below] = np.logical_or.reduceat(coming, layer.into_starts)
    through = above[diagram.parent] & below[diagram.child]
    shown[diagram.option_present] = np.logical_or.reduceat(
        through[diagram.by_option], diagram.option_starts
    )
    return shown


def consistent(diagram: Diagram, picks: Picks) -> bool:
    """Return whether some complete build holds every pick."""
    if diagram.empty:
        return False
    open_ = diagram.network.mask(picks)[diagram.option]
    reach = np.ones(diagram.nodes, dtype=np.bool_)
    for layer in reversed(diagram.layers):
        ahead = reach[diagram.child[layer.arcs]] & open_[layer.arcs]
        reach[layer.nodes] = np.logical_or.reduceat(ahead, layer.starts)
    return bool(reach[0])


class Standing:
    """Whether an option stands with some picks; one sweep answers for all options, once."""

    def __init__(self, diagram: Diagram, keep: int = 4096) -> None:
        self.network = diagram.network
        self._row = lru_cache(keep)(lambda picks: possible(diagram, dict(picks)))

    def __call__(self, picks: tuple[tuple[str, str], ...], option: tuple[str, str]) -> bool:
        """Return whether some complete build holds the picks and the option."""
        return bool(self._row(picks)[self.network.at(*option)])


def together(diagram: Diagram, picks: Picks) -> Flags:
    """Return, for each two options, whether some complete build with the picks holds both.

    Notes
    -----
    One sweep: each node carries the set of options on its ways to the end, as bits; two options
    go together if an arc of the upper one leads to a node whose set holds the lower one.

    """
    size = len(diagram.network.labels)
    pairs = np.zeros((size, size), dtype=np.bool_)
    if diagram.empty or not diagram.layers:
        return pairs
    mask = diagram.network.mask(picks)
    below = builds_below(diagram, mask) > 0
    above = builds_above(diagram, mask) > 0
    alive = (above[diagram.parent] & below[diagram.child] & mask[diagram.option]).astype(np.bool_)
    own = _bits(size)
    sets = np.zeros((diagram.nodes, own.shape[1]), dtype=np.uint64)
    passing = np.zeros((diagram.parent.size, own.shape[1]), dtype=np.uint64)
    for layer in reversed(diagram.layers):
        here = sets[diagram.child[layer.arcs]] | own[diagram.option[layer.arcs]]
        here[~alive[layer.arcs]] = 0
        passing[layer.arcs] = here
        sets[layer.nodes] = np.bitwise_or.reduceat(here, layer.starts, axis=0)
    found = np.bitwise_or.reduceat(passing[diagram.by_option], diagram.option_starts, axis=0)
    unpacked = np.unpackbits(found.view(np.uint8), axis=1, bitorder="little")[:, :size]
    pairs[diagram.option_present] = unpacked.astype(np.bool_)
    return pairs | pairs.T


def _bits(size: int) -> npt.NDArray[np.uint64]:
    flat = np.zeros((size, -(-size // 64) * 64), dtype=np.uint8)
    flat[np.arange(size), np.arange(size)] = 1
    return np.packbits(flat, axis=1, bitorder="little").view(np.uint64)


def rules_out(diagram: Diagram, picks: Picks) -> dict[tuple[str, str], tuple[tuple[str, str], ...]]:
    """Return, for each option of an open system that is still possible, what taking it rules out.

    Only options that are possible now are listed as ruled out, and only those of other systems.
    """
    pairs = together(diagram, picks)
    labels = diagram.network.labels
    possible = pairs.diagonal()
    lost = possible[:, np.newaxis] & possible[np.newaxis, :] & ~pairs
    for system in diagram.network.systems:
        block = diagram.network.block(system)
        lost[block, block] = False
    return {
        labels[place]: tuple(labels[other] for other in np.flatnonzero(lost[place]))
        for place in np.flatnonzero(possible)
        if labels[place][0] not in picks
    }


@dataclass(frozen=True, kw_only=True)
class Narrowing:
    """How much deciding one system would narrow the rest."""

    system: str
    expected: float
    """Complete builds left on average once it is decided, each build being equally likely."""
    bits: float
    """Expected halvings of the number of complete builds."""


def decide_first(left: Remaining, picks: Picks) -> tuple[Narrowing, ...]:
    """Rank the open systems with a choice left, the most decisive first.

    Notes
    -----
    Expected remainder sum(c²)/N and entropy -sum(p log2 p) with p = c/N over the options' counts c
    (Shannon, "A mathematical theory of communication", 1948).

    """
    found = []
    for system, counts in left.counts.items():
        shares = [count / left.total for count in counts.values() if count and left.total]
        if system in picks or len(shares) < 2:
            continue
        expected = left.total * sum(share * share for share in shares)
        bits = -sum(share * log2(share) for share in shares)
        found.append(Narrowing(system=system, expected=expected, bits=bits))
    return tuple(sorted(found, key=lambda narrowing: narrowing.expected))
