"""The whole car from the side on a random road: springs, tyres, pitch; both axles on one track."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np
import numpy.typing as npt

from drybuild.errors import require
from drybuild.physics.ride import (
    AxleShares,
    HalfCar,
    SprungWheel,
    both_axles_on_one_road,
    half_car_shares,
)

Values = float | npt.NDArray[np.float64]
Array = npt.NDArray[np.float64]
Spectrum = npt.NDArray[np.complex128]
RELEASE = 1.0
"""Distance ahead of the centre of gravity at which pitch is read off against it. [m]"""


@dataclass(frozen=True, kw_only=True)
class AxleSpectra:
    """One axle's motions per road height under the front axle, complex."""

    stroke: Spectrum
    """Body over wheel. [-]"""
    tyre: Spectrum
    """Wheel over road. [-]"""


@dataclass(frozen=True, kw_only=True)
class HalfCarSpectra:
    """The car's motions per road height under the front axle, complex."""

    front: AxleSpectra
    rear: AxleSpectra


def half_car_spectra(*, frequency: Values, car: HalfCar, speed: Values) -> HalfCarSpectra:
    """Return what a sine road does to springs and tyres of both axles.

    Parameters
    ----------
    frequency : float or array
        Frequency; must broadcast with the car's values. [Hz]
    car : HalfCar
        The car. [-]
    speed : float or array
        Speed, which sets how late the rear axle meets the road. [m/s]

    Returns
    -------
    HalfCarSpectra
        Complex ratios.

    Notes
    -----
    The body over each axle as `half_car_shares` gives it; the wheel from its own balance
    z_u = ((k + cs) z_b + k_t z_r)/(m_u s² + k_t + k + cs); the rear road late by L/V.

    References
    ----------
    .. [1] J. Y. Wong, "Theory of Ground Vehicles", 3rd ed. 2001, ch. 7.

    """
    late = np.exp(-2j * np.pi * frequency * (car.front_distance + car.rear_distance) / speed)

    def body_at(ahead: Values) -> Spectrum:
        shares = half_car_shares(frequency=frequency, car=car, point_ahead=ahead)
        return both_axles_on_one_road(frequency=frequency, shares=shares, speed=speed)

    return HalfCarSpectra(
        front=_axle(car.front, frequency, body_at(car.front_distance), np.ones_like(late)),
        rear=_axle(car.rear, frequency, body_at(-car.rear_distance), late),
    )


def pitch_shares(*, frequency: Values, car: HalfCar) -> AxleShares:
    """Return how the body pitches when one axle at a time runs over a sine road.

    Parameters
    ----------
    frequency : float or array
        Frequency; must broadcast with the car's values. [Hz]
    car : HalfCar
        The car. [-]

    Returns
    -------
    AxleShares
        Nose-up angle per road height, one spectrum an axle.

    Notes
    -----
    A point ahead of the centre of gravity moves more than the centre by its distance times pitch.

    References
    ----------
    .. [1] J. Y. Wong, "Theory of Ground Vehicles", 3rd ed. 2001, ch. 7.

    """
    ahead = half_car_shares(frequency=frequency, car=car, point_ahead=RELEASE)
    middle = half_car_shares(frequency=frequency, car=car, point_ahead=0.0)
    return replace(
        ahead,
        front=(ahead.front - middle.front) / RELEASE,
        rear=(ahead.rear - middle.rear) / RELEASE,
    )


def rms_on_road(
    *, frequency: Array, response: Spectrum, velocity_level: Values, order: int
) -> Array:
    """Return the root mean square of a motion, or of its rate or acceleration, on a random road.

    Parameters
    ----------
    frequency : array
        Rising frequencies, along the first axis of `response`. [Hz]
    response : array
        The motion over road height at them. [-]
    velocity_level : float or array
        One-sided density of the road's vertical velocity. [m²/s]
    order : int
        0 for the motion, 1 for its rate, 2 for its acceleration. [-]

    Returns
    -------
    array
        Root mean square over the band of the frequencies, in the motion's unit. [m]

    Notes
    -----
    σ² = ∫ |H ωᵏ/ω|² G_v df, by the trapezoid rule over the logarithm of frequency.

    References
    ----------
    .. [1] J. Y. Wong, "Theory of Ground Vehicles", 3rd ed. 2001, ch. 7.

    """
    require(np.greater_equal(velocity_level, 0.0), "velocity_level", velocity_level, "m²/s", ">= 0")
    omega = (2.0 * np.pi * frequency).reshape((-1,) + (1,) * (response.ndim - 1))
    density = np.square(np.abs(response) * omega ** (order - 1)) * omega
    step = np.diff(np.log(frequency)).reshape((-1,) + (1,) * (response.ndim - 1))
    square = np.sum((density[1:] + density[:-1]) / 2.0 * step, axis=0) / (2.0 * np.pi)
    return np.asarray(np.sqrt(square * velocity_level), dtype=np.float64)


def crossings(*, motion: Values, rate: Values, level: Values) -> Array:
    """Return how often a Gaussian motion rises past a level, per time.

    Parameters
    ----------
    motion : float or array
        Root mean square of the motion. [m]
    rate : float or array
        Root mean square of its rate. [m/s]
    level : float or array
        The level, from the motion's middle. [m]

    Returns
    -------
    array
        Crossings upward. [1/s]

    Notes
    -----
    ν = (σ_v/(2π σ_x)) exp(−x²/(2σ_x²)).

    References
    ----------
    .. [1] S. O. Rice, "Mathematical Analysis of Random Noise", Bell System Technical Journal,
       1945, part III.

    """
    require(np.greater(motion, 0.0), "motion", motion, "m", "more than zero")
    past = np.exp(-np.square(level) / (2.0 * np.square(motion)))
    return np.asarray(rate / (2.0 * np.pi * motion) * past, dtype=np.float64)


def resprung(*, car: HalfCar, springs: Values, damping: Values) -> HalfCar:
    """Return a car with other springs and dampers at both ends.

    Parameters
    ----------
    car : HalfCar
        The car. [-]
    springs : float or array
        Factor on both spring rates. [-]
    damping : float or array
        Factor on both damping coefficients. [-]

    Returns
    -------
    HalfCar
        The same car, sprung anew.

    Notes
    -----
    Tyres and masses stay.

    References
    ----------
    .. [1] Definition.

    """

    def other(wheel: SprungWheel) -> SprungWheel:
        return replace(
            wheel, spring_rate=wheel.spring_rate * springs, damping=wheel.damping * damping
        )

    return replace(car, front=other(car.front), rear=other(car.rear))


def _axle(wheel: SprungWheel, frequency: Values, body: Spectrum, road: Spectrum) -> AxleSpectra:
    s = 2j * np.pi * np.asarray(frequency)
    link = wheel.spring_rate + wheel.damping * s
    own = wheel.unsprung_mass * s**2 + wheel.tyre_rate + link
    unsprung = (link * body + wheel.tyre_rate * road) / own
    return AxleSpectra(
        stroke=np.asarray(body - unsprung, dtype=np.complex128),
        tyre=np.asarray(unsprung - road, dtype=np.complex128),
    )
