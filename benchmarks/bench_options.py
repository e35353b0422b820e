"""How long each answer of the options engine takes on invented clustered networks.

Run: ``python benchmarks/bench_options.py``. Each network has five clusters of systems joined
through hubs; each option has a hidden interface class in each table it stands in, classes decide
what goes together, a few combinations are excluded at random, and one planted build is allowed.
"""

from __future__ import annotations

import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from random import Random
from tempfile import TemporaryDirectory

import numpy as np

from drybuild.options.chooser import Chooser
from drybuild.options.conflicts import ways_out
from drybuild.options.diagram import Diagram, compile_network
from drybuild.options.network import Network, Table
from drybuild.options.pareto import additive_front
from drybuild.options.paths import cheapest, fewest_changes, k_cheapest, random_builds
from drybuild.options.queries import (
    Standing,
    consistent,
    decide_first,
    remaining,
    rules_out,
    together,
)
from drybuild.options.reasons import Reasons
from drybuild.present.verdict_texts import failing_words
from drybuild.session import Session

CLUSTERS = 5
NOISE = 0.02
CASES = (
    (1, 22, (3, 8), (30, 20, 10), 0.85),
    (2, 22, (3, 8), (60, 40, 20), 0.95),
    (5, 22, (3, 8), (40, 30, 20), 0.90),
    (4, 22, (3, 8), (100, 70, 40), 0.97),
    (2, 24, (8, 12), (34, 18, 8), 0.80),
)
"""Seed, systems, options of a system (from, to), tables, share of classes that fit."""


def clustered(
    seed: int,
    *,
    systems: int,
    options: tuple[int, int],
    tables: tuple[int, int, int],
    fit: float,
) -> Network:
    """Return an invented network; the same seed gives the same network.

    `tables` counts those over two, three and four systems; `fit` is the share of class
    combinations that go together.
    """
    random = np.random.default_rng(seed)
    sizes = random.integers(options[0], options[1] + 1, size=systems)
    names = {f"s{i:02}": tuple(f"o{j}" for j in range(size)) for i, size in enumerate(sizes)}
    planted = [int(random.integers(size)) for size in sizes]
    cluster = np.arange(systems) % CLUSTERS
    scopes: set[tuple[int, ...]] = set()
    for width, wanted in zip((2, 3, 4), tables, strict=True):
        target, tries = len(scopes) + wanted, 0
        while len(scopes) < target and (tries := tries + 1) < 4000:
            home = int(random.integers(CLUSTERS))
            members = np.flatnonzero(cluster == home)
            scope = set(random.choice(members, size=min(width, members.size), replace=False))
            if random.random() < 0.15:  # a hub of the next cluster joins in
                scope.remove(sorted(scope)[-1])
                scope.add((home + 1) % CLUSTERS)
            if len(scope) == width:
                scopes.add(tuple(int(system) for system in sorted(scope)))
    built = [_table(scope, sizes, planted, fit, random) for scope in sorted(scopes)]
    return Network(options=names, tables=tuple(built))


def _table(
    scope: tuple[int, ...],
    sizes: np.ndarray,
    planted: list[int],
    fit: float,
    random: np.random.Generator,
) -> Table:
    kinds = int(random.integers(2, 4))
    shape = [int(sizes[system]) for system in scope]
    classes = [random.integers(kinds, size=size) for size in shape]
    met = np.indices(shape)
    matching = random.random((kinds,) * len(scope)) < fit
    allowed = matching[tuple(kind[place] for kind, place in zip(classes, met, strict=True))]
    allowed &= random.random(shape) >= NOISE
    allowed[tuple(planted[system] for system in scope)] = True
    name = "-".join(f"s{system:02}" for system in scope)
    return Table(
        id=name,
        scope=tuple(f"s{system:02}" for system in scope),
        allowed=np.asarray(allowed, dtype=np.bool_),
        reason=f"the interfaces of {name} differ",
    )


class Times:
    """Times by question, printed as median, 95th percentile and longest."""

    def __init__(self) -> None:
        self.of: dict[str, list[float]] = {}

    @contextmanager
    def taking(self, name: str) -> Iterator[None]:
        """Time what stands in the block."""
        start = time.perf_counter()
        yield
        self.of.setdefault(name, []).append(time.perf_counter() - start)

    def show(self) -> None:
        """Print one line a question."""
        for name, seconds in self.of.items():
            median, high, longest = np.percentile(np.array(seconds) * 1e3, [50, 95, 100])
            print(f"  {name:34} {median:8.2f} {high:8.2f} {longest:8.2f} ms  n={len(seconds)}")


