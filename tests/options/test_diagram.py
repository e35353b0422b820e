from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from tests.options.networks import networks, quick

from drybuild.options.diagram import TooLarge, compile_network
from drybuild.options.network import Network, Table


@quick
@given(networks())
def test_a_diagram_is_reduced(network):
    diagram = compile_network(network)
    for layer in diagram.layers:
        rows = set()
        for node in range(layer.nodes.start, layer.nodes.stop):
            arcs = np.flatnonzero(diagram.parent == node)
            assert arcs.size
            rows.add(tuple(zip(diagram.option[arcs], diagram.child[arcs], strict=True)))
        assert len(rows) == layer.nodes.stop - layer.nodes.start


def test_the_same_network_gives_the_same_diagram():
    random = np.random.default_rng(3)
    options = {f"s{i}": ("1", "2", "3") for i in range(8)}
    tables = tuple(
        Table(id=str(i), scope=(f"s{i}", f"s{(i + 3) % 8}"), allowed=random.random((3, 3)) < 0.7,
              reason="no")
        for i in range(8)
    )  # fmt: skip
    one, other = (compile_network(Network(options=options, tables=tables)) for _ in range(2))
    assert [layer.system for layer in one.layers] == [layer.system for layer in other.layers]
    assert (one.child == other.child).all()
    assert (one.option == other.option).all()


def test_a_network_that_grows_too_large_says_so():
    random = np.random.default_rng(3)
    systems = 14
    options = {f"s{i}": tuple("12345") for i in range(systems)}
    tables = tuple(
        Table(id=f"{i}-{j}", scope=(f"s{i}", f"s{j}"), allowed=random.random((5, 5)) < 0.9,
              reason="no")
        for i in range(systems)
        for j in range(i)
    )  # fmt: skip
    with pytest.raises(TooLarge, match="more than 1000"):
        compile_network(Network(options=options, tables=tables), limit=1000)
