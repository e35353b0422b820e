"""What is remembered by its content is told apart by all of it, and dropped when it is old."""

from __future__ import annotations

from dataclasses import dataclass
from functools import partial

import numpy as np
import pytest

from drybuild.keeping import Known, content_name


@dataclass(frozen=True, kw_only=True)
class Bar:
    name: str
    ends: tuple[np.ndarray, ...]


def bar(name: str = "bar", last: float = 2.0) -> Bar:
    return Bar(name=name, ends=(np.array([1.0, last]), np.zeros(2)))


def test_alike_contents_have_the_same_name() -> None:
    assert content_name(bar(), {"a": 1.0}) == content_name(bar(), {"a": 1.0})


@pytest.mark.parametrize(
    "other",
    [
        (bar(name="rod"),),
        (bar(last=2.0 + 1e-15),),
        (bar(), None),
        (np.array([1.0, 2.0]),),
        (np.array([[1.0, 2.0]]),),
        ((1.0, 2.0),),
        (1.0, 2.0),
        ("1.0", 2.0),
    ],
)
def test_another_content_has_another_name(other: tuple[object, ...]) -> None:
    names = {content_name(*one) for one in ((bar(),), (np.array([1, 2]),), other)}
    assert len(names) == 3


def test_what_does_not_tell_all_of_itself_has_no_name() -> None:
    with pytest.raises(TypeError, match="has no name by content"):
        content_name(bar(), object())


def test_the_last_ones_asked_for_are_known() -> None:
    done: list[str] = []

    def work(name: str) -> str | None:
        done.append(name)
        return None  # nothing is an outcome too, and is known

    known: Known[str | None] = Known(2)
    for name in ("a", "b", "a", "c", "a", "b"):
        known.of(name.encode(), partial(work, name))
    assert done == ["a", "b", "c", "b"]
    known.clear()
    known.of(b"b", lambda: work("b"))
    assert done[-2:] == ["b", "b"]
