"""The network of jobs against an independent graph library."""

import networkx
import numpy as np
import pytest

from drybuild.planning.network import all_before, critical_path
from drybuild.project.succession import circle, order


@pytest.mark.parametrize("seed", range(8))
def test_length_and_order_agree_with_networkx(seed: int) -> None:
    rng = np.random.default_rng(seed)
    count = 40
    after = {
        f"j{i}": tuple(f"j{k}" for k in sorted(set(rng.integers(0, i, min(i, 3)).tolist())))
        for i in range(count)
    }
    durations = {name: float(rng.uniform(0.0, 10.0)) for name in after}
    graph = networkx.DiGraph()
    graph.add_edges_from(
        (earlier, name, {"weight": durations[earlier]})
        for name, before in after.items()
        for earlier in before
    )
    graph.add_edges_from((name, "end", {"weight": durations[name]}) for name in after)
    found = critical_path(durations, after)
    assert found.length == pytest.approx(networkx.dag_longest_path_length(graph))
    longest = networkx.dag_longest_path(graph)[:-1]
    assert set(longest) <= set(found.critical)
    place = {name: i for i, name in enumerate(order(after))}
    assert all(place[a] < place[b] for a, b in graph.edges if b != "end")
    assert all_before("j39", after) == networkx.ancestors(graph, "j39")


def test_circles_agree_with_networkx() -> None:
    rng = np.random.default_rng(11)
    for _ in range(30):
        after = {f"j{i}": tuple(f"j{k}" for k in rng.integers(0, 9, 1)) for i in range(9)}
        graph = networkx.DiGraph((earlier, job) for job, b in after.items() for earlier in b)
        ours = circle(after)
        assert ours
        assert list(ours[:-1]) in [
            cycle[shift:] + cycle[:shift]
            for cycle in networkx.simple_cycles(graph)
            for shift in range(len(cycle))
        ]
