"""The diagram against solvers that are not ours, on small clustered networks."""

from __future__ import annotations

from random import Random

import numpy as np
import pytest
from ortools.sat.python import cp_model
from tests.options.networks import weights_for

from drybuild.options.diagram import compile_network
from drybuild.options.fallback import Clauses
from drybuild.options.network import Network, Table
from drybuild.options.paths import cheapest, fewest_changes
from drybuild.options.queries import remaining

Builds = list[dict[str, str]]


def clustered(seed: int, systems: int = 9, tables: int = 14) -> Network:
    random = np.random.default_rng(seed)
    sizes = random.integers(2, 5, size=systems)
    options = {f"s{i}": tuple(f"o{j}" for j in range(size)) for i, size in enumerate(sizes)}
    made = []
    for number in range(tables):
        first = int(random.integers(systems - 3))
        width = int(random.integers(2, 5))
        scope = tuple(f"s{i}" for i in range(first, min(first + width, systems)))
        allowed = random.random([len(options[s]) for s in scope]) < 0.8
        made.append(Table(id=f"t{number}", scope=scope, allowed=np.asarray(allowed), reason="no"))
    return Network(options=options, tables=tuple(made))


class Model:
    """The network as allowed assignments of a CP-SAT model."""

    def __init__(self, network: Network) -> None:
        self.network = network
        self.model = cp_model.CpModel()
        self.of = {
            system: self.model.new_int_var(0, len(options) - 1, system)
            for system, options in network.options.items()
        }
        for table in network.tables:
            rows = [tuple(map(int, row)) for row in np.argwhere(table.allowed)]
            self.model.add_allowed_assignments([self.of[s] for s in table.scope], rows)

    def pick(self, system: str, option: str) -> None:
        self.model.add(self.of[system] == self.network.options[system].index(option))

    def solve(self) -> cp_model.CpSolver | None:
        solver = cp_model.CpSolver()
        solver.parameters.num_workers = 1
        status = solver.solve(self.model)
        return solver if status in (cp_model.OPTIMAL, cp_model.FEASIBLE) else None

    def count(self) -> int:
        found = _Counter()
        solver = cp_model.CpSolver()
        solver.parameters.enumerate_all_solutions = True
        solver.parameters.num_workers = 1
        solver.solve(self.model, found)
        return found.number


class _Counter(cp_model.CpSolverSolutionCallback):
    def __init__(self) -> None:
        super().__init__()
        self.number = 0

    def on_solution_callback(self) -> None:
        self.number += 1


@pytest.mark.parametrize("seed", [0, 1, 3, 5])
def test_the_count_agrees_with_listing_by_cp_sat(seed):
    network = clustered(seed)
    total = remaining(compile_network(network), {}).total
    assert 0 < total < 60_000
    assert Model(network).count() == total


@pytest.mark.parametrize("seed", range(4))
def test_possible_options_agree_with_cp_sat_and_with_clauses(seed):
    network = clustered(seed)
    random = Random(seed)
    picks = {s: random.choice(network.options[s]) for s in random.sample(network.systems, 2)}
    left = remaining(compile_network(network), picks)
    shown = Clauses(network).possible(picks)
    for system, options in network.options.items():
        assert shown[system] == left.possible(system)
        for option in options:
            model = Model(network)
            for pick in {**picks, system: option}.items():
                model.pick(*pick)
            assert (model.solve() is not None) == (left.counts[system][option] > 0)


@pytest.mark.parametrize("seed", range(4))
def test_the_cheapest_build_agrees_with_cp_sat(seed):
    network = clustered(seed, systems=14, tables=24)
    weights = weights_for(network, seed)
    model = Model(network)
    price = []
    for system, options in network.options.items():
        doubled = [round(2 * weights[system][option]) for option in options]  # they are halves
        cost = model.model.new_int_var(0, max(doubled), f"cost of {system}")
        model.model.add_element(model.of[system], doubled, cost)
        price.append(cost)
    model.model.minimize(sum(price))
    best = cheapest(compile_network(network), weights)
    solver = model.solve()
    assert (best is None) == (solver is None)
    if best is not None and solver is not None:
        assert best.sums[0] == pytest.approx(solver.objective_value / 2)


@pytest.mark.parametrize("seed", range(4))
def test_the_fewest_changes_agree_with_cp_sat(seed):
    network = clustered(seed, systems=12, tables=20)
    random = Random(seed)
    wishes = {s: random.choice(network.options[s]) for s in network.systems}
    model = Model(network)
    kept = []
    for system, option in wishes.items():
        keeps = model.model.new_bool_var(f"keeps {system}")
        place = network.options[system].index(option)
        model.model.add(model.of[system] == place).only_enforce_if(keeps)
        kept.append(keeps)
    model.model.maximize(sum(kept))
    found = fewest_changes(compile_network(network), wishes)
    solver = model.solve()
    assert (found is None) == (solver is None)
    if found is not None and solver is not None:
        assert len(wishes) - len(found.dropped) == solver.objective_value
