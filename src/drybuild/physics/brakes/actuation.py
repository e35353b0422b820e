"""From the foot to line pressure and back, and how far the pedal goes down."""

from __future__ import annotations

import numpy as np
import numpy.typing as npt

from drybuild.errors import require

Array = npt.NDArray[np.float64]
Real = float | Array


def bore_area(*, diameter: Real) -> Array:
    """Return the area of a cylinder's bore.

    Parameters
    ----------
    diameter : float
        Bore. [m]

    Returns
    -------
    float
        Area. [m²]

    Notes
    -----
    A = π d² / 4.

    References
    ----------
    .. [1] Geometry.

    """
    require(np.greater(diameter, 0.0), "diameter", diameter, "m", "more than zero")
    return np.asarray(np.pi / 4.0 * np.square(diameter))


def booster_assist(
    *,
    diameter: Real,
    rod_diameter: Real,
    diaphragms: Real,
    depression: Real,
    efficiency: Real,
) -> Array:
    """Return the greatest assisting force of a vacuum booster.

    Parameters
    ----------
    diameter : float
        Effective diameter of the diaphragm. [m]
    rod_diameter : float
        Diameter of the push rod that passes through. [m]
    diaphragms : float
        How many in tandem: 1 or 2. [-]
    depression : float
        Vacuum in the booster below the air outside. [Pa]
    efficiency : float
        About 0.95. [-]

    Returns
    -------
    float
        Force at full assistance. [N]

    Notes
    -----
    F_a = η n (A_d − A_rod) Δp. Linear in the depression: a cam that halves the manifold vacuum
    halves the assistance.

    References
    ----------
    .. [1] Limpert, Brake Design and Safety, 2nd ed., ch. 5.

    """
    require(np.greater_equal(depression, 0.0), "depression", depression, "Pa", "zero or more")
    require(np.less(depression, 101325.0), "depression", depression, "Pa", "less than 101325")
    require(
        np.greater(diameter, rod_diameter), "diameter", diameter, "m", "more than the rod's own"
    )
    area = np.pi / 4.0 * (np.square(diameter) - np.square(rod_diameter))
    return np.asarray(efficiency * diaphragms * area * depression)


def booster_output(*, input_force: Real, gain: Real, assist: Real) -> Array:
    """Return the force a booster passes to the master cylinder.

    Parameters
    ----------
    input_force : float
        Force of the pedal's rod. [N]
    gain : float
        Output over input while the booster keeps up; 1 without a booster. [-]
    assist : float
        Greatest assisting force; zero when it has failed. [N]

    Returns
    -------
    float
        Output force. [N]

    Notes
    -----
    F_out = min(B F_in, F_in + F_a): below the knee proportional, above it only the foot adds.

    References
    ----------
    .. [1] Limpert, Brake Design and Safety, 2nd ed., ch. 5.

    """
    require(np.greater_equal(gain, 1.0), "gain", gain, "-", "1 or more")
    require(np.greater_equal(assist, 0.0), "assist", assist, "N", "zero or more")
    require(np.greater_equal(input_force, 0.0), "input_force", input_force, "N", "zero or more")
    return np.asarray(np.minimum(gain * input_force, input_force + assist))


def booster_input(*, output_force: Real, gain: Real, assist: Real) -> Array:
    """Return the rod force that makes a booster give an output force.

    Parameters
    ----------
    output_force : float
        Force on the master cylinder. [N]
    gain : float
        Output over input while the booster keeps up. [-]
    assist : float
        Greatest assisting force. [N]

    Returns
    -------
    float
        Input force. [N]

    Notes
    -----
    F_in = max(F_out / B, F_out − F_a), the inverse of `booster_output`.

    References
    ----------
    .. [1] Limpert, Brake Design and Safety, 2nd ed., ch. 5.

    """
    require(np.greater_equal(gain, 1.0), "gain", gain, "-", "1 or more")
    require(np.greater_equal(assist, 0.0), "assist", assist, "N", "zero or more")
    return np.asarray(np.maximum(output_force / gain, output_force - assist))


