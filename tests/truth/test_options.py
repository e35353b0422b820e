"""Choosing parts against results that are not ours: puzzles, worked conflicts, feature models."""

from __future__ import annotations

import csv
from itertools import combinations

import numpy as np
import pytest

from drybuild.options.conflicts import all_clashes, preferred_conflict, ways_out
from drybuild.options.diagram import compile_network
from drybuild.options.network import Network, Table
from drybuild.options.queries import remaining
from tests.truth.data import truth_data

Clause = tuple[int, ...]


def count(network: Network) -> int:
    return remaining(compile_network(network), {}).total


def pair(one: str, other: str, allowed: np.ndarray) -> Table:
    return Table(
        id=f"{one}-{other}",
        scope=(one, other),
        allowed=np.asarray(allowed, dtype=np.bool_),
        reason="the puzzle says so",
    )


def colourings(edges: list[tuple[str, str]], alone: tuple[str, ...] = ()) -> int:
    names = dict.fromkeys([name for edge in edges for name in edge] + list(alone))
    options = dict.fromkeys(names, ("red", "green", "blue"))
    tables = tuple(pair(one, other, ~np.eye(3, dtype=np.bool_)) for one, other in edges)
    return count(Network(options=options, tables=tables))


# N. J. A. Sloane's encyclopaedia of integer sequences, A000170: ways of placing n queens so that
# none attacks another (from memory).
@pytest.mark.parametrize(("size", "ways"), [(4, 2), (5, 10), (6, 4), (7, 40), (8, 92)])
def test_queens(size, ways):
    rows = [f"row {row}" for row in range(size)]
    options = dict.fromkeys(rows, tuple(str(place) for place in range(size)))
    place = np.arange(size)
    apart = np.abs(place[:, None] - place[None, :])
    tables = tuple(
        pair(rows[one], rows[other], (apart != 0) & (apart != other - one))
        for one, other in combinations(range(size), 2)
    )
    assert count(Network(options=options, tables=tables)) == ways


def test_three_colourings_of_the_petersen_graph():
    # The chromatic polynomial of the Petersen graph at 3 is 120 (a standard result, from memory).
    outer = [(f"o{i}", f"o{(i + 1) % 5}") for i in range(5)]
    inner = [(f"i{i}", f"i{(i + 2) % 5}") for i in range(5)]
    spokes = [(f"o{i}", f"i{i}") for i in range(5)]
    assert colourings(outer + inner + spokes) == 120


def test_three_colourings_of_the_map_of_australia():
    # Russell and Norvig, "Artificial Intelligence: A Modern Approach", constraint satisfaction
    # chapter: the map-colouring problem has 18 solutions with Tasmania free (from memory).
    edges = ["WA-NT", "WA-SA", "NT-SA", "NT-Q", "SA-Q", "SA-NSW", "SA-V", "Q-NSW", "NSW-V"]
    assert colourings([tuple(edge.split("-")) for edge in edges], alone=("T",)) == 18  # type: ignore[misc]


# O'Sullivan, Papadopoulos, Faltings, Pu, "Representative explanations for over-constrained
# problems", AAAI 2007: the four conflicts of the car example as printed; the relaxations are the
# minimal sets that meet all four, computed.
CAR_WISHES = ("budget", "rack", "convertible", "player", "leather")
CAR_COSTS = {"rack": 500, "convertible": 500, "player": 500, "leather": 2600}
CAR_CONFLICTS = {
    frozenset({"rack", "convertible"}),
    frozenset({"budget", "rack", "leather"}),
    frozenset({"budget", "convertible", "leather"}),
    frozenset({"budget", "player", "leather"}),
}
CAR_WAYS_OUT = {
    frozenset({"budget", "rack"}),
    frozenset({"budget", "convertible"}),
    frozenset({"rack", "leather"}),
    frozenset({"convertible", "leather"}),
    frozenset({"rack", "convertible", "player"}),
}


def car_fits(kept: tuple[str, ...]) -> bool:
    wished = set(kept)
    cost = sum(CAR_COSTS.get(wish, 0) for wish in wished)
    return not {"rack", "convertible"} <= wished and ("budget" not in wished or cost <= 3000)


def test_every_conflict_and_way_out_of_the_car_example():
    found = all_clashes(CAR_WISHES, car_fits)
    assert {frozenset(conflict) for conflict in found.conflicts} == CAR_CONFLICTS
    assert {frozenset(way) for way in found.ways_out} == CAR_WAYS_OUT


def test_the_lightest_ways_out_of_the_car_example():
    found = ways_out(CAR_WISHES, car_fits, [1.0] * 5, most=4)
    assert {frozenset(way) for way in found} == {way for way in CAR_WAYS_OUT if len(way) == 2}


