"""Products of vectors whose first axis is x, y, z and whose other axes broadcast."""

from __future__ import annotations

import numpy as np
import numpy.typing as npt

Array = npt.NDArray[np.float64]


def cross(*, a: Array, b: Array) -> Array:
    """Return the vector product.

    Parameters
    ----------
    a : array
        First vector, components on the first axis. [any]
    b : array
        Second vector. [any]

    Returns
    -------
    array
        a × b. [any]

    Notes
    -----
    Written out, because the general routine spends more time on axes than on sums.

    References
    ----------
    .. [1] Definition.

    """
    found = np.empty((3, *np.broadcast_shapes(a.shape[1:], b.shape[1:])))
    found[0] = a[1] * b[2] - a[2] * b[1]
    found[1] = a[2] * b[0] - a[0] * b[2]
    found[2] = a[0] * b[1] - a[1] * b[0]
    return found


def dot(*, a: Array, b: Array) -> Array:
    """Return the scalar product.

    Parameters
    ----------
    a : array
        First vector, components on the first axis. [any]
    b : array
        Second vector. [any]

    Returns
    -------
    array
        a · b. [any]

    Notes
    -----
    Sum over the first axis.

    References
    ----------
    .. [1] Definition.

    """
    return np.asarray(np.einsum("i...,i...->...", a, b))


def unit(*, vector: Array) -> Array:
    """Return a vector of length one along another.

    Parameters
    ----------
    vector : array
        Components on the first axis. [any]

    Returns
    -------
    array
        v / |v|. [-]

    Notes
    -----
    nan for a vector without length.

    References
    ----------
    .. [1] Definition.

    """
    with np.errstate(invalid="ignore", divide="ignore"):
        return np.asarray(vector / np.sqrt(dot(a=vector, b=vector)))


def rotation(*, vector: Array) -> Array:
    """Return the matrix that turns by the length of a vector about its direction.

    Parameters
    ----------
    vector : array
        Rotation vector. [rad]

    Returns
    -------
    array
        Matrix with row and column on the first two axes. [-]

    Notes
    -----
    R = I + sin φ/φ [r]× + (1 − cos φ)/φ² [r]×², the half-angle form of the last factor.

    References
    ----------
    .. [1] O. Rodrigues, "Des lois géométriques ...", J. Math. Pures Appl. 5, 1840.

    """
    angle = np.sqrt(dot(a=vector, b=vector))
    first = np.sinc(angle / np.pi)
    second = 0.5 * np.sinc(angle / (2.0 * np.pi)) ** 2
    x, y, z = vector
    xy, xz, yz = second * x * y, second * x * z, second * y * z
    sx, sy, sz = first * x, first * y, first * z
    xx, yy, zz = second * x * x, second * y * y, second * z * z
    matrix = np.empty((3, *vector.shape))
    matrix[0, 0], matrix[0, 1], matrix[0, 2] = 1.0 - yy - zz, xy - sz, xz + sy
    matrix[1, 0], matrix[1, 1], matrix[1, 2] = xy + sz, 1.0 - xx - zz, yz - sx
    matrix[2, 0], matrix[2, 1], matrix[2, 2] = xz - sy, yz + sx, 1.0 - xx - yy
    return matrix


def turned(*, matrix: Array, vector: Array) -> Array:
    """Return a vector turned by a matrix.

    Parameters
    ----------
    matrix : array
        Row and column on the first two axes. [-]
    vector : array
        Components on the first axis. [any]

    Returns
    -------
    array
        R v. [any]

    Notes
    -----
    Broadcasts over the axes behind the components.

    References
    ----------
    .. [1] Definition.

    """
    return np.asarray(np.einsum("ij...,j...->i...", matrix, vector))
