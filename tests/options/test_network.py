from __future__ import annotations

import numpy as np
import pytest

from drybuild.options.network import Network, NetworkError, Table, all_but

OPTIONS = {"a": ("1", "2"), "b": ("1", "2", "3")}


def table(scope, shape, name="t"):
    return Table(id=name, scope=scope, allowed=np.ones(shape, dtype=np.bool_), reason="no")


@pytest.mark.parametrize(
    ("tables", "words"),
    [
        ([table(("a", "c"), (2, 2))], "lacks"),
        ([table(("a", "b"), (3, 2))], "shape"),
        ([table(("a", "a"), (2, 2))], "shape"),
        ([table((), ())], "shape"),
        ([table(("a",), (2,)), table(("b",), (3,))], "same id"),
    ],
)
def test_tables_that_do_not_belong_are_refused(tables, words):
    with pytest.raises(NetworkError, match=words):
        Network(options=OPTIONS, tables=tuple(tables))


@pytest.mark.parametrize("options", [{"a": ()}, {"a": ("1", "1")}])
def test_systems_need_options_with_names_of_their_own(options):
    with pytest.raises(NetworkError, match="options"):
        Network(options=options)


def test_a_mask_leaves_only_the_pick():
    network = Network(options=OPTIONS)
    assert network.mask({"b": "2"}).tolist() == [True, True, False, True, False]
    with pytest.raises(NetworkError, match="no option"):
        network.mask({"b": "7"})


def test_all_but_excludes_what_it_is_told():
    made = all_but(OPTIONS, [{"b": "3", "a": "1"}], id="t", reason="too wide")
    assert made.scope == ("a", "b")
    assert made.allowed.tolist() == [[True, True, False], [True, True, True]]
    assert made.why({"a": "1"}) == "too wide"


@pytest.mark.parametrize("rows", [[], [{"a": "1"}, {"b": "1"}], [{"a": "9"}]])
def test_all_but_needs_combinations_that_exist(rows):
    with pytest.raises(NetworkError):
        all_but(OPTIONS, rows, id="t", reason="no")


def test_a_reason_can_look_at_the_combination():
    made = Table(
        id="t",
        scope=("a", "b"),
        allowed=np.ones((2, 3), dtype=np.bool_),
        reason=lambda picks: f"{sorted(picks)}",
    )
    assert made.why({"a": "1", "other": "x"}) == "['a']"