def booster_knee(*, gain: Real, assist: Real) -> Array:
    """Return the rod force beyond which a booster gives no more help.

    Parameters
    ----------
    gain : float
        Output over input below the knee. [-]
    assist : float
        Greatest assisting force. [N]

    Returns
    -------
    float
        Input force at the knee; nan without a booster (gain 1). [N]

    Notes
    -----
    F_k = F_a / (B − 1).

    References
    ----------
    .. [1] Limpert, Brake Design and Safety, 2nd ed., ch. 5.

    """
    require(np.greater_equal(gain, 1.0), "gain", gain, "-", "1 or more")
    boosted = np.greater(gain, 1.0)
    return np.asarray(
        np.where(boosted, assist / np.where(boosted, np.subtract(gain, 1.0), 1.0), np.nan)
    )


def line_pressure(*, rod_force: Real, bore: Real, efficiency: Real) -> Array:
    """Return the pressure that a force on the master cylinder makes.

    Parameters
    ----------
    rod_force : float
        Force on the piston. [N]
    bore : float
        Master cylinder bore. [m]
    efficiency : float
        Of pedal, seals and cylinders: 0.8 in a textbook, 0.95 for a good modern system. [-]

    Returns
    -------
    float
        Line pressure. [Pa]

    Notes
    -----
    p = η F / A.

    References
    ----------
    .. [1] Limpert, Brake Design and Safety, 2nd ed., ch. 5.

    """
    require(
        np.greater(efficiency, 0.0) & np.less_equal(efficiency, 1.0),
        "efficiency",
        efficiency,
        "-",
        "more than 0, at most 1",
    )
    return np.asarray(efficiency * rod_force / bore_area(diameter=bore))


def pedal_force_for_pressure(
    *,
    pressure: Real,
    pedal_ratio: Real,
    efficiency: Real,
    bore: Real,
    gain: Real,
    assist: Real,
) -> Array:
    """Return the foot force for a line pressure, with or without a booster.

    Parameters
    ----------
    pressure : float
        Line pressure. [Pa]
    pedal_ratio : float
        Travel of the pad over travel of the rod. [-]
    efficiency : float
        Of pedal, seals and cylinders. [-]
    bore : float
        Master cylinder bore. [m]
    gain : float
        Booster gain; 1 without. [-]
    assist : float
        Booster's greatest assisting force; zero without. [N]

    Returns
    -------
    float
        Pedal force. [N]

    Notes
    -----
    F = F_in(p A / η) / i_p with `booster_input`.

    References
    ----------
    .. [1] Limpert, Brake Design and Safety, 2nd ed., ch. 5.

    """
    require(np.greater(pedal_ratio, 0.0), "pedal_ratio", pedal_ratio, "-", "more than zero")
    output = pressure * bore_area(diameter=bore) / efficiency
    return np.asarray(booster_input(output_force=output, gain=gain, assist=assist) / pedal_ratio)


def pressure_for_pedal_force(
    *,
    pedal_force: Real,
    pedal_ratio: Real,
    efficiency: Real,
    bore: Real,
    gain: Real,
    assist: Real,
) -> Array:
    """Return the line pressure that a foot force makes, with or without a booster.

    Parameters
    ----------
    pedal_force : float
        Foot force. [N]
    pedal_ratio : float
        Travel of the pad over travel of the rod. [-]
    efficiency : float
        Of pedal, seals and cylinders. [-]
    bore : float
        Master cylinder bore. [m]
    gain : float
        Booster gain; 1 without. [-]
    assist : float
        Booster's greatest assisting force; zero without. [N]

    Returns
    -------
    float
        Line pressure. [Pa]

    Notes
    -----
    p = η F_out(F i_p) / A with `booster_output`.

    References
    ----------
    .. [1] Limpert, Brake Design and Safety, 2nd ed., ch. 5.

    """
    require(np.greater(pedal_ratio, 0.0), "pedal_ratio", pedal_ratio, "-", "more than zero")
    rod = booster_output(input_force=pedal_force * pedal_ratio, gain=gain, assist=assist)
    return np.asarray(line_pressure(rod_force=rod, bore=bore, efficiency=efficiency))


