"""Look-ups in curves that run along the first axis, with samples along the last."""

from __future__ import annotations

import numpy as np
import numpy.typing as npt

Array = npt.NDArray[np.float64]
Places = npt.NDArray[np.int64]


def look_up(*, table: Array, share: Array) -> Array:
    """Interpolate an evenly spaced table at shares of its length; ends are held.

    Parameters
    ----------
    table : array
        Values along the first axis. [any]
    share : array
        Where to look, from 0 to 1. [-]

    Returns
    -------
    array
        Values, of the shape of `share`. [as the table]

    """
    below, weight = position(share=share, points=len(table))
    return blend(table=table, below=below, weight=weight)


def position(*, share: Array, points: int) -> tuple[Places, Array]:
    """Return the point below each share of an evenly spaced table, and the weight of the next.

    Parameters
    ----------
    share : array
        Where to look, from 0 to 1. [-]
    points : int
        Points of the table. [-]

    Returns
    -------
    tuple
        Index of the point below, and weight of the one above it. [-]

    """
    along = np.clip(share, 0.0, 1.0) * (points - 1)
    below = np.minimum(along.astype(np.int64), points - 2)
    return below, along - below


def blend(*, table: Array, below: Places, weight: Array, samples: Places | None = None) -> Array:
    """Interpolate a table between the points found by `position`.

    Parameters
    ----------
    table : array
        Values along the first axis. [any]
    below : array
        Index of the point below. [-]
    weight : array
        Weight of the point above it. [-]
    samples : array or None
        Column of the table for each place; each its own along the last axis when left out. [-]

    Returns
    -------
    array
        Values, of the shape of `below`. [as the table]

    """
    low, high = _ends(table, below, samples)
    found: Array = low + weight * (high - low)
    return found


def resample(*, even: Array, along: Array, values: Array) -> Array:
    """Interpolate values at given places, sample by sample; ends are held.

    Parameters
    ----------
    even : array
        Places wanted. [any]
    along : array
        Places of the values, rising along the first axis. [as even]
    values : array
        Values there. [any]

    Returns
    -------
    array
        Values at `even`. [as the values]

    """
    below = np.zeros(even.shape, dtype=np.int64)
    for one in along[1:-1]:
        below += even >= one
    start, end = _ends(along, below)
    first, last = _ends(values, below)
    share = np.clip((even - start) / np.where(end > start, end - start, 1.0), 0.0, 1.0)
    found: Array = first + (last - first) * share
    return found


def between(*, along: Array, values: Array, wanted: Array) -> Array:
    """Interpolate values where their places pass a wanted one; nan outside.

    Parameters
    ----------
    along : array
        Places of the values, rising along the first axis. [any]
    values : array
        Values there. [any]
    wanted : array
        Place wanted, one a sample. [as along]

    Returns
    -------
    array
        One value a sample. [as the values]

    """
    along, values = np.broadcast_arrays(along, values)
    below = np.clip(np.sum(along <= wanted, axis=0) - 1, 0, len(along) - 2)
    start, end = _ends(along, below)
    first, last = _ends(values, below)
    step = np.where(end > start, end - start, 1.0)
    found = first + (last - first) * (wanted - start) / step
    return np.where((wanted <= along[-1]) & (wanted >= along[0]), found, np.nan)


def last_zero(*, along: Array, surplus: Array) -> Array:
    """Return where a surplus is last not negative, by a straight line; nan if it never is.

    Parameters
    ----------
    along : array
        Places, rising along the first axis. [any]
    surplus : array
        Surplus there. [any]

    Returns
    -------
    array
        One place a sample. [as along]

    """
    along, surplus = np.broadcast_arrays(along, surplus)
    held = surplus >= 0.0
    last = np.where(held, np.arange(len(held))[:, None], -1).max(axis=0)
    goes_on = last < len(held) - 1
    below = np.clip(last, 0, len(held) - 2)
    low, high = _ends(surplus, below)
    start, end = _ends(along, below)
    fall = np.where(goes_on, low - high, 1.0)
    found = np.where(goes_on, start + (end - start) * low / fall, end)
    return np.where(last >= 0, found, np.nan)


def _ends(table: Array, below: Places, samples: Places | None = None) -> tuple[Array, Array]:
    """Return what stands at a place of each column of a table, and one place further."""
    if samples is not None:
        return table[below, samples], table[below + 1, samples]
    width = below.shape[-1]
    wide = table if table.shape[1:] == (width,) else np.broadcast_to(table, (len(table), width))
    flat = wide.reshape(-1)
    at = below * width + np.arange(width)
    return flat.take(at), flat.take(at + width)
