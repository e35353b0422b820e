"""Single complete builds: the cheapest, the nearest to the wishes, the n-th, any at random."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from random import Random

import numpy as np

from drybuild.options.automaton import Places
from drybuild.options.diagram import Diagram
from drybuild.options.labels import Candidate, Costs, Weights, best_builds, fewest, row_of_weights
from drybuild.options.network import Flags, Picks
from drybuild.options.queries import builds_below

NO_PICKS: Mapping[str, str] = {}


def cheapest(diagram: Diagram, weights: Weights, picks: Picks = NO_PICKS) -> Candidate | None:
    """Return a complete build with the smallest sum of weights, or None if there is none.

    Ties go to the option that stands first.
    """
    row = row_of_weights(diagram.network, weights)
    return _walk_down(diagram, row, diagram.network.mask(picks))


def k_cheapest(
    diagram: Diagram, weights: Weights, number: int, picks: Picks = NO_PICKS
) -> list[Candidate]:
    """Return the given number of complete builds with the smallest sums, the smallest first."""
    return best_builds(diagram, [weights], picks, fewest(number))


def cheapest_with(
    diagram: Diagram, weights: Weights, picks: Picks = NO_PICKS
) -> dict[str, dict[str, float]]:
    """Return, for each possible option, the smallest sum of a complete build that holds it."""
    network = diagram.network
    row, mask = row_of_weights(network, weights), network.mask(picks)
    below = _least_below(diagram, row, mask)
    above = _least_above(diagram, row, mask)
    least = np.full(mask.size, np.inf)
    if not diagram.empty and diagram.layers:
        through = above[diagram.parent] + below[diagram.child]
        least[diagram.option_present] = np.minimum.reduceat(
            through[diagram.by_option], diagram.option_starts
        )
    least = np.where(mask, least + row, np.inf)
    found: dict[str, dict[str, float]] = {system: {} for system in network.systems}
    for (system, option), total in zip(network.labels, least.tolist(), strict=True):
        if total < np.inf:
            found[system][option] = total
    return found


def least_worst(
    diagram: Diagram, weights: Weights, picks: Picks, then: Weights
) -> Candidate | None:
    """Return the build whose largest weight is the smallest; among those the cheapest by `then`.

    Its sum is that largest weight: with lead times, when the last part is there.
    """
    network = diagram.network
    row, mask = row_of_weights(network, weights), network.mask(picks)
    worst = np.full(diagram.nodes, -np.inf)
    cost = np.where(mask, row, np.inf)[diagram.option]
    for layer in reversed(diagram.layers):
        if layer.starts.size:
            ahead = np.maximum(worst[diagram.child[layer.arcs]], cost[layer.arcs])
            worst[layer.nodes] = np.minimum.reduceat(ahead, layer.starts)
    if diagram.empty or worst[0] == np.inf:
        return None
    found = _walk_down(diagram, row_of_weights(network, then), mask & (row <= worst[0]))
    return found and Candidate(build=found.build, sums=(float(worst[0]),))


@dataclass(frozen=True, kw_only=True)
class Change:
    """The least that must give way for the wishes to fit."""

    build: dict[str, str]
    """A complete build that holds every wish but the dropped ones."""
    dropped: tuple[str, ...]
    """The systems whose wish gives way."""
    weight: float


def fewest_changes(
    diagram: Diagram, wishes: Picks, importance: Mapping[str, float] | None = None
) -> Change | None:
    """Return the lightest set of wishes to drop, with a build that keeps the rest.

    Parameters
    ----------
    diagram : Diagram
        The compiled network.
    wishes : picks
        The wished option of each system. [-]
    importance : mapping
        What dropping a system's wish counts; 1 where not given, so that the fewest go. [-]

    Notes
    -----
    A cheapest build, where each option that goes against a wish costs the wish's importance.

    """
    network = diagram.network
    row = np.zeros(len(network.labels))
    for system, option in wishes.items():
        row[network.block(system)] = (importance or {}).get(system, 1.0)
        row[network.at(system, option)] = 0.0
    found = _walk_down(diagram, row, np.ones(row.size, dtype=np.bool_))
    if found is None:
        return None
    dropped = tuple(system for system, wish in wishes.items() if found.build[system] != wish)
    return Change(build=found.build, dropped=dropped, weight=found.sums[0])


def _walk_down(diagram: Diagram, row: Costs, mask: Flags) -> Candidate | None:
    least = _least_below(diagram, row, mask)
    if diagram.empty or least[0] == np.inf:
        return None
    node, build = 0, {}
    for layer in diagram.layers:
        place = node - layer.nodes.start
        start = layer.arcs.start + int(layer.starts[place])
        last = place + 1 == layer.starts.size
        stop = layer.arcs.stop if last else layer.arcs.start + int(layer.starts[place + 1])
        option = diagram.option[start:stop]
        ahead = np.where(mask[option], row[option] + least[diagram.child[start:stop]], np.inf)
        arc = int(np.argmin(ahead))
        system, name = diagram.network.labels[option[arc]]
        build[system] = name
        node = int(diagram.child[start + arc])
    return Candidate(build=build, sums=(float(least[0]),))


def _least_below(diagram: Diagram, row: Costs, mask: Flags) -> Costs:
    least = np.zeros(diagram.nodes)
    cost = np.where(mask, row, np.inf)[diagram.option]
    for layer in reversed(diagram.layers):
        if layer.starts.size:
            ahead = least[diagram.child[layer.arcs]] + cost[layer.arcs]
            least[layer.nodes] = np.minimum.reduceat(ahead, layer.starts)
    return least


def _least_above(diagram: Diagram, row: Costs, mask: Flags) -> Costs:
    least = np.zeros(diagram.nodes)
    cost = np.where(mask, row, np.inf)
    for layer in diagram.layers:
        if layer.into.size:
            coming = least[diagram.parent[layer.into]] + cost[diagram.option[layer.into]]
            least[layer.below] = np.minimum.reduceat(coming, layer.into_starts)
    return least


def build_at(
    diagram: Diagram, ranks: Iterable[int], picks: Picks = NO_PICKS
) -> list[dict[str, str]]:
    """Return the complete builds of these ranks, from 0 to the total less one.

    Raises
    ------
    IndexError
        A rank is outside.

    """
    mask = diagram.network.mask(picks)
    below = builds_below(diagram, mask)
    total = 0 if diagram.empty else int(below[0])
    rest = np.array(list(ranks), dtype=diagram.integers)
    if rest.size and not (rest.min() >= 0 and rest.max() < total):
        raise IndexError(f"ranks run from 0 to {total - 1}")
    node = np.zeros(rest.size, dtype=np.int64)
    builds: list[dict[str, str]] = [{} for _ in range(rest.size)]
    for layer in diagram.layers:
        if not rest.size:
            break
        ahead = below[diagram.child[layer.arcs]] * mask[diagram.option[layer.arcs]]
        arc = layer.starts[node - layer.nodes.start]
        passing = rest >= ahead[arc]
        while passing.any():
            rest = np.where(passing, rest - ahead[arc], rest)
            arc = arc + passing
            passing = passing & (rest >= ahead[arc])
        node = diagram.child[layer.arcs][arc]
        _note(builds, diagram, arc + layer.arcs.start)
    return builds


def _note(builds: list[dict[str, str]], diagram: Diagram, arcs: Places) -> None:
    for build, place in zip(builds, diagram.option[arcs].tolist(), strict=True):
        system, option = diagram.network.labels[place]
        build[system] = option


def random_builds(
    diagram: Diagram, number: int, seed: int, picks: Picks = NO_PICKS
) -> list[dict[str, str]]:
    """Return complete builds drawn with equal odds, with repeats; none if there are none."""
    total = 0 if diagram.empty else int(builds_below(diagram, diagram.network.mask(picks))[0])
    draw = Random(seed)
    return build_at(diagram, [draw.randrange(total) for _ in range(number)] if total else [], picks)
