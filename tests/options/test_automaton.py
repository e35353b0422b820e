from __future__ import annotations

import numpy as np
from hypothesis import given
from hypothesis import strategies as st
from tests.options.networks import quick

from drybuild.options.automaton import automaton, distinct


@quick
@given(st.lists(st.integers(1, 3), min_size=1, max_size=4), st.integers(0, 999), st.randoms())
def test_an_automaton_accepts_what_the_table_allows(shape, seed, random):
    allowed = np.random.default_rng(seed).random(shape) < 0.6
    positions = list(range(10, 10 + len(shape)))
    random.shuffle(positions)
    read = automaton(np.asarray(allowed), tuple(positions))
    order = np.argsort(positions)
    for place in np.ndindex(*shape):
        state = -1 if read.empty else 0
        for level, axis in enumerate(order):
            if state >= 0:
                state = int(read.steps[level][state, place[axis]])
        assert (state >= 0) == allowed[place]


def test_equal_endings_share_a_state():
    classes = np.array([0, 1, 0, 1, 0])
    allowed = classes[:, None] == classes[None, :]
    assert automaton(allowed, (0, 1)).steps[1].shape == (2, 5)


@quick
@given(st.lists(st.tuples(*[st.integers(-1, 2)] * 3), min_size=1, max_size=20))
def test_distinct_rows(rows):
    matrix = np.array(rows, dtype=np.int64)
    first, kind = distinct(matrix)
    assert len(first) == len(set(rows))
    assert (matrix[first[kind]] == matrix).all()
