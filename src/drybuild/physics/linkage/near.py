"""Samples of a mechanism that differ by a tape's spread: solved from the nominal positions.

Moving every sample through all the travel costs much and finds what a few corrections from the
nominal's own positions find as exactly. Whatever those do not close is moved through the travel.
"""

from __future__ import annotations

from dataclasses import fields, is_dataclass, replace
from typing import Any, TypeVar

import numpy as np
import numpy.typing as npt

from drybuild.physics.linkage.joints import Inputs
from drybuild.physics.linkage.mechanism import Mechanism
from drybuild.physics.linkage.pose import Pose
from drybuild.physics.linkage.vectors import Array, unit

TURNS = 10
"""Corrections at most; a tape's millimetres take five."""


Part = TypeVar("Part", Mechanism, Pose)


def picked(*, part: Part, samples: npt.NDArray[np.intp]) -> Part:
    """Return the mechanism, or a pose of it, of some of the samples.

    Parameters
    ----------
    part : Mechanism or Pose
        Of all samples. [-]
    samples : array
        Places of the wanted ones. [-]

    Returns
    -------
    Mechanism or Pose
        Its points and directions have those samples alone.

    Notes
    -----
    What is the same in every sample stays as it is.

    References
    ----------
    .. [1] Definition.

    """
    found: Part = _picked(part, samples)
    return found


def _picked(part: Any, samples: npt.NDArray[np.intp]) -> Any:  # any part of a mechanism, unchanged
    if isinstance(part, np.ndarray):
        return part[..., samples] if part.ndim and part.shape[-1] > 1 else part
    if isinstance(part, tuple):
        return tuple(_picked(one, samples) for one in part)
    if isinstance(part, dict):
        return {name: _picked(one, samples) for name, one in part.items()}
    if is_dataclass(part) and not isinstance(part, type):
        values = {one.name: _picked(getattr(part, one.name), samples) for one in fields(part)}
        return replace(part, **values)
    return part


def poses_near(
    *, mechanism: Mechanism, nominal: Pose, inverse: Array, inputs: Inputs, closed: float
) -> tuple[Pose, Array]:
    """Return the samples' poses at the positions that the nominal takes.

    Parameters
    ----------
    mechanism : Mechanism
        Of all samples, the nominal first. [-]
    nominal : Pose
        Of the nominal, at every position. [m]
    inverse : array
        Of the nominal's derivative, (unknowns, constraints, positions). [-]
    inputs : mapping
        Travel, roll and steer of the positions. [m], [rad]
    closed : float
        A gap below this is closed. [m]

    Returns
    -------
    pair
        Poses, and how far each has gone from the nominal's, (positions, samples). [m], [rad]

    Notes
    -----
    The chord method: q ← q − J₀⁻¹ g(q), with the nominal's derivative J₀ throughout. It closes by
    a factor of about (spread / length of the links) at each turn, some hundredths.

    References
    ----------
    .. [1] J. M. Ortega and W. C. Rheinboldt, "Iterative Solution of Nonlinear Equations in
       Several Variables", 1970, sec. 7.1 (from memory).

    """
    origin, count = mechanism.origin, mechanism.samples
    positions = nominal.centre.shape[1]
    whole = (positions, count)
    pose = Pose(
        origin=origin,
        hinges=tuple(replace(one, axis=unit(vector=one.axis)) for one in mechanism.hinges),
        centre=np.broadcast_to(nominal.centre + (origin - origin[..., :1]), (3, *whole)),
        turn=np.broadcast_to(nominal.turn, (3, 3, *whole)),
        angles=np.broadcast_to(nominal.angles, (nominal.angles.shape[0], *whole)),
    )
    chord = np.moveaxis(inverse, 2, 0)
    gone = np.zeros(whole)
    for _ in range(TURNS):
        gaps = mechanism.gaps(pose, inputs)
        if not np.nanmax(np.abs(gaps)) > closed:
            break
        step = -np.moveaxis(chord @ np.moveaxis(gaps, 1, 0), 0, 1)
        gone = gone + np.abs(step).max(axis=0)
        pose = pose.moved(step)
    return pose, gone
