"""Rigid bodies added up: mass, centre and inertia of a car with what comes off and goes on."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from drybuild.physics.mass import centre_of_mass, inertia_about_common_centre

Values = float | npt.NDArray[np.float64]


@dataclass(frozen=True, kw_only=True)
class RigidBody:
    """Mass, place and inertia; a negative mass is one that is taken away."""

    mass: Values
    """[kg]"""
    x: Values
    """Ahead of the front wheel centres. [m]"""
    y: Values
    """To the left of the centre plane. [m]"""
    z: Values
    """Over the sill seam. [m]"""
    roll_inertia: Values = 0.0
    """About its own centre. [kg·m²]"""
    pitch_inertia: Values = 0.0
    """[kg·m²]"""
    yaw_inertia: Values = 0.0
    """[kg·m²]"""


def joined(*, bodies: Sequence[RigidBody]) -> RigidBody:
    """Return several bodies as one.

    Parameters
    ----------
    bodies : sequence of RigidBody
        What is put together; a negative mass is taken away. [-]

    Returns
    -------
    RigidBody
        About its own centre.

    Notes
    -----
    Centre by moments, inertia by the parallel-axis theorem; products of inertia are not kept.

    References
    ----------
    .. [1] Parallel-axis theorem.

    """
    mass, x, y, z = (_stack(bodies, name) for name in ("mass", "x", "y", "z"))
    own = {name: _stack(bodies, f"{name}_inertia") for name in ("roll", "pitch", "yaw")}
    return RigidBody(
        mass=np.sum(mass, axis=0),
        x=centre_of_mass(mass=mass, position=x),
        y=centre_of_mass(mass=mass, position=y),
        z=centre_of_mass(mass=mass, position=z),
        roll_inertia=inertia_about_common_centre(
            mass=mass, first_position=y, second_position=z, own_inertia=own["roll"]
        ),
        pitch_inertia=inertia_about_common_centre(
            mass=mass, first_position=x, second_position=z, own_inertia=own["pitch"]
        ),
        yaw_inertia=inertia_about_common_centre(
            mass=mass, first_position=x, second_position=y, own_inertia=own["yaw"]
        ),
    )


def _stack(bodies: Sequence[RigidBody], name: str) -> npt.NDArray[np.float64]:
    """Return one property of every body, along a new first axis."""
    values = [np.asarray(getattr(body, name), dtype=np.float64) for body in bodies]
    found = np.empty((len(values), *np.broadcast_shapes(*{one.shape for one in values})))
    for number, one in enumerate(values):
        found[number] = one
    return found
