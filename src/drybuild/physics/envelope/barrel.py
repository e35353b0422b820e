"""The brake inside the rim: the caliper's outline against the barrel's, both as measured."""

from __future__ import annotations

import numpy as np
import numpy.typing as npt

from drybuild.errors import require

Array = npt.NDArray[np.float64]


def barrel_gap(
    *, barrel_place: Array, barrel_radius: Array, caliper_place: Array, caliper_radius: Array
) -> Array:
    """Return the least air between a measured barrel and a caliper's outline.

    Parameters
    ----------
    barrel_place : array
        Distances inboard of the mounting face, rising, (points, samples). [m]
    barrel_radius : array
        Inside radius of the barrel there. [m]
    caliper_place : array
        Distances inboard of the mounting face, rising, (points, samples). [m]
    caliper_radius : array
        Radius of the caliper's outline there. [m]

    Returns
    -------
    array
        Least gap, square to the surfaces; radial, below zero, where they meet; nan where the
        barrel was not measured along the whole caliper, (samples,). [m]

    Notes
    -----
    Both outlines are straight between their points, so the least gap lies at a corner of one of
    them: it is the least distance of corners from the other's pieces.

    References
    ----------
    .. [1] Geometry.

    """
    for name, place in (("barrel_place", barrel_place), ("caliper_place", caliper_place)):
        require(np.diff(place[:, 0]) > 0.0, name, place[:, 0], "m", "rising")
    under = _radius_at(barrel_place, barrel_radius, caliper_place) - caliper_radius
    over = barrel_radius - _radius_at(caliper_place, caliper_radius, barrel_place)
    radial = np.fmin(_least(under), _least(over))
    near = np.minimum(
        _apart(barrel_place, barrel_radius, caliper_place, caliper_radius),
        _apart(caliper_place, caliper_radius, barrel_place, barrel_radius),
    )
    covered = (barrel_place[0] <= caliper_place[0]) & (barrel_place[-1] >= caliper_place[-1])
    return np.where(covered, np.where(radial < 0.0, radial, near), np.nan)


def _radius_at(place: Array, radius: Array, asked: Array) -> Array:
    """Return an outline's radius at places, (asked, samples); nan beside it."""
    found = np.full(np.broadcast_shapes(asked.shape, (1, place.shape[-1])), np.nan)
    for k in range(place.shape[0] - 1):
        share = (asked - place[k]) / (place[k + 1] - place[k])
        within = (share >= 0.0) & (share <= 1.0)
        found = np.where(within, radius[k] + share * (radius[k + 1] - radius[k]), found)
    return np.asarray(found)


def _least(values: Array) -> Array:
    return np.asarray(np.where(np.isnan(values), np.inf, values).min(axis=0))


def _apart(place: Array, radius: Array, corner_place: Array, corner_radius: Array) -> Array:
    """Return the least distance of corners from the pieces of an outline, (samples,)."""
    least: Array | float = np.inf
    for k in range(place.shape[0] - 1):
        along = np.stack((place[k + 1] - place[k], radius[k + 1] - radius[k]))
        x, y = corner_place - place[k], corner_radius - radius[k]
        share = np.clip((x * along[0] + y * along[1]) / (along**2).sum(axis=0), 0.0, 1.0)
        apart = np.hypot(x - share * along[0], y - share * along[1]).min(axis=0)
        least = np.minimum(least, apart)
    return np.asarray(least)
