"""Ride on a random road: ISO 8608 roughness, quarter car and half car, ISO 2631-1 weighting."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from drybuild.errors import require

Values = float | npt.NDArray[np.float64]
Spectrum = npt.NDArray[np.complex128]
Real = npt.NDArray[np.float64]

REFERENCE_WAVENUMBER = 0.1  # [cycle/m], ISO 8608


def road_elevation_psd_iso_8608(*, wavenumber: Values, roughness: Values) -> Values:
    """Return the power spectral density of a road's height.

    Parameters
    ----------
    wavenumber : float or array
        Cycles per length. [1/m]
    roughness : float or array
        Density at 0.1 cycle/m. [m³]

    Returns
    -------
    float or array
        One-sided density. [m³]

    Notes
    -----
    G(n) = G(n₀) (n/n₀)⁻², n₀ = 0.1 cycle/m.

    References
    ----------
    .. [1] ISO 8608, "Mechanical vibration – Road surface profiles", Annex C.

    """
    require(np.greater(wavenumber, 0.0), "wavenumber", wavenumber, "1/m", "more than zero")
    return roughness * (wavenumber / REFERENCE_WAVENUMBER) ** -2.0


def road_elevation_rms(
    *, roughness: Values, lowest_wavenumber: Values, highest_wavenumber: Values
) -> Values:
    """Return the root mean square of a road's height within a band of wavelengths.

    Parameters
    ----------
    roughness : float or array
        Density at 0.1 cycle/m. [m³]
    lowest_wavenumber : float or array
        Lower end of the band. [1/m]
    highest_wavenumber : float or array
        Upper end of the band. [1/m]

    Returns
    -------
    float or array
        Height. [m]

    Notes
    -----
    σ² = G(n₀) n₀² (1/n₁ − 1/n₂).

    References
    ----------
    .. [1] ISO 8608, Annex C; the integral of its spectrum.

    """
    require(np.greater(lowest_wavenumber, 0.0), "lowest_wavenumber", lowest_wavenumber, "1/m", ">0")
    band = 1.0 / lowest_wavenumber - 1.0 / highest_wavenumber
    return np.sqrt(roughness * REFERENCE_WAVENUMBER**2 * band)


def road_velocity_level(*, roughness: Values, speed: Values) -> Values:
    """Return the flat density of the vertical velocity with which a road meets a moving wheel.

    Parameters
    ----------
    roughness : float or array
        Density at 0.1 cycle/m. [m³]
    speed : float or array
        Speed. [m/s]

    Returns
    -------
    float or array
        One-sided density per hertz, the same at every frequency. [m²/s]

    Notes
    -----
    (2π)² G(n₀) n₀² V.

    References
    ----------
    .. [1] ISO 8608, Annex C; differentiated in time.

    """
    require(np.greater(speed, 0.0), "speed", speed, "m/s", "more than zero")
    return (2.0 * np.pi * REFERENCE_WAVENUMBER) ** 2 * roughness * speed


def vertical_weighting_iso_2631(*, frequency: Values) -> Real:
    """Return the weight W_k that a seated person's vertical vibration has at a frequency.

    Parameters
    ----------
    frequency : float or array
        Frequency. [Hz]

    Returns
    -------
    array
        Magnitude of the weighting. [-]

    Notes
    -----
    High pass 0.4 Hz, low pass 100 Hz (both second order, Q = 1/√2), transition at 12.5 Hz
    (Q 0.63), upward step 2.37 Hz to 3.35 Hz (Q 0.91).

    References
    ----------
    .. [1] ISO 2631-1:1997, Annex A.

    """
    require(np.greater(frequency, 0.0), "frequency", frequency, "Hz", "more than zero")
    s = _laplace(frequency)
    low, high, turn, start, end = (2.0 * np.pi * f for f in (0.4, 100.0, 12.5, 2.37, 3.35))
    band = 1.0 / (1.0 + np.sqrt(2.0) * low / s + (low / s) ** 2)
    band = band / (1.0 + np.sqrt(2.0) * s / high + (s / high) ** 2)
    transition = (1.0 + s / turn) / (1.0 + s / (0.63 * turn) + (s / turn) ** 2)
    step = 1.0 + s / (0.91 * start) + (s / start) ** 2
    step = step / (1.0 + s / (0.91 * end) + (s / end) ** 2) * (start / end) ** 2
    weight: Real = np.abs(band * transition * step)
    return weight


@dataclass(frozen=True, kw_only=True)
class SprungWheel:
    """A wheel, or the two of an axle together, between the road and the body."""

    unsprung_mass: Values
    """[kg]"""
    spring_rate: Values
    """Suspension rate at the wheel. [N/m]"""
    damping: Values
    """Damper coefficient at the wheel. [N·s/m]"""
    tyre_rate: Values
    """[N/m]"""

    def __post_init__(self) -> None:
        for name in ("unsprung_mass", "spring_rate", "damping", "tyre_rate"):
            value = getattr(self, name)
            require(np.greater(value, 0.0), name, value, "SI", "more than zero")


@dataclass(frozen=True, kw_only=True)
class QuarterCar:
    """One wheel with its share of the body."""

    sprung_mass: Values
    """[kg]"""
    wheel: SprungWheel


@dataclass(frozen=True, kw_only=True)
class QuarterCarResponse:
    """Motions per road height, complex, at given frequencies."""

    body: Spectrum
    """Body travel. [-]"""
    stroke: Spectrum
    """Body over wheel: suspension travel. [-]"""
    tyre: Spectrum
    """Wheel over road: tyre deflection. [-]"""


def quarter_car_response(*, frequency: Values, car: QuarterCar) -> QuarterCarResponse:
    """Return how body, suspension and tyre of a quarter car answer a sine road.

    Parameters
    ----------
    frequency : float or array
        Frequency; must broadcast with the car's values. [Hz]
    car : QuarterCar
        The quarter car. [-]

    Returns
    -------
    QuarterCarResponse
        Complex ratios to the road's height.

    Notes
    -----
    m_s z̈_s = −F, m_u z̈_u = F + k_t (z_r − z_u), F = k (z_s − z_u) + c (ż_s − ż_u).

    References
    ----------
    .. [1] R. Rajamani, "Vehicle Dynamics and Control", 2nd ed. 2012, ch. 10.

    """
    s = _laplace(frequency)
    wheel = car.wheel
    link = wheel.spring_rate + wheel.damping * s
    wheel_own = wheel.unsprung_mass * s**2 + wheel.tyre_rate + link
    body_own = car.sprung_mass * s**2 + link
    body: Spectrum = link * wheel.tyre_rate / (wheel_own * body_own - link**2)
    unsprung: Spectrum = body * body_own / link
    return QuarterCarResponse(body=body, stroke=body - unsprung, tyre=unsprung - 1.0)


@dataclass(frozen=True, kw_only=True)
class QuarterCarOnRoad:
    """Root mean square motions of a quarter car on a random road, all frequencies."""

    body_acceleration: Values
    """Not weighted. [m/s²]"""
    stroke: Values
    """Suspension travel. [m]"""
    tyre_force: Values
    """Change of the wheel's load. [N]"""


