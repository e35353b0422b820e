"""The graph: order, scope, memory, what is missing, circles."""

from __future__ import annotations

from types import ModuleType
from typing import Any

import numpy as np
import pytest
from tests.building import evaluate

from drybuild.errors import GraphError, InputError
from drybuild.project.samples import Values
from drybuild.quantities.graph import Evaluation, Graph
from drybuild.quantities.quantity import Quantity, quantity


def room(**functions: Any) -> ModuleType:  # any functions
    """Return a module with these quantities."""
    module = ModuleType("room")
    for name, one in functions.items():
        one.function.__module__ = "room"
        setattr(module, name, one)
    return module


def made(function: Any, unit: str = "kg", **words: Any) -> Quantity:  # as the decorator takes
    return quantity(unit, "a label", source="definition", **words)(function)


def test_quantities_are_ordered_by_their_needs() -> None:
    def first(second: Values) -> Values:
        return second

    def second(brief: Any) -> Values:
        return np.ones(3)

    graph = Graph((room(first=made(first), second=made(second)),))
    assert graph.order == ("second", "first")


def test_a_circle_is_named() -> None:
    def one(two: Values) -> Values:
        return two

    def two(one: Values) -> Values:
        return one

    with pytest.raises(GraphError, match="one -> two -> one"):
        Graph((room(one=made(one), two=made(two)),))


def test_a_need_that_nothing_provides_is_named() -> None:
    def one(no_such_thing: Values) -> Values:
        return no_such_thing

    with pytest.raises(GraphError, match="no_such_thing"):
        Graph((room(one=made(one)),))


def test_a_unit_that_is_none_is_refused() -> None:
    def one(brief: Any) -> Values:
        return np.ones(3)

    with pytest.raises(GraphError, match="unit"):
        Graph((room(one=made(one, unit="kilo")),))


def test_results_are_remembered_and_forgotten_by_what_they_rest_on() -> None:
    calls: list[int] = []

    def luggage(brief: Any) -> Values:
        calls.append(1)
        return np.asarray(brief.luggage)

    graph = Graph((room(luggage=made(luggage)),))
    evaluation = Evaluation(graph, evaluate().build, 20)
    first = evaluation.result("luggage")
    assert evaluation.result("luggage") is first
    assert first.inputs == {"brief.luggage"}
    evaluation.forget(frozenset({"brief.hot_day"}))
    assert evaluation.result("luggage") is first
    evaluation.forget(frozenset({"brief.luggage"}))
    evaluation.result("luggage")
    assert len(calls) == 2


def test_what_is_missing_makes_all_above_it_open() -> None:
    def below(brief: Any) -> Values:
        return np.asarray(brief.budget)

    def above(below: Values) -> Values:
        return below

    graph = Graph((room(below=made(below, unit="money"), above=made(above, unit="money")),))
    result = Evaluation(graph, evaluate().build, 20).result("above")
    assert result.open
    assert result.missing[0].path == "brief.budget"


def test_what_physics_refuses_is_open_with_its_words() -> None:
    def one(brief: Any) -> Values:
        raise InputError("length is -1 m; it must be zero or more")

    result = Evaluation(Graph((room(one=made(one)),)), evaluate().build, 20).result("one")
    assert result.open
    assert "zero or more" in result.missing[0].why


def test_a_scope_names_the_systems_and_an_aggregate_cuts_it() -> None:
    def whole(parts: Any) -> Values:
        return np.ones(3)

    def above(whole: Values, engine: Any) -> Values:
        return whole

    graph = Graph((room(whole=made(whole, aggregate=True), above=made(above)),))
    assert graph.scope("above") is None
    assert graph.scope("above", cut=True) == {"engine"}
