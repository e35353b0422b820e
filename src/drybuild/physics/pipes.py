"""Flow in round pipes: velocity, Reynolds number, friction, pressure loss, bore wanted."""

from __future__ import annotations

import numpy as np
import numpy.typing as npt

from drybuild.errors import require

Values = float | npt.NDArray[np.float64]


def pipe_velocity(*, volume_flow: Values, bore: Values) -> Values:
    """Return the mean velocity in a round pipe.

    Parameters
    ----------
    volume_flow : float or array
        Flow through the pipe. [m³/s]
    bore : float or array
        Inside diameter. [m]

    Returns
    -------
    float or array
        Mean velocity. [m/s]

    Notes
    -----
    v = 4 V̇ / (π d²).

    References
    ----------
    .. [1] Continuity of flow.

    """
    require(np.greater_equal(volume_flow, 0.0), "volume_flow", volume_flow, "m³/s", "zero or more")
    require(np.greater(bore, 0.0), "bore", bore, "m", "more than zero")
    return 4.0 * volume_flow / (np.pi * bore**2)


def bore_for_velocity(*, volume_flow: Values, velocity: Values) -> Values:
    """Return the bore that gives a flow the wanted velocity.

    Parameters
    ----------
    volume_flow : float or array
        Flow through the pipe. [m³/s]
    velocity : float or array
        Mean velocity wanted. [m/s]

    Returns
    -------
    float or array
        Inside diameter. [m]

    Notes
    -----
    d = √(4 V̇ / (π v)).

    References
    ----------
    .. [1] Continuity of flow.

    """
    require(np.greater_equal(volume_flow, 0.0), "volume_flow", volume_flow, "m³/s", "zero or more")
    require(np.greater(velocity, 0.0), "velocity", velocity, "m/s", "more than zero")
    return (4.0 * volume_flow / (np.pi * velocity)) ** 0.5


def reynolds_number(
    *, velocity: Values, diameter: Values, density: Values, viscosity: Values
) -> Values:
    """Return the Reynolds number of a flow.

    Parameters
    ----------
    velocity : float or array
        Mean velocity. [m/s]
    diameter : float or array
        Bore, or hydraulic diameter of another section. [m]
    density : float or array
        Density of the fluid. [kg/m³]
    viscosity : float or array
        Dynamic viscosity of the fluid. [Pa·s]

    Returns
    -------
    float or array
        Reynolds number. [-]

    Notes
    -----
    Re = ρ v d / μ.

    References
    ----------
    .. [1] F. M. White, "Fluid Mechanics", sec. 6.1.

    """
    require(np.greater(viscosity, 0.0), "viscosity", viscosity, "Pa·s", "more than zero")
    return density * velocity * diameter / viscosity


def friction_factor_churchill(*, reynolds: Values, relative_roughness: Values) -> Values:
    """Return the Darcy friction factor, laminar to fully rough.

    Parameters
    ----------
    reynolds : float or array
        Reynolds number, more than zero. [-]
    relative_roughness : float or array
        Height of the roughness over the bore. [-]

    Returns
    -------
    float or array
        Darcy (not Fanning) friction factor. [-]

    Notes
    -----
    f = 8 [(8/Re)¹² + (A + B)^-1.5]^(1/12), A = {2.457 ln[1/((7/Re)^0.9 + 0.27 ε/d)]}¹⁶,
    B = (37530/Re)¹⁶.

    References
    ----------
    .. [1] S. W. Churchill, "Friction-factor equation spans all fluid-flow regimes", Chemical
       Engineering 84 (1977).

    """
    require(np.greater(reynolds, 0.0), "reynolds", reynolds, "-", "more than zero")
    ok = np.greater_equal(relative_roughness, 0.0)
    require(ok, "relative_roughness", relative_roughness, "-", "zero or more")
    rough = 2.457 * np.log(1.0 / ((7.0 / reynolds) ** 0.9 + 0.27 * relative_roughness))
    turbulent = (rough**16 + (37530.0 / reynolds) ** 16) ** -1.5
    return 8.0 * ((8.0 / reynolds) ** 12 + turbulent) ** (1.0 / 12.0)


def pipe_pressure_loss(
    *,
    volume_flow: Values,
    bore: Values,
    length: Values,
    loss_coefficient: Values,
    roughness: Values,
    density: Values,
    viscosity: Values,
) -> Values:
    """Return the pressure lost along a pipe and its bends and fittings.

    Parameters
    ----------
    volume_flow : float or array
        Flow through the pipe, more than zero. [m³/s]
    bore : float or array
        Inside diameter. [m]
    length : float or array
        Length of pipe. [m]
    loss_coefficient : float or array
        Sum of the loss coefficients of bends and fittings. [-]
    roughness : float or array
        Height of the wall's roughness. [m]
    density : float or array
        Density of the fluid. [kg/m³]
    viscosity : float or array
        Dynamic viscosity of the fluid. [Pa·s]

    Returns
    -------
    float or array
        Pressure loss. [Pa]

    Notes
    -----
    Δp = (f L/d + ΣK) ½ ρ v² with Churchill's f. Density is taken constant along the pipe, which
    holds for liquids and for gas below about Mach 0.3.

    References
    ----------
    .. [1] F. M. White, "Fluid Mechanics", sec. 6.3 and 6.9.
    .. [2] S. W. Churchill, Chemical Engineering 84 (1977).

    """
    require(np.greater_equal(length, 0.0), "length", length, "m", "zero or more")
    ok = np.greater_equal(loss_coefficient, 0.0)
    require(ok, "loss_coefficient", loss_coefficient, "-", "zero or more")
    velocity = pipe_velocity(volume_flow=volume_flow, bore=bore)
    reynolds = reynolds_number(
        velocity=velocity, diameter=bore, density=density, viscosity=viscosity
    )
    friction = friction_factor_churchill(reynolds=reynolds, relative_roughness=roughness / bore)
    return (friction * length / bore + loss_coefficient) * 0.5 * density * velocity**2
