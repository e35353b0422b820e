"""A coil spring to order: working coils for a rate, free and solid length, surge."""

from __future__ import annotations

import numpy as np

from drybuild.errors import require
from drybuild.physics.springs import Values


def working_coils(
    *, rate: Values, wire_diameter: Values, mean_diameter: Values, shear_modulus: Values
) -> Values:
    """Return the number of working coils that gives a rate.

    Parameters
    ----------
    rate : float or array
        Rate wanted. [N/m]
    wire_diameter : float or array
        Diameter of the wire. [m]
    mean_diameter : float or array
        Diameter of the coil, middle of wire to middle of wire. [m]
    shear_modulus : float or array
        Shear modulus. [Pa]

    Returns
    -------
    float or array
        Working coils; the ends come on top. [-]

    Notes
    -----
    N = G d⁴ / (8 D³ k).

    References
    ----------
    .. [1] J. E. Shigley and others, "Mechanical Engineering Design", eq. 10-9.

    """
    require(np.greater(rate, 0.0), "rate", rate, "N/m", "more than zero")
    return shear_modulus * wire_diameter**4 / (8.0 * mean_diameter**3 * rate)


def solid_length(*, wire_diameter: Values, total_coils: Values, ground: bool) -> Values:
    """Return the length of a coil spring with its coils on each other.

    Parameters
    ----------
    wire_diameter : float or array
        Diameter of the wire. [m]
    total_coils : float or array
        All coils, ends included. [-]
    ground : bool
        Whether the ends are ground flat; squared only otherwise. [-]

    Returns
    -------
    float or array
        Solid length. [m]

    Notes
    -----
    N_t d for squared and ground ends, (N_t + 1) d for ends that are squared only.

    References
    ----------
    .. [1] J. E. Shigley and others, "Mechanical Engineering Design", table 10-1.

    """
    require(np.greater(total_coils, 0.0), "total_coils", total_coils, "-", "more than zero")
    return wire_diameter * (total_coils + (0.0 if ground else 1.0))


def free_length(*, loaded_length: Values, load: Values, rate: Values) -> Values:
    """Return the length without load of a spring that has a length under its load.

    Parameters
    ----------
    loaded_length : float or array
        Length between the seats under the load. [m]
    load : float or array
        Force of the spring. [N]
    rate : float or array
        Rate. [N/m]

    Returns
    -------
    float or array
        Free length. [m]

    Notes
    -----
    L₀ = L + F/k.

    References
    ----------
    .. [1] Definition of the rate.

    """
    require(np.greater(rate, 0.0), "rate", rate, "N/m", "more than zero")
    return loaded_length + load / rate


def surge_frequency(*, rate: Values, wire_mass: Values) -> Values:
    """Return the lowest frequency at which a coil spring between two seats surges.

    Parameters
    ----------
    rate : float or array
        Rate. [N/m]
    wire_mass : float or array
        Mass of the working coils. [kg]

    Returns
    -------
    float or array
        Frequency. [Hz]

    Notes
    -----
    f = ½ √(k/m).

    References
    ----------
    .. [1] J. E. Shigley and others, "Mechanical Engineering Design", sec. 10-8, surge.

    """
    require(np.greater(wire_mass, 0.0), "wire_mass", wire_mass, "kg", "more than zero")
    return 0.5 * np.sqrt(rate / wire_mass)