def proportioned_pressure(*, pressure: Real, knee: Real, slope: Real) -> Array:
    """Return the pressure behind a proportioning valve.

    Parameters
    ----------
    pressure : float
        Pressure before it. [Pa]
    knee : float
        Pressure at which it begins to hold back; infinite without a valve. [Pa]
    slope : float
        Share of a further rise that it lets through. [-]

    Returns
    -------
    float
        Rear line pressure. [Pa]

    Notes
    -----
    p_r = p up to p_k; p_k + s (p − p_k) above.

    References
    ----------
    .. [1] Limpert, Brake Design and Safety, 2nd ed., ch. 7.
    .. [2] Gillespie, Fundamentals of Vehicle Dynamics, 1992, ch. 3.

    """
    require(np.greater_equal(knee, 0.0), "knee", knee, "Pa", "zero or more")
    require(np.greater_equal(slope, 0.0) & np.less_equal(slope, 1.0), "slope", slope, "-", "0 to 1")
    above = np.maximum(np.subtract(pressure, knee), 0.0)
    return np.asarray(np.minimum(pressure, knee) + slope * above)


def hose_volume(
    *,
    pressure: Real,
    length: Real,
    printed_pressure: tuple[float, ...],
    printed_volume: tuple[float, ...],
) -> Array:
    """Return the fluid that hoses take up as they swell.

    Parameters
    ----------
    pressure : float
        Line pressure. [Pa]
    length : float
        Free length of all hoses together. [m]
    printed_pressure : tuple of float
        Pressures of the printed expansion, rising from zero. [Pa]
    printed_volume : tuple of float
        Volume for each metre at those pressures. [m²]

    Returns
    -------
    float
        Volume; nan above the highest printed pressure. [m³]

    Notes
    -----
    V = L v(p), straight between the printed points.

    References
    ----------
    .. [1] 49 CFR 571.106, Table I (largest expansion of free length).

    """
    require(np.greater_equal(length, 0.0), "length", length, "m", "zero or more")
    swell = np.interp(pressure, printed_pressure, printed_volume, right=np.nan)
    return np.asarray(length * swell)


def fluid_volume(*, filling: Real, pressure: Real, bulk_modulus: Real) -> Array:
    """Return how much the brake fluid itself shrinks under pressure.

    Parameters
    ----------
    filling : float
        Fluid in the pressurised parts. [m³]
    pressure : float
        Line pressure. [Pa]
    bulk_modulus : float
        About 1.8 GPa for fresh glycol fluid; far less with air in it. [Pa]

    Returns
    -------
    float
        Volume. [m³]

    Notes
    -----
    V = V₀ p / K.

    References
    ----------
    .. [1] Limpert, Brake Design and Safety, 2nd ed., ch. 5.

    """
    require(np.greater(bulk_modulus, 0.0), "bulk_modulus", bulk_modulus, "Pa", "more than zero")
    return np.asarray(filling * pressure / bulk_modulus)


def pedal_travel(*, volume: Real, bore: Real, pedal_ratio: Real) -> Array:
    """Return how far the pedal pad goes down to displace a volume.

    Parameters
    ----------
    volume : float
        Fluid displaced. [m³]
    bore : float
        Master cylinder bore. [m]
    pedal_ratio : float
        Travel of the pad over travel of the rod. [-]

    Returns
    -------
    float
        Pedal travel; nan where the volume is. [m]

    Notes
    -----
    x = i_p V / A.

    References
    ----------
    .. [1] Limpert, Brake Design and Safety, 2nd ed., ch. 5.

    """
    require(~np.less(volume, 0.0), "volume", volume, "m³", "zero or more")
    return np.asarray(pedal_ratio * volume / bore_area(diameter=bore))
