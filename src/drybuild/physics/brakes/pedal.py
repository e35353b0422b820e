"""What the foot feels: fluid over pressure, travel, firmness, and what a lost circuit costs."""

from __future__ import annotations

import numpy as np
import numpy.typing as npt

from drybuild.errors import require
from drybuild.physics.brakes.actuation import bore_area

Array = npt.NDArray[np.float64]
Real = float | Array

ATMOSPHERE = 101325.0  # [Pa], ISO 2533


def trapped_air_volume(*, air: Real, pressure: Real) -> Array:
    """Return the fluid that fills what trapped air gives up under pressure.

    Parameters
    ----------
    air : float
        Volume of the air at rest, under one atmosphere. [m³]
    pressure : float
        Line pressure above the atmosphere. [Pa]

    Returns
    -------
    float
        Volume; nan where the pressure is. [m³]

    Notes
    -----
    V = V₀ p / (p + p_a), isothermal: nine tenths of it is gone at 9 bar, which is why air makes the
    first part of the travel soft.

    References
    ----------
    .. [1] Boyle's law; Limpert, Brake Design and Safety, 2nd ed., ch. 5.

    """
    require(np.greater_equal(air, 0.0), "air", air, "m³", "zero or more")
    require(~np.less(pressure, 0.0), "pressure", pressure, "Pa", "zero or more")
    return np.asarray(air * np.divide(pressure, np.add(pressure, ATMOSPHERE)))


def caliper_volume(
    *, piston_area: Real, gap: Real, give: Real, pressure: Real, stated_pressure: float
) -> Array:
    """Return the fluid that one brake's pistons on one side take.

    Parameters
    ----------
    piston_area : float
        Area of those pistons. [m²]
    gap : float
        Travel before the lining touches, knock-back included. [m]
    give : float
        Travel by give of pads, caliper or drum at the stated pressure. [m]
    pressure : float
        Pressure at the brake. [Pa]
    stated_pressure : float
        Pressure that the give is stated at. [Pa]

    Returns
    -------
    float
        Volume. [m³]

    Notes
    -----
    V = A (s₀ + s p / p_s). The gap is closed before any pressure is felt.

    References
    ----------
    .. [1] Limpert, Brake Design and Safety, 2nd ed., ch. 5.

    """
    require(np.greater(piston_area, 0.0), "piston_area", piston_area, "m²", "more than zero")
    return np.asarray(piston_area * (gap + np.asarray(give) * pressure / stated_pressure))


def travel_with_a_lost_circuit(
    *, chamber_stroke: Real, working_volume: Real, bore: Real, pedal_ratio: Real, free_play: Real
) -> Array:
    """Return the pedal travel when one chamber of a tandem cylinder holds nothing.

    Parameters
    ----------
    chamber_stroke : float
        Travel of the empty chamber's piston before it meets its stop. [m]
    working_volume : float
        Fluid that the other circuit takes. [m³]
    bore : float
        Bore of the cylinder. [m]
    pedal_ratio : float
        Travel of the pad over travel of the rod. [-]
    free_play : float
        Travel of the pad before the rod moves the piston. [m]

    Returns
    -------
    float
        Travel of the pad. [m]

    Notes
    -----
    x = x₀ + i (s_c + V / A): the empty piston runs to its stop, then the other works.

    References
    ----------
    .. [1] Limpert, Brake Design and Safety, 2nd ed., ch. 5, tandem master cylinder.

    """
    require(
        np.greater_equal(chamber_stroke, 0.0), "chamber_stroke", chamber_stroke, "m", "zero or more"
    )
    rod = chamber_stroke + np.asarray(working_volume) / bore_area(diameter=bore)
    return np.asarray(free_play + pedal_ratio * rod)


def ratio_for_force(*, rod_force: Real, pedal_force: Real) -> Array:
    """Return the pedal ratio that makes a rod force of a foot force.

    Parameters
    ----------
    rod_force : float
        Force on the rod that is wanted. [N]
    pedal_force : float
        Force of the foot. [N]

    Returns
    -------
    float
        Ratio. [-]

    Notes
    -----
    i = F_rod / F.

    References
    ----------
    .. [1] Law of the lever.

    """
    require(np.greater(pedal_force, 0.0), "pedal_force", pedal_force, "N", "more than zero")
    return np.asarray(np.divide(rod_force, pedal_force))


def ratio_for_travel(*, travel: Real, free_play: Real, volume: Real, bore: Real) -> Array:
    """Return the pedal ratio at which a volume takes a travel of the pad.

    Parameters
    ----------
    travel : float
        Travel of the pad. [m]
    free_play : float
        Part of it before the piston moves. [m]
    volume : float
        Fluid displaced. [m³]
    bore : float
        Master cylinder bore. [m]

    Returns
    -------
    float
        Ratio. [-]

    Notes
    -----
    i = (x − x₀) A / V.

    References
    ----------
    .. [1] Limpert, Brake Design and Safety, 2nd ed., ch. 5.

    """
    require(~np.less_equal(volume, 0.0), "volume", volume, "m³", "more than zero")
    return np.asarray(np.subtract(travel, free_play) * bore_area(diameter=bore) / volume)
