"""The air through a radiator: the car's speed and the fan against core, grille and engine bay."""

from __future__ import annotations

import numpy as np
import numpy.typing as npt

from drybuild.errors import require
from drybuild.physics.crossing import crossing
from drybuild.physics.radiator import (
    LouvredCore,
    core_pressure_drop,
    louvre_friction,
    velocity_at_friction_jump,
)

Array = npt.NDArray[np.float64]
Values = float | Array

_NEAR_ENOUGH = 1e-9  # [m²/s²], of the velocity's square
_SLOWEST = 0.2  # [m/s], below it the friction formula has no footing


def ram_pressure(*, speed: Values, density: Values, pressure_coefficient: Values) -> Values:
    """Return the pressure that the car's speed puts across the cooling air's path.

    Parameters
    ----------
    speed : float or array
        Speed of the car through the air. [m/s]
    density : float or array
        Density of the air. [kg/m³]
    pressure_coefficient : float or array
        Pressure coefficient at the inlet less that at the outlet. [-]

    Returns
    -------
    float or array
        Pressure difference. [Pa]

    Notes
    -----
    Δp = ½ ρ v² (C_p,in − C_p,out).

    References
    ----------
    .. [1] W.-H. Hucho (ed.), "Aerodynamics of Road Vehicles", chapter on engine cooling.

    """
    return 0.5 * density * speed**2 * pressure_coefficient


def fan_pressure(*, volume_flow: Values, stalled_pressure: Values, free_flow: Values) -> Values:
    """Return the pressure that a fan adds at a flow.

    Parameters
    ----------
    volume_flow : float or array
        Air through the fan. [m³/s]
    stalled_pressure : float or array
        Pressure at no flow. [Pa]
    free_flow : float or array
        Flow against no pressure. [m³/s]

    Returns
    -------
    float or array
        Pressure rise. [Pa]

    Notes
    -----
    Δp = Δp₀ (1 − (V̇/V̇₀)²). A fan driven beyond its free flow is taken to windmill: it neither adds
    nor costs, so the pressure is zero there.

    References
    ----------
    .. [1] Parabola through the two ends of a fan curve, common practice, no source.

    """
    require(np.greater(free_flow, 0.0), "free_flow", free_flow, "m³/s", "more than zero")
    rise: Values = np.maximum(0.0, stalled_pressure * (1.0 - (volume_flow / free_flow) ** 2))
    return rise


def face_velocity_in_balance(
    *,
    ram_pressure: Values,
    stalled_pressure: Values,
    free_flow: Values,
    face_area: Values,
    core: LouvredCore,
    other_loss: Values,
    density: Values,
    viscosity: Values,
) -> Values:
    """Return the face velocity at which ram and fan just overcome the core, grille and exit.

    Parameters
    ----------
    ram_pressure : float or array
        Pressure of the car's speed between the inlet and the outlet. [Pa]
    stalled_pressure : float or array
        Pressure of the fan at no flow; zero without a fan. [Pa]
    free_flow : float or array
        Flow of the fan against no pressure. [m³/s]
    face_area : float or array
        Face of the core that this air goes through. [m²]
    core : LouvredCore
        Geometry of the core. [-]
    other_loss : float or array
        Loss coefficient of grille, condenser and engine bay on the face velocity. [-]
    density : float or array
        Density of the air. [kg/m³]
    viscosity : float or array
        Dynamic viscosity of the air. [Pa·s]

    Returns
    -------
    float or array
        Face velocity; nan where it would be below 0.2 m/s, or nothing drives the air. [m/s]

    Notes
    -----
    Δp_ram + Δp_fan(v A) = Δp_core(v) + K ½ ρ v², solved between 0.2 m/s and the velocity that the
    driving pressure gives to air that loses K ½ ρ v² alone, or ½ ρ v² where K is less, over v²: the
    balance is nearly straight. The friction formula jumps at Re = 150: where it jumps through the
    balance that velocity stands, where it balances on both sides the greater one.

    References
    ----------
    .. [1] W.-H. Hucho (ed.), "Aerodynamics of Road Vehicles", chapter on engine cooling.

    """
    require(np.greater(face_area, 0.0), "face_area", face_area, "m²", "more than zero")
    ok = np.greater_equal(other_loss, 0.0)
    require(ok, "other_loss", other_loss, "-", "zero or more")

    friction = louvre_friction(core=core)

    def shortfall(square: Array) -> Array:
        velocity = np.sqrt(square)
        fan = fan_pressure(
            volume_flow=velocity * face_area, stalled_pressure=stalled_pressure, free_flow=free_flow
        )
        drop = core_pressure_drop(
            face_velocity=velocity,
            core=core,
            friction=friction,
            density=density,
            viscosity=viscosity,
        )
        return np.asarray(drop + other_loss * 0.5 * density * square - ram_pressure - fan)

    driving = np.asarray(ram_pressure + stalled_pressure, dtype=float)
    lost = np.maximum(other_loss, 1.0) * 0.5 * density
    high = np.maximum(driving, 1e-3) / lost + 2.0 * _SLOWEST**2
    low = np.full_like(high, _SLOWEST**2)
    enough = shortfall(low) < 0.0
    # The friction formula jumps at one velocity: look on the side of it that the balance lies on.
    jump = np.square(velocity_at_friction_jump(core=core, density=density, viscosity=viscosity))
    below, above = (np.clip(share * jump, low, high) for share in (1.0 - 1e-9, 1.0 + 1e-9))
    slower, faster = shortfall(below) > 0.0, shortfall(above) < 0.0
    first = np.where(slower & ~faster, low, above)
    last = np.where(faster, high, np.where(slower, below, above))
    found = crossing(function=shortfall, low=first, high=last, tolerance=_NEAR_ENOUGH)
    return np.where(enough, np.sqrt(found), np.nan)[()]