def quarter_car_on_random_road(*, car: QuarterCar, velocity_level: Values) -> QuarterCarOnRoad:
    """Return the exact motions of a quarter car on a road whose velocity is white.

    Parameters
    ----------
    car : QuarterCar
        The quarter car. [-]
    velocity_level : float or array
        One-sided density of the road's vertical velocity. [m²/s]

    Returns
    -------
    QuarterCarOnRoad
        Root mean squares.

    Notes
    -----
    With Q half the level: σ²(z̈_s) = (Q/2) [k_t c/m_s² + (m_s + m_u) k²/(c m_s²)],
    σ²(stroke) = Q (m_s + m_u)/(2c); the tyre's by the fourth-order integral of the transfer
    function from road velocity to tyre deflection.

    References
    ----------
    .. [1] H. M. James, N. B. Nichols, R. S. Phillips, "Theory of Servomechanisms", 1947, I₄.
    .. [2] D. Hrovat, "Survey of Advanced Suspension Developments", Automatica, 1997.

    """
    require(np.greater_equal(velocity_level, 0.0), "velocity_level", velocity_level, "m²/s", ">= 0")
    half, wheel = velocity_level / 2.0, car.wheel
    total = car.sprung_mass + wheel.unsprung_mass
    masses = car.sprung_mass * wheel.unsprung_mass
    springy = total * wheel.spring_rate**2 / (wheel.damping * car.sprung_mass**2)
    damped = wheel.tyre_rate * wheel.damping / car.sprung_mass**2
    tyre = half * _fourth_order_integral(
        numerator=(total * wheel.spring_rate, total * wheel.damping, masses),
        denominator=(
            wheel.spring_rate * wheel.tyre_rate,
            wheel.damping * wheel.tyre_rate,
            car.sprung_mass * wheel.tyre_rate + total * wheel.spring_rate,
            total * wheel.damping,
            masses,
        ),
    )
    return QuarterCarOnRoad(
        body_acceleration=np.sqrt(half / 2.0 * (damped + springy)),
        stroke=np.sqrt(half * total / (2.0 * wheel.damping)),
        tyre_force=wheel.tyre_rate * np.sqrt(tyre),
    )


