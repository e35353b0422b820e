"""A memory of results that keeps to its room."""

from dataclasses import dataclass
from types import SimpleNamespace
from typing import cast

import numpy as np

from drybuild.quantities.graph import Result
from drybuild.quantities.recent import Recent, weight


@dataclass
class Sides:
    left: object
    right: object


def result(value: object) -> Result:
    return cast(Result, SimpleNamespace(value=value))


def test_arrays_are_weighed_wherever_they_are():
    inside = Sides(left=np.zeros(100), right=(np.zeros(50), {"a": np.zeros(25)}))
    assert weight({"one": inside, "two": "words", "three": None}) == 8 * 175


def test_the_oldest_go_when_there_are_too_many():
    memory = Recent(8)
    for number in range(20):
        memory[("one", number)] = result(np.zeros(1))
        assert len(memory) <= 8
    assert ("one", 19) in memory
    assert ("one", 0) not in memory


def test_what_is_asked_for_stays():
    memory = Recent(8)
    for number in range(20):
        memory[("one", number)] = result(np.zeros(1))
        assert memory.get(("one", 0)) is not None
    assert len(memory) <= 8
    assert memory.get(("one", 1), "gone") == "gone"


def test_the_oldest_go_when_they_take_too_much_room():
    memory = Recent(1000, 8_000)
    for number in range(50):
        memory[("one", number)] = result(np.zeros(100))
    assert sum(weight(one.value) for one in memory.values()) <= 8_000
    assert ("one", 49) in memory
    memory[("large",)] = result(np.zeros(5_000))  # larger than the room: kept alone
    assert list(memory) == [("large",)]
