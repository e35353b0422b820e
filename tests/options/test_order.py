from __future__ import annotations

from hypothesis import given
from tests.options.networks import networks, quick

from drybuild.options.network import Network, all_but
from drybuild.options.order import frontier_order


@quick
@given(networks())
def test_every_system_is_read_once(network):
    order = frontier_order(network)
    assert sorted(order) == sorted(network.systems)
    assert order == frontier_order(network)


def test_a_chain_is_read_along_its_length():
    names = [f"s{i}" for i in (3, 0, 5, 1, 4, 2)]
    options = dict.fromkeys(names, ("1", "2"))
    tables = tuple(
        all_but(options, [{f"s{i}": "1", f"s{i + 1}": "2"}], id=f"t{i}", reason="no")
        for i in range(5)
    )
    order = frontier_order(Network(options=options, tables=tables))
    assert order in (tuple(f"s{i}" for i in range(6)), tuple(f"s{i}" for i in range(5, -1, -1)))
