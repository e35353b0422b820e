"""Stacks of small matrices: the derivatives of a mechanism's gaps by its unknowns."""

from __future__ import annotations

import numpy as np
import numpy.typing as npt

from drybuild.physics.linkage.vectors import Array


def squared(*, matrix: Array, good: npt.NDArray[np.bool_]) -> Array:
    """Return derivatives as a stack of matrices; the unit matrix for what is lost.

    Parameters
    ----------
    matrix : array
        (constraints, unknowns, positions, samples). [-]
    good : array
        Which positions and samples are not lost, (positions, samples). [-]

    Returns
    -------
    array
        (positions, samples, constraints, unknowns). [-]

    Notes
    -----
    The unit matrix can be inverted, and its inverse is used by nothing.

    References
    ----------
    .. [1] Definition.

    """
    found = np.moveaxis(matrix, (0, 1), (-2, -1)).copy()
    bad = ~np.isfinite(found).all(axis=(-2, -1)) | ~good
    found[bad] = np.eye(found.shape[-1])
    return found


def inverted(*, matrices: Array) -> Array:
    """Return the inverses of a stack of matrices.

    Parameters
    ----------
    matrices : array
        (..., rows, columns). [-]

    Returns
    -------
    array
        The same shape; the pseudo-inverses if one of them has no inverse. [-]

    Notes
    -----
    By triangular factors; where that fails, by singular values.

    References
    ----------
    .. [1] G. H. Golub, C. F. Van Loan, "Matrix Computations", sec. 3.2 and 5.5 (from memory).

    """
    try:
        return np.asarray(np.linalg.inv(matrices))
    except np.linalg.LinAlgError:
        return np.asarray(np.linalg.pinv(matrices))


def condition(*, matrix: Array, inverse: Array) -> Array:
    """Return the inverse of the condition number, in the Frobenius norm.

    Parameters
    ----------
    matrix : array
        (rows, columns, ...). [-]
    inverse : array
        Its inverse. [-]

    Returns
    -------
    array
        Zero for a matrix that holds nothing, (...). [-]

    Notes
    -----
    1 / (‖A‖ ‖A⁻¹‖).

    References
    ----------
    .. [1] G. H. Golub, C. F. Van Loan, "Matrix Computations", sec. 2.6 (from memory).

    """
    with np.errstate(invalid="ignore", divide="ignore", over="ignore"):
        norms = np.sqrt((matrix**2).sum(axis=(0, 1)) * (inverse**2).sum(axis=(0, 1)))
        return np.asarray(1.0 / norms)
