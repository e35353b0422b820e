"""A table as a small automaton: read the options one system at a time, remember only what matters.

Two beginnings of a combination that allow the same endings share a state, so a table over four
systems that really depends on two interface classes has two states, not hundreds.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TypeAlias

import numpy as np
import numpy.typing as npt

from drybuild.options.network import Flags

Places: TypeAlias = npt.NDArray[np.int64]

DEAD = -1
"""Marks a step that no allowed combination takes."""


@dataclass(frozen=True, eq=False)
class Automaton:
    """The allowed combinations of a table, read in the order of the systems' positions."""

    positions: tuple[int, ...]
    steps: tuple[Places, ...]
    """``steps[level][state, option]`` is the state after it, or `DEAD`; the start is state 0."""

    @property
    def empty(self) -> bool:
        """Whether the table allows nothing at all."""
        return bool(self.steps) and self.steps[0].shape[0] == 0


def automaton(allowed: Flags, positions: tuple[int, ...]) -> Automaton:
    """Return the reduced automaton of a table.

    Parameters
    ----------
    allowed : array of bool
        One axis a system. [-]
    positions : tuple of int
        Position of each axis' system in the reading order. [-]

    """
    axes = np.argsort(positions)
    after: Places = np.where(allowed.transpose(axes), 0, DEAD).astype(np.int64)
    steps: list[Places] = []
    while after.ndim:
        rows = after.reshape(-1, after.shape[-1])
        states, number = reduce_rows(rows)
        steps.insert(0, states)
        after = number.reshape(after.shape[:-1])
    return Automaton(tuple(positions[axis] for axis in axes), tuple(steps))


def reduce_rows(rows: Places) -> tuple[Places, Places]:
    """Return the distinct rows that are not dead throughout, and the number of each row (or dead).

    Parameters
    ----------
    rows : array of int
        One row a state, one column an option. [-]

    """
    number = np.full(rows.shape[0], DEAD, dtype=np.int64)
    alive = np.flatnonzero((rows >= 0).any(axis=1))
    living = rows[alive]
    first, inverse = distinct(living)
    number[alive] = inverse
    return living[first], number


# Odd constants near 2^64 / golden ratio and their kin; any odd numbers would do, as a clash of
# hashes is looked for and mended below.
_MIX = np.random.default_rng(2**31 - 1).integers(1, 2**63, size=4096, dtype=np.uint64) | np.uint64(
    1
)
_SPIN = np.uint64(0x9E3779B97F4A7C15)
_SHIFT = np.uint64(29)


def distinct(rows: Places) -> tuple[Places, Places]:
    """Return the index of the first of each kind of row, and the kind of each row.

    Parameters
    ----------
    rows : array of int
        A matrix; rows are compared whole. [-]

    Notes
    -----
    Sorting one 64-bit hash a row is several times faster than sorting the rows. Equality within
    a hash is verified, so the answer is exact whatever the hash does.

    """
    if rows.shape[1] == 1 or rows.shape[0] == 0:
        _, first, inverse = np.unique(rows[:, :1].ravel(), return_index=True, return_inverse=True)
        return first.astype(np.int64), inverse.astype(np.int64)
    mixed = (rows.astype(np.uint64) + np.uint64(1)) * _SPIN
    mixed ^= mixed >> _SHIFT
    hashes = (mixed * _MIX[: rows.shape[1]]).sum(axis=1, dtype=np.uint64)
    _, first, inverse = np.unique(hashes, return_index=True, return_inverse=True)
    if not np.array_equal(rows[first[inverse]], rows):
        _, first, inverse = np.unique(rows, axis=0, return_index=True, return_inverse=True)
    return first.astype(np.int64), inverse.reshape(-1).astype(np.int64)