@dataclass(frozen=True, kw_only=True)
class HalfCar:
    """A rigid body on a front and a rear axle, seen from the side; rates are per axle."""

    front: SprungWheel
    rear: SprungWheel
    sprung_mass: Values
    """[kg]"""
    pitch_inertia: Values
    """Of the sprung mass about its centre of gravity. [kg·m²]"""
    front_distance: Values
    """From the front axle to the sprung centre of gravity. [m]"""
    rear_distance: Values
    """From the sprung centre of gravity to the rear axle. [m]"""


@dataclass(frozen=True, kw_only=True)
class AxleShares:
    """What each axle's road does to a point of the body, complex, at given frequencies."""

    front: Spectrum
    """Travel of the point over road height under the front axle. [-]"""
    rear: Spectrum
    """Over road height under the rear axle. [-]"""
    wheelbase: Values
    """[m]"""


def half_car_shares(*, frequency: Values, car: HalfCar, point_ahead: Values) -> AxleShares:
    """Return how a point of the body moves when one axle at a time runs over a sine road.

    Parameters
    ----------
    frequency : float or array
        Frequency; must broadcast with the car's values. [Hz]
    car : HalfCar
        The car. [-]
    point_ahead : float or array
        Distance of the point ahead of the centre of gravity. [m]

    Returns
    -------
    AxleShares
        One spectrum an axle.

    Notes
    -----
    Each axle passes A_i z_r,i − B_i z_i to the body, with the wheel's own motion eliminated:
    A = (k + cs) k_t / N, B = (k + cs)(m_u s² + k_t) / N, N = m_u s² + k_t + k + cs. Bounce and
    pitch then solve as two equations.

    References
    ----------
    .. [1] J. Y. Wong, "Theory of Ground Vehicles", 3rd ed. 2001, ch. 7.

    """
    s = _laplace(frequency)
    given_front, kept_front = _axle(car.front, s)
    given_rear, kept_rear = _axle(car.rear, s)
    a, b = car.front_distance, car.rear_distance
    heave = car.sprung_mass * s**2 + kept_front + kept_rear
    mixed = a * kept_front - b * kept_rear
    pitch = car.pitch_inertia * s**2 + a**2 * kept_front + b**2 * kept_rear
    bottom = heave * pitch - mixed**2
    # Unit force at a lever moves the point by rise and nose-up at once.
    by_force = (pitch - point_ahead * mixed) / bottom
    by_moment = (point_ahead * heave - mixed) / bottom
    return AxleShares(
        front=given_front * (by_force + a * by_moment),
        rear=given_rear * (by_force - b * by_moment),
        wheelbase=a + b,
    )