def click(diagram: Diagram, reasons: Reasons, picks: dict[str, str], times: Times) -> None:
    """Answer everything that a screen shows after one pick."""
    with times.taking("click: all below together"):
        with times.taking("  counts of every option"):
            left = remaining(diagram, picks)
        with times.taking("  what each option rules out"):
            rules_out(diagram, picks)
        with times.taking("  decide first"):
            decide_first(left, picks)
        with times.taking("  reasons of impossible options"):
            reasons.why_not(left.impossible(), picks)


def walk(diagram: Diagram, reasons: Reasons, seed: int, times: Times) -> None:
    """Pick one possible option after another at random until all systems are settled."""
    random = Random(seed)
    picks: dict[str, str] = {}
    click(diagram, reasons, picks, times)
    for system in random.sample(diagram.network.systems, len(diagram.network.systems)):
        picks[system] = random.choice(remaining(diagram, picks).possible(system))
        click(diagram, reasons, picks, times)


def rest(diagram: Diagram, times: Times) -> None:
    """Time what is asked now and then."""
    random = np.random.default_rng(7)
    network = diagram.network
    price, mass = (
        {
            s: {o: float(random.integers(0, 400)) for o in opts}
            for s, opts in network.options.items()
        }
        for _ in range(2)
    )
    for seed in range(5):
        wishes = dict(Random(seed).sample(network.labels, len(network.systems) // 2))
        with times.taking("cheapest completion"):
            cheapest(diagram, price)
        with times.taking("fewest changes to wishes"):
            fewest_changes(diagram, wishes)
        with times.taking("three lightest ways out"):
            ways_out(
                tuple(wishes.items()),
                lambda kept: consistent(diagram, dict(kept)),
                [1.0] * len(wishes),
            )
        with times.taking("200 random builds"):
            random_builds(diagram, 200, seed)
    with times.taking("50 cheapest"):
        k_cheapest(diagram, price, 50)
    with times.taking("front of price and mass"):
        additive_front(diagram, price, mass)


def example(folder: Path) -> None:
    """Time the first tabulation of an example build, the one from disk, and a walk through it."""
    with TemporaryDirectory() as kept:
        for words in ("judged anew", "kept on disk"):
            session = Session.open(folder)
            chooser = Chooser(session.evaluation, session.checks, failing_words, Path(kept))
            start = time.perf_counter()
            network = chooser.tabulated.network
            print(
                f"{folder.name}: {len(network.tables)} tables, {words}, "
                f"{time.perf_counter() - start:.2f} s"
            )
    state = chooser.state({})
    print(f"{folder.name}: {len(network.labels)} options, {state.total:,} builds")
    for words in ("first time", "warm"):
        times = Times()
        for seed in range(4):
            picks: dict[str, str] = {}
            for system in Random(seed).sample(network.systems, len(network.systems)):
                picks[system] = Random(seed).choice(chooser.state(picks).possible[system])
                with times.taking(f"click with all reasons, {words}"):
                    found = chooser.state(picks)
                    for reason in found.reasons.values():
                        reason.sentences()
        times.show()


def main() -> None:
    """Time a few networks and the example builds, and print the figures."""
    for seed, systems, options, tables, fit in CASES:
        network = clustered(seed, systems=systems, options=options, tables=tables, fit=fit)
        start = time.perf_counter()
        diagram = compile_network(network)
        compiled = time.perf_counter() - start
        print(
            f"seed {seed}: {len(network.labels)} options, {len(network.tables)} tables, "
            f"{remaining(diagram, {}).total:,} builds, {diagram.nodes} nodes, "
            f"{diagram.parent.size} arcs, compiled in {compiled:.2f} s"
        )
        reasons = Reasons(network, Standing(diagram), together(diagram, {}))
        reasons.why_not(remaining(diagram, {}).impossible(), {})  # as when a build is opened
        times = Times()
        for round_ in range(4):
            walk(diagram, reasons, round_, times)
        rest(diagram, times)
        times.show()
    for name in ("estate", "roadster"):
        example(Path(__file__).parents[1] / "examples" / name)


if __name__ == "__main__":
    main()
