"""Small random networks, and the plain way to list their complete builds."""

from __future__ import annotations

from itertools import product

import numpy as np
from hypothesis import settings
from hypothesis import strategies as st

from drybuild.options.network import Network, Table

Build = dict[str, str]

quick = settings(max_examples=40, deadline=None)


@st.composite
def networks(draw, most_systems: int = 5, most_options: int = 3, most_tables: int = 7) -> Network:
    sizes = draw(st.lists(st.integers(1, most_options), min_size=1, max_size=most_systems))
    options = {f"s{i}": tuple(f"s{i}o{j}" for j in range(size)) for i, size in enumerate(sizes)}
    names = st.lists(st.sampled_from(sorted(options)), unique=True, min_size=1, max_size=4)
    tables = []
    for number, scope in enumerate(draw(st.lists(names, max_size=most_tables))):
        shape = tuple(len(options[system]) for system in scope)
        random = np.random.default_rng(draw(st.integers(0, 2**32)))
        allowed = random.random(shape) < draw(st.sampled_from([0.5, 0.7, 0.9, 1.0]))
        tables.append(
            Table(id=f"t{number}", scope=tuple(scope), allowed=np.asarray(allowed), reason="no")
        )
    return Network(options=options, tables=tuple(tables))


@st.composite
def picks_of(draw, network: Network, most: int = 4) -> Build:
    systems = draw(st.lists(st.sampled_from(network.systems), unique=True, max_size=most))
    return {system: draw(st.sampled_from(network.options[system])) for system in systems}


@st.composite
def networks_with_picks(draw) -> tuple[Network, Build]:
    network = draw(networks())
    return network, draw(picks_of(network))


def allows(network: Network, build: Build, tables: set[str] | None = None) -> bool:
    return all(
        table.allowed[tuple(network.options[s].index(build[s]) for s in table.scope)]
        for table in network.tables
        if tables is None or table.id in tables
    )


def all_builds(network: Network) -> list[Build]:
    every = (
        dict(zip(network.systems, chosen, strict=True))
        for chosen in product(*network.options.values())
    )
    return [build for build in every if allows(network, build)]


def holding(builds: list[Build], picks: Build) -> list[Build]:
    return [build for build in builds if picks.items() <= build.items()]


def weights_for(network: Network, seed: int) -> dict[str, dict[str, float]]:
    random = np.random.default_rng(seed)
    return {
        system: {option: float(random.integers(0, 30)) / 2 for option in options}
        for system, options in network.options.items()
    }


def weigh(weights: dict[str, dict[str, float]], build: Build) -> float:
    return sum(weights[system][option] for system, option in build.items())
