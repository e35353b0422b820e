"""A free body under load: what it weighs holds it, as on the road, and no support takes part."""

from __future__ import annotations

import numpy as np
import numpy.typing as npt

from drybuild.errors import require
from drybuild.physics.frame.assembly import Elements, Factors, dense_stiffness
from drybuild.physics.frame.cases import Case
from drybuild.physics.frame.solve import free_freedoms

Array = npt.NDArray[np.float64]


def rigid_motions(*, places: npt.ArrayLike) -> Array:
    """Return the six motions of a rigid body as motions of every freedom.

    Parameters
    ----------
    places : array_like
        Places of the nodes, one a row. [m]

    Returns
    -------
    array
        Of shape (freedoms, 6): along x, y, z, then turning about x, y, z through the origin.
        [m, rad]

    Notes
    -----
    u = a + θ × r at every node, its turn θ.

    References
    ----------
    .. [1] Kinematics of a rigid body, any text on mechanics (from memory).

    """
    p = np.asarray(places, dtype=np.float64)
    found = np.zeros((len(p), 6, 6))
    found[:, range(6), range(6)] = 1.0
    x, y, z = p.T
    found[:, 1, 3], found[:, 2, 3] = -z, y
    found[:, 0, 4], found[:, 2, 4] = z, -x
    found[:, 0, 5], found[:, 1, 5] = -y, x
    return found.reshape(-1, 6)


def relieved_motion(
    *, elements: Elements, factors: Factors, case: Case, mass: npt.ArrayLike, loads: Array
) -> tuple[Array, Array]:
    """Return how a free body moves under loads that its own inertia balances.

    Parameters
    ----------
    elements : Elements
        The frame made ready. [SI]
    factors : Factors
        What is left of members, joints, panels of one frame. [-]
    case : Case
        Any case whose six held freedoms stop rigid motion and no more; they bear nothing. [N, N·m]
    mass : array_like
        Mass at every node, of the body and all that it carries. [kg]
    loads : array
        Forces and moments on every freedom, one column a load, (freedoms, loads). [N, N·m]

    Returns
    -------
    tuple
        Motion against the frame that the mass as a whole keeps (freedoms, loads), and acceleration
        as a rigid body (6, loads). [m, rad; m/s², rad/s²]

    Notes
    -----
    a = (Rᵀ M R)⁻¹ Rᵀ f; K u = f − M R a; then u − R (Rᵀ M R)⁻¹ Rᵀ M u, so that the mean motion of
    the mass and its mean turn are nought. Turns of nodes carry no mass.

    References
    ----------
    .. [1] Inertia relief, as in general finite element practice (from memory).

    """
    lumps = np.asarray(mass, dtype=np.float64)
    require(lumps >= 0.0, "mass", lumps, "kg", "zero or more")
    require(lumps.sum() > 0.0, "mass", lumps.sum(), "kg", "more than zero as a whole")
    rigid = rigid_motions(places=elements.frame.places)
    heavy = np.concatenate([np.repeat(lumps[:, None], 3, 1), np.zeros((len(lumps), 3))], axis=1)
    carried = heavy.reshape(-1, 1) * rigid
    inertia = rigid.T @ carried
    acceleration = np.linalg.solve(inertia, rigid.T @ loads)
    free = free_freedoms(elements=elements, case=case)
    whole = dense_stiffness(elements=elements, factors=factors)
    motion = np.zeros_like(loads)
    motion[free] = np.linalg.solve(
        whole[np.ix_(free, free)], (loads - carried @ acceleration)[free]
    )
    apart = motion - rigid @ np.linalg.solve(inertia, carried.T @ motion)
    return apart, np.asarray(acceleration, dtype=np.float64)


def tilted_mass(*, places: npt.ArrayLike, shape: npt.ArrayLike, total: float, at: float) -> Array:
    """Return a mass spread over nodes like a given one, tilted so that its middle lies right.

    Parameters
    ----------
    places : array_like
        Where the nodes are along the car. [m]
    shape : array_like
        Mass by which it is spread, one a node. [kg]
    total : float
        Mass as a whole. [kg]
    at : float
        Where its centre shall be along the car. [m]

    Returns
    -------
    array
        Mass at every node; none is less than nought where the centre lies well inside. [kg]

    Notes
    -----
    m_i = w_i (1 + c (x_i − x̄)) with c = (x − x̄)/σ², all of the given spread, then scaled.

    References
    ----------
    .. [1] Derived: the first two moments of the mass along the car.

    """
    x, w = np.asarray(places, dtype=np.float64), np.asarray(shape, dtype=np.float64)
    require(w >= 0.0, "shape", w, "kg", "zero or more")
    share = w / w.sum()
    middle = float(share @ x)
    spread = float(share @ (x - middle) ** 2)
    found = total * share * (1.0 + (at - middle) / spread * (x - middle))
    require(found >= 0.0, "at", at, "m", "well inside the body")
    return np.asarray(found)
