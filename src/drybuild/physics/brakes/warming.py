"""Rotor temperature over time: convection by speed, radiation, conduction to the hub."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from drybuild.errors import require

Array = npt.NDArray[np.float64]
Real = float | Array

STEFAN_BOLTZMANN = 5.670374419e-8  # [W/(m²·K⁴)], CODATA 2018
CONVECTION_EXPONENT = 0.8  # [-], turbulent flow over a disc, Limpert ch. 3
BRAKED_STEPS, ROLLING_STEPS = 2, 3
"""Steps of time in which a stop and the run to the next one are taken."""


@dataclass(frozen=True, kw_only=True)
class Rotor:
    """A disc or drum as its temperature sees it."""

    heat_capacity: Real
    """Mass times specific heat. [J/K]"""
    cooling_area: Real
    """Surface that air flows over. [m²]"""
    radiating_area: Real
    """Surface that sees the surroundings. [m²]"""
    emissivity: Real
    """[-]"""
    hub_conductance: Real
    """Heat flow to the hub for each kelvin above it. [W/K]"""
    fast_convection: Real
    """Convection coefficient at `fast_speed`. [W/(m²·K)]"""
    fast_speed: Real
    """[m/s]"""
    still_convection: Real
    """Convection coefficient of a car that stands. [W/(m²·K)]"""

    def conductance(self, speed: Real) -> Array:
        """Return the heat flow by air and hub for each kelvin; `speed` in m/s. [W/K]."""
        convection = convection_over_speed(
            fast=self.fast_convection,
            fast_speed=self.fast_speed,
            still=self.still_convection,
            speed=speed,
        )
        return np.asarray(convection * self.cooling_area + self.hub_conductance)

    def warmed(
        self, *, temperature: Real, air: Real, power: Real, conductance: Real, time: Real
    ) -> Array:
        """Return the temperature a while later, all flows at work; `time` in s. [K]."""
        return warmed(
            temperature=temperature,
            surroundings=air,
            power=power,
            conductance=conductance,
            radiance=self.emissivity * np.asarray(self.radiating_area),
            heat_capacity=self.heat_capacity,
            time=time,
        )


def convection_over_speed(*, fast: Real, fast_speed: Real, still: Real, speed: Real) -> Array:
    """Return a rotor's convection coefficient at a speed from that at another.

    Parameters
    ----------
    fast : float
        Coefficient at `fast_speed`. [W/(m²·K)]
    fast_speed : float
        Speed that it is known at. [m/s]
    still : float
        Coefficient of a car that stands. [W/(m²·K)]
    speed : float
        Speed wanted. [m/s]

    Returns
    -------
    float
        Coefficient, never below that of standing air. [W/(m²·K)]

    Notes
    -----
    h = max(h_s, h_f (v/v_f)^0.8), the exponent of turbulent flow over a disc. Below about 50 km/h
    the flow is laminar and the exponent 0.55, so that the answer is a little low, that is, the
    rotor a little hot.

    References
    ----------
    .. [1] Limpert, Brake Design and Safety, 2nd ed., ch. 3, convection of a solid disc.

    """
    require(np.greater(fast_speed, 0.0), "fast_speed", fast_speed, "m/s", "more than zero")
    require(np.greater_equal(speed, 0.0), "speed", speed, "m/s", "zero or more")
    flow = np.power(np.divide(speed, fast_speed), CONVECTION_EXPONENT)
    return np.asarray(np.maximum(still, fast * flow))


def radiated_power(*, area: Real, emissivity: Real, temperature: Real, surroundings: Real) -> Array:
    """Return the heat that a surface radiates, less what it takes up.

    Parameters
    ----------
    area : float
        Surface. [m²]
    emissivity : float
        Of the surface, 0 to 1. [-]
    temperature : float
        Of the surface. [K]
    surroundings : float
        Temperature of what it sees. [K]

    Returns
    -------
    float
        Power. [W]

    Notes
    -----
    P = ε σ A (T⁴ − T_s⁴).

    References
    ----------
    .. [1] Incropera and DeWitt, Fundamentals of Heat and Mass Transfer, eq. 1.7.

    """
    inside = np.greater_equal(emissivity, 0.0) & np.less_equal(emissivity, 1.0)
    require(inside, "emissivity", emissivity, "-", "0 to 1")
    fourth = np.power(temperature, 4) - np.power(surroundings, 4)
    return np.asarray(emissivity * STEFAN_BOLTZMANN * np.asarray(area) * fourth)


def warmed(
    *,
    temperature: Real,
    surroundings: Real,
    power: Real,
    conductance: Real,
    radiance: Real,
    heat_capacity: Real,
    time: Real,
) -> Array:
    """Return a lumped body's temperature after a short time with a steady heat flow.

    Parameters
    ----------
    temperature : float
        At the start. [K]
    surroundings : float
        Air, hub and walls. [K]
    power : float
        Heat flow into the body. [W]
    conductance : float
        Heat flow out for each kelvin above the surroundings. [W/K]
    radiance : float
        Emissivity times radiating surface. [m²]
    heat_capacity : float
        Mass times specific heat. [J/K]
    time : float
        Length of the step. [s]

    Returns
    -------
    float
        At the end. [K]

    Notes
    -----
    C Ṫ = P − G (T − T_s) − ε σ A (T⁴ − T_s⁴), one step of the exponential Rosenbrock-Euler method:
    T + t φ(J t) Ṫ, φ(x) = (eˣ − 1)/x, J = −(G + 4 ε σ A T³)/C. It is exact without radiation and of
    second order with it.

    References
    ----------
    .. [1] Incropera and DeWitt, Fundamentals of Heat and Mass Transfer, general lumped analysis.
    .. [2] Hochbruck and Ostermann, Exponential integrators, Acta Numerica 19, 2010, sec. 2.4.

    """
    require(np.greater(heat_capacity, 0.0), "heat_capacity", heat_capacity, "J/K", "more than zero")
    sigma = STEFAN_BOLTZMANN * np.asarray(radiance)
    squared = np.square(temperature)
    fourth = np.square(squared) - np.square(np.square(surroundings))
    flow = power - conductance * (np.asarray(temperature) - surroundings) - sigma * fourth
    leak = conductance + 4.0 * sigma * squared * temperature
    decay = leak * time / heat_capacity
    share = np.where(decay > 0.0, -np.expm1(-decay) / np.where(decay > 0.0, decay, 1.0), 1.0)
    return np.asarray(temperature + flow * time / heat_capacity * share)


def stops_temperature(
    *,
    rotor: Rotor,
    air: Real,
    heat: Real,
    stops: int,
    interval: Real,
    braking_time: Real,
    speed_from: Real,
    speed_to: Real,
) -> Array:
    """Return a rotor's temperature right after each of several equal stops.

    Parameters
    ----------
    rotor : Rotor
        The disc or drum. [-]
    air : float
        Temperature of the air, and of the rotor before the first stop. [K]
    heat : float
        Heat into this rotor in one stop. [J]
    stops : int
        How many. [-]
    interval : float
        Time from stop to stop. [s]
    braking_time : float
        Time of one stop. [s]
    speed_from : float
        Speed before a stop. [m/s]
    speed_to : float
        Speed after it. [m/s]

    Returns
    -------
    array
        Temperatures, a row a stop. [K]

    Notes
    -----
    Each stop puts its heat in evenly; then the car picks up speed for half of what is left of the
    interval and holds it for the other half, as in the older directive's cycle.

    References
    ----------
    .. [1] Directive 71/320/EEC, Annex II, 1.3.1, for the cycle.
    .. [2] Limpert, Brake Design and Safety, 2nd ed., ch. 3.

    """
    require(stops >= 1, "stops", stops, "-", "one or more")
    rolling = np.subtract(interval, braking_time)
    require(np.greater(rolling, 0.0), "interval", interval, "s", "longer than a stop")
    mean = np.add(speed_from, speed_to) / 2.0
    braked = rotor.conductance(mean)
    open_ = 0.5 * (braked + rotor.conductance(speed_from))
    power = heat / np.asarray(braking_time)
    temperature: Array = np.asarray(air, dtype=np.float64)
    found = []
    for stop in range(stops):
        for _ in range(ROLLING_STEPS if stop else 0):
            temperature = rotor.warmed(
                temperature=temperature,
                air=air,
                power=0.0,
                conductance=open_,
                time=rolling / ROLLING_STEPS,
            )
        for _ in range(BRAKED_STEPS):
            temperature = rotor.warmed(
                temperature=temperature,
                air=air,
                power=power,
                conductance=braked,
                time=np.asarray(braking_time) / BRAKED_STEPS,
            )
        found.append(temperature)
    return np.array(np.broadcast_arrays(*found))


def drag_temperature(
    *, rotor: Rotor, air: Real, power: Real, speed: Real, time: Real, steps: int
) -> Array:
    """Return a rotor's temperature over a steady drag, as on a long descent.

    Parameters
    ----------
    rotor : Rotor
        The disc or drum. [-]
    air : float
        Temperature of the air, and of the rotor at the start. [K]
    power : float
        Heat flow into this rotor. [W]
    speed : float
        Speed of the car. [m/s]
    time : float
        How long. [s]
    steps : int
        Equal steps that the time is taken in. [-]

    Returns
    -------
    array
        Temperatures, the first row at the start, the last at the end. [K]

    Notes
    -----
    `warmed`, over and over.

    References
    ----------
    .. [1] Incropera and DeWitt, Fundamentals of Heat and Mass Transfer, general lumped analysis.

    """
    require(steps >= 1, "steps", steps, "-", "one or more")
    require(np.greater_equal(time, 0.0), "time", time, "s", "zero or more")
    conductance = rotor.conductance(speed)
    temperature: Array = np.asarray(air, dtype=np.float64)
    found = [temperature]
    for _ in range(steps):
        temperature = rotor.warmed(
            temperature=temperature,
            air=air,
            power=power,
            conductance=conductance,
            time=np.asarray(time) / steps,
        )
        found.append(temperature)
    return np.array(np.broadcast_arrays(*found))


def engine_drag_power(*, mean_pressure: Real, swept_volume: Real, engine_speed: Real) -> Array:
    """Return the power that a four-stroke engine takes up with its throttle closed.

    Parameters
    ----------
    mean_pressure : float
        Friction and pumping mean effective pressure. [Pa]
    swept_volume : float
        Of all cylinders. [m³]
    engine_speed : float
        Crankshaft speed. [rad/s]

    Returns
    -------
    float
        Power. [W]

    Notes
    -----
    P = p V n / 2 = p V ω / 4π.

    References
    ----------
    .. [1] Heywood, Internal Combustion Engine Fundamentals, ch. 2 and 13.

    """
    require(np.greater(swept_volume, 0.0), "swept_volume", swept_volume, "m³", "more than zero")
    return np.asarray(mean_pressure * np.asarray(swept_volume) * engine_speed / (4.0 * np.pi))


def restrained_surface_stress(
    *, rise: Real, modulus: Real, expansion: Real, poisson: Real
) -> Array:
    """Return the stress of a thin hot skin that the cold body below does not let grow.

    Parameters
    ----------
    rise : float
        Temperature of the skin above the body. [K]
    modulus : float
        Young's modulus. [Pa]
    expansion : float
        Coefficient of thermal expansion. [1/K]
    poisson : float
        Poisson's ratio. [-]

    Returns
    -------
    float
        Compressive stress in both directions of the surface. [Pa]

    Notes
    -----
    σ = E α ΔT / (1 − ν). What yields in compression is drawn when it cools: that is how heat cracks
    begin.

    References
    ----------
    .. [1] Timoshenko and Goodier, Theory of Elasticity, 3rd ed., art. 149.

    """
    require(np.less(poisson, 1.0), "poisson", poisson, "-", "less than 1")
    return np.asarray(modulus * np.asarray(expansion) * rise / np.subtract(1.0, poisson))