# Junker, "QuickXplain", AAAI-04, tables 1 and 2: costs of five wishes; the cap of 3000 is from
# memory. In the printed order the preferred conflict is the first and the last wish; the tables
# print the running sums 500, 1000, 1800, 2300, 4900 and the conflict of the last two, 3100, found
# when the order is turned round.
JUNKER_COSTS = (500, 500, 800, 500, 2600)


def junker_fits(kept: tuple[int, ...]) -> bool:
    return sum(JUNKER_COSTS[wish - 1] for wish in kept) <= 3000


def test_preferred_conflict_of_the_published_example():
    assert preferred_conflict((1, 2, 3, 4, 5), junker_fits) == (1, 5)
    assert preferred_conflict((5, 4, 3, 2, 1), junker_fits) == (5, 4)
    assert np.cumsum(JUNKER_COSTS).tolist() == [500, 1000, 1800, 2300, 4900]


def test_all_conflicts_of_the_published_example():
    found = all_clashes((1, 2, 3, 4, 5), junker_fits)
    assert set(found.conflicts) == {(1, 5), (2, 5), (3, 5), (4, 5)}
    assert set(found.ways_out) == {(5,), (1, 2, 3, 4)}


# Feature models of the SoftVarE-Group feature-model-benchmark (MIT licence): its statistics list
# the number of decimal digits of each count; the exact counts were computed with an independent
# decision-diagram package. pc-richmond is not used: its clauses have more variables than features.
MODELS = [
    "CVE_VarelaVaca2020-2009-2336",
    "berkeleydb_Hierons2020",
    "e_shop_Lau2006",
    "printer_Mendonca2009",
    "bank_AlHajjaji2019",
    "subseacontrolsystem_Mendonca2009",
    "routefinding_Mendonca2009",
    "android_Mendonca2009-6",
    "xtext_Mendonca2009",
    "FinancialServices01_Nieke2018-2017-05-22",
]
WIDEST = 12
"""A clause over more features than this is cut up, as its table would be too large."""


def clauses_of(text: str) -> list[Clause]:
    lines = (line for line in text.splitlines() if line and line[0] not in "cp")
    return [tuple(int(word) for word in line.split()[:-1]) for line in lines]


def network_of(clauses: list[Clause]) -> Network:
    """Each feature is a system with the options no and yes; each clause a table.

    A wide clause becomes a chain: the system "c.3" tells whether one of the first literals holds,
    which the features settle, so that the count stays.
    """
    names = {abs(literal) for clause in clauses for literal in clause}
    options = {str(name): ("no", "yes") for name in sorted(names)}
    tables: list[Table] = []
    for number, clause in enumerate(clauses):
        if len(clause) <= WIDEST:
            tables.append(clause_table(f"{number}", clause))
            continue
        before = str(abs(clause[0]))
        holds = np.array([clause[0] < 0, clause[0] > 0])
        for step, literal in enumerate(clause[1:]):
            after = f"{number}.{step}"
            options[after] = ("no", "yes")
            tables.append(either(after, before, holds, literal))
            before, holds = after, np.array([False, True])
        tables.append(
            Table(id=f"{number}", scope=(before,), allowed=holds, reason="the clause must hold")
        )
    return Network(options=options, tables=tuple(tables))


def clause_table(id: str, clause: Clause) -> Table:
    allowed = np.ones((2,) * len(clause), dtype=np.bool_)
    allowed[tuple(0 if literal > 0 else 1 for literal in clause)] = False
    return Table(
        id=id, scope=tuple(str(abs(lit)) for lit in clause), allowed=allowed, reason="a clause"
    )


def either(after: str, before: str, holds: np.ndarray, literal: int) -> Table:
    here = np.array([literal < 0, literal > 0])
    met = holds[:, None] | here[None, :]
    return Table(
        id=after,
        scope=(before, str(abs(literal)), after),
        allowed=np.stack([~met, met], axis=2),
        reason="a clause",
    )


@pytest.mark.parametrize("name", MODELS)
def test_counts_of_feature_models(name):
    folder = truth_data("planning/feature_models/counts.csv").parent
    text = truth_data(f"planning/feature_models/{name}.dimacs").read_text(encoding="utf-8")
    with (folder / "counts.csv").open(encoding="utf-8", newline="") as file:
        row = next(row for row in csv.DictReader(file) if row["file"] == name)
    found = count(network_of(clauses_of(text)))
    assert found == int(row["count_computed_here"])
    assert len(str(found)) == int(row["listed_log10_or_digits"])
