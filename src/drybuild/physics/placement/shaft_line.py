"""The propshaft between gearbox and axle as lines in space: what its joints are bent by."""

from __future__ import annotations

import numpy as np
import numpy.typing as npt

Array = npt.NDArray[np.float64]


def angle_between(*, first: Array, second: Array) -> Array:
    """Return the angle between two directions.

    Parameters
    ----------
    first : array
        A direction, shape (3, ...); its length does not matter. [-]
    second : array
        Another. [-]

    Returns
    -------
    array
        From nothing to half a turn. [rad]

    Notes
    -----
    atan2(|a × b|, a·b), which stays exact for small angles where acos does not.

    References
    ----------
    .. [1] Vector product and scalar product, definition.

    """
    a, b = np.broadcast_arrays(*_alike(np.asarray(first, float), np.asarray(second, float)))
    cross = np.stack([a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2],
                      a[0] * b[1] - a[1] * b[0]])  # fmt: skip
    return np.asarray(np.arctan2(np.sqrt((cross**2).sum(axis=0)), (a * b).sum(axis=0)))


def shaft_joint_angles(
    *, gearbox_axis: Array, front_joint: Array, rear_joint: Array, pinion_axis: Array
) -> tuple[Array, Array]:
    """Return how far the two joints of a propshaft are bent.

    Parameters
    ----------
    gearbox_axis : array
        Direction of the gearbox's output shaft, pointing to the rear, shape (3, ...). [-]
    front_joint : array
        Middle of the front joint, shape (3, ...). [m]
    rear_joint : array
        Middle of the rear joint, shape (3, ...). [m]
    pinion_axis : array
        Direction of the pinion's shaft, pointing to the rear. [-]

    Returns
    -------
    tuple
        Angles of the front and the rear joint; side and plan view are both in them. [rad]

    Notes
    -----
    The true angle of a joint is that between its two shafts in space.

    References
    ----------
    .. [1] "Driveline installation" manual J3311-1, fig. 6: √(side² + plan²) for small angles.

    """
    front, rear = _alike(np.asarray(front_joint, float), np.asarray(rear_joint, float))
    along = rear - front
    return (
        angle_between(first=gearbox_axis, second=along),
        angle_between(first=pinion_axis, second=along),
    )


def direction(*, slope: npt.ArrayLike, aside: npt.ArrayLike) -> Array:
    """Return a direction to the rear that falls and turns by so much.

    Parameters
    ----------
    slope : array_like
        How much it falls to the rear, in side view. [rad]
    aside : array_like
        How much it goes to the left to the rear, in plan. [rad]

    Returns
    -------
    array
        Shape (3, ...), not of length one. [-]

    Notes
    -----
    (−1, tan aside, −tan slope): each view shows its own angle.

    References
    ----------
    .. [1] Projection onto two planes, definition.

    """
    falls, turns = np.broadcast_arrays(np.asarray(slope, float), np.asarray(aside, float))
    return np.stack([-np.ones_like(falls), np.tan(turns), -np.tan(falls)])


def _alike(a: Array, b: Array) -> tuple[Array, Array]:
    """Give both as many axes behind the first."""
    more = a.ndim - b.ndim
    if more > 0:
        b = b.reshape(*b.shape, *(1,) * more)
    elif more < 0:
        a = a.reshape(*a.shape, *(1,) * -more)
    return a, b