def both_axles_on_one_road(*, frequency: Values, shares: AxleShares, speed: Values) -> Spectrum:
    """Return how the point moves when both axles run over the same sine road.

    Parameters
    ----------
    frequency : float or array
        Frequency, as the shares were made for. [Hz]
    shares : AxleShares
        What each axle's road does. [-]
    speed : float or array
        Speed, which sets how late the rear axle meets the road. [m/s]

    Returns
    -------
    array
        Vertical travel of the point over road height under the front axle, complex. [-]

    Notes
    -----
    The rear road is the front road late by L/V.

    References
    ----------
    .. [1] J. Y. Wong, "Theory of Ground Vehicles", 3rd ed. 2001, ch. 7.

    """
    require(np.greater(speed, 0.0), "speed", speed, "m/s", "more than zero")
    turned = 2.0 * np.pi * np.asarray(frequency) * (shares.wheelbase / speed)
    late = np.empty(turned.shape, dtype=np.complex128)
    late.real, late.imag = np.cos(turned), -np.sin(turned)
    answer: Spectrum = shares.front + shares.rear * late
    return answer


def weighted_acceleration_iso_2631(
    *, frequency: Real, response: Spectrum, velocity_level: Values
) -> Values:
    """Return the frequency-weighted vertical acceleration of a point on a random road.

    Parameters
    ----------
    frequency : array
        Rising frequencies, along the first axis of `response`. [Hz]
    response : array
        Travel of the point over road height at them. [-]
    velocity_level : float or array
        One-sided density of the road's vertical velocity. [m²/s]

    Returns
    -------
    float or array
        Weighted root mean square acceleration. [m/s²]

    Notes
    -----
    a_w² = ∫ |W_k ω H|² G_v df by the trapezoid rule over the logarithm of frequency. Without a
    seat it ranks cars; it does not predict what a person reports.

    References
    ----------
    .. [1] ISO 2631-1:1997, 6.4.

    """
    omega = 2.0 * np.pi * frequency
    weight = vertical_weighting_iso_2631(frequency=frequency)
    counts = np.square(omega * weight) * omega * _trapezoids(np.log(frequency))
    moved = np.square(response.real) + np.square(response.imag)
    square = np.tensordot(counts, moved, axes=1) / (2.0 * np.pi)
    weighted: Values = np.sqrt(square * velocity_level)
    return weighted


def _trapezoids(places: Real) -> Real:
    """Return what each of some rising places counts for in an integral by trapezoids."""
    half = np.diff(places) / 2.0
    return np.asarray(np.append(half, 0.0) + np.append(0.0, half), dtype=np.float64)


def _laplace(frequency: Values) -> Spectrum:
    return np.asarray(2j * np.pi * np.asarray(frequency, dtype=np.float64), dtype=np.complex128)


def _axle(axle: SprungWheel, s: Spectrum) -> tuple[Spectrum, Spectrum]:
    """Return force on the body per road height and per (minus) body travel."""
    link = axle.spring_rate + axle.damping * s
    wheel = axle.unsprung_mass * s**2 + axle.tyre_rate
    bottom = wheel + link
    return link * axle.tyre_rate / bottom, link * wheel / bottom


def _fourth_order_integral(
    *, numerator: tuple[Values, ...], denominator: tuple[Values, ...]
) -> Values:
    """Return the variance that unit two-sided white noise leaves behind a fourth-order filter.

    Coefficients run from the constant up; the numerator here starts at the power of one.
    """
    b1, b2, b3 = numerator
    a0, a1, a2, a3, a4 = denominator
    top = b3**2 * (a0 * a1 * a2 - a0**2 * a3)
    top = top + (b2**2 - 2.0 * b1 * b3) * a0 * a1 * a4
    top = top + b1**2 * a0 * a3 * a4
    return top / (2.0 * a0 * a4 * (a1 * a2 * a3 - a0 * a3**2 - a1**2 * a4))
