"""Areas, paint, filler and blasting of a body; how straight a finish asks its panels to be."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
import numpy.typing as npt

from drybuild.errors import require

Array = npt.NDArray[np.float64]


def spreading_rate(*, volume_solids: npt.ArrayLike, dry_film: npt.ArrayLike) -> Array:
    """Return the area that a volume of paint covers when nothing is lost.

    Parameters
    ----------
    volume_solids : array_like
        Share of the volume that stays as film, as sprayed. [-]
    dry_film : array_like
        Film thickness when dry, all coats of this material. [m]

    Returns
    -------
    array
        Area per volume. [m²/m³]

    Notes
    -----
    S = VS/DFT; in workshop units 1000 VS/DFT[µm] in m²/L.

    References
    ----------
    .. [1] Supplier's sheet on coating coverage (reprint); the sum is conservation of volume.

    """
    solids, film = np.asarray(volume_solids, float), np.asarray(dry_film, float)
    require((solids > 0.0) & (solids <= 1.0), "volume_solids", solids, "-", "above 0, at most 1")
    require(film > 0.0, "dry_film", film, "m", "more than zero")
    return np.asarray(solids / film, dtype=np.float64)


def thinned_solids(*, volume_solids: npt.ArrayLike, thinner: npt.ArrayLike) -> Array:
    """Return the volume solids of a paint after thinning.

    Parameters
    ----------
    volume_solids : array_like
        Share of solids before. [-]
    thinner : array_like
        Volume of thinner per volume of paint. [-]

    Returns
    -------
    array
        Share of solids as sprayed. [-]

    Notes
    -----
    VS/(1 + thinner).

    References
    ----------
    .. [1] Trade page on spreading rates (reprint).

    """
    solids, added = np.asarray(volume_solids, float), np.asarray(thinner, float)
    require((solids > 0.0) & (solids <= 1.0), "volume_solids", solids, "-", "above 0, at most 1")
    require(added >= 0.0, "thinner", added, "-", "zero or more")
    return np.asarray(solids / (1.0 + added), dtype=np.float64)


def paint_volume(
    *,
    area: npt.ArrayLike,
    dry_film: npt.ArrayLike,
    volume_solids: npt.ArrayLike,
    transfer_efficiency: npt.ArrayLike,
) -> Array:
    """Return the volume of ready-to-spray paint for an area.

    Parameters
    ----------
    area : array_like
        Area to be covered. [m²]
    dry_film : array_like
        Dry film of all coats; for a surfacer the film as sprayed, before it is sanded. [m]
    volume_solids : array_like
        Share of solids as sprayed. [-]
    transfer_efficiency : array_like
        Share of the solids that lands on the panel. [-]

    Returns
    -------
    array
        Volume, ready to spray. [m³]

    Notes
    -----
    V = A DFT/(VS TE).

    References
    ----------
    .. [1] Supplier's sheet on coating coverage (reprint).

    """
    a, share = np.asarray(area, float), np.asarray(transfer_efficiency, float)
    require(a >= 0.0, "area", a, "m²", "zero or more")
    require((share > 0.0) & (share <= 1.0), "transfer_efficiency", share, "-", "above 0, at most 1")
    rate = spreading_rate(volume_solids=volume_solids, dry_film=dry_film)
    return np.asarray(a / (rate * share), dtype=np.float64)


def film_mass(*, area: npt.ArrayLike, dry_film: npt.ArrayLike, dry_density: npt.ArrayLike) -> Array:
    """Return the mass that a dry film or a layer of filler leaves on the car.

    Parameters
    ----------
    area : array_like
        Area. [m²]
    dry_film : array_like
        Thickness. [m]
    dry_density : array_like
        Density when dry. [kg/m³]

    Returns
    -------
    array
        Mass. [kg]

    Notes
    -----
    m = A t ρ.

    References
    ----------
    .. [1] Definition of density.

    """
    a, t, rho = (np.asarray(value, float) for value in (area, dry_film, dry_density))
    require(a >= 0.0, "area", a, "m²", "zero or more")
    require(t >= 0.0, "dry_film", t, "m", "zero or more")
    require(rho > 0.0, "dry_density", rho, "kg/m³", "more than zero")
    return np.asarray(a * t * rho, dtype=np.float64)


def blasting_time(*, area: npt.ArrayLike, rate: npt.ArrayLike) -> Array:
    """Return the nozzle time for blasting an area.

    Parameters
    ----------
    area : array_like
        Area. [m²]
    rate : array_like
        Area cleaned per time. [m²/s]

    Returns
    -------
    array
        Time with the nozzle open. [s]

    Notes
    -----
    t = A/r.

    References
    ----------
    .. [1] Abrasive supplier's table (reprint).

    """
    a, r = np.asarray(area, float), np.asarray(rate, float)
    require(a >= 0.0, "area", a, "m²", "zero or more")
    require(r > 0.0, "rate", r, "m²/s", "more than zero")
    return np.asarray(a / r, dtype=np.float64)


def fresnel_reflectance(*, refractive_index: npt.ArrayLike) -> Array:
    """Return the share of light that a smooth film throws back, seen square on.

    Parameters
    ----------
    refractive_index : array_like
        Refractive index of the film. [-]

    Returns
    -------
    array
        Reflectance. [-]

    Notes
    -----
    R = ((n − 1)/(n + 1))².

    References
    ----------
    .. [1] E. Hecht, "Optics", Fresnel equations at normal incidence (from memory).

    """
    n = np.asarray(refractive_index, float)
    require(n >= 1.0, "refractive_index", n, "-", "one or more")
    return np.asarray(((n - 1.0) / (n + 1.0)) ** 2, dtype=np.float64)


def reflection_contrast(
    *, mirror: npt.ArrayLike, gloss: npt.ArrayLike, body_reflectance: npt.ArrayLike
) -> Array:
    """Return how strongly a mirrored edge stands out from the colour under it.

    Parameters
    ----------
    mirror : array_like
        Reflectance of the film's surface. [-]
    gloss : array_like
        Share of that reflectance which stays a sharp image: 1 for a polished finish. [-]
    body_reflectance : array_like
        Share of light that the colour scatters back: about 0.03 for black, 0.8 for white. [-]

    Returns
    -------
    array
        Contrast from 0 to 1. [-]

    Notes
    -----
    C = g R/(g R + (1 − g) R + ρ): the bright side of a mirrored edge over a dark side, both on top
    of what the colour and the dull share of the surface scatter.

    References
    ----------
    .. [1] Weber contrast, definition; that a dark gloss finish needs straighter panels than any
       other is common practice, no source.

    """
    r, g = np.asarray(mirror, float), np.asarray(gloss, float)
    rho = np.asarray(body_reflectance, float)
    require((r > 0.0) & (r < 1.0), "mirror", r, "-", "between zero and one")
    require((g >= 0.0) & (g <= 1.0), "gloss", g, "-", "from zero to one")
    require((rho > 0.0) & (rho < 1.0), "body_reflectance", rho, "-", "between zero and one")
    return np.asarray(g * r / (r + rho), dtype=np.float64)


def allowed_waviness(
    *, wave_length: npt.ArrayLike, allowed_slope: npt.ArrayLike, contrast: npt.ArrayLike
) -> Array:
    """Return the depth of a gentle wave that a finish still hides.

    Parameters
    ----------
    wave_length : array_like
        Length of the wave along the panel. [m]
    allowed_slope : array_like
        Slope that just shows where the mirrored image has full contrast. [rad]
    contrast : array_like
        Contrast of the mirrored image. [-]

    Returns
    -------
    array
        Depth from crest to trough. [m]

    Notes
    -----
    A wave of depth d and length λ has the slope π d/λ; a mirror turns the image by twice that. The
    slope that shows is taken inversely proportional to the contrast (a stated assumption).

    References
    ----------
    .. [1] Law of reflection; the assumption is common practice, no source.

    """
    length, slope = np.asarray(wave_length, float), np.asarray(allowed_slope, float)
    c = np.asarray(contrast, float)
    require(length > 0.0, "wave_length", length, "m", "more than zero")
    require(slope > 0.0, "allowed_slope", slope, "rad", "more than zero")
    require((c > 0.0) & (c <= 1.0), "contrast", c, "-", "above 0, at most 1")
    return np.asarray(length * slope / (np.pi * c), dtype=np.float64)


def cure_time(*, time_at_20_celsius: npt.ArrayLike, temperature: npt.ArrayLike) -> Array:
    """Return the curing time at another temperature.

    Parameters
    ----------
    time_at_20_celsius : array_like
        Curing time at 20 °C, from the data sheet. [s]
    temperature : array_like
        Temperature of the panel. [K]

    Returns
    -------
    array
        Curing time; nan below 10 °C and above 70 °C, where the rule says nothing. [s]

    Notes
    -----
    The rate halves for every 10 K less: t = t₂₀ 2^((293.15 − T)/10). The data sheet decides; below
    about 10 °C many two-pack paints do not cure at all.

    References
    ----------
    .. [1] Common practice, no source.

    """
    base, kelvin = np.asarray(time_at_20_celsius, float), np.asarray(temperature, float)
    require(base > 0.0, "time_at_20_celsius", base, "s", "more than zero")
    inside = (kelvin >= 283.15) & (kelvin <= 343.15)
    require(kelvin > 0.0, "temperature", kelvin, "K", "more than zero")
    time = base * 2.0 ** ((293.15 - kelvin) / 10.0)
    return np.asarray(np.where(inside, time, np.nan), dtype=np.float64)


def spray_airflow(*, width: npt.ArrayLike, height: npt.ArrayLike, speed: npt.ArrayLike) -> Array:
    """Return the airflow that sweeps a spray place's whole cross-section.

    Parameters
    ----------
    width : array_like
        Width of the cross-section. [m]
    height : array_like
        Height of the cross-section. [m]
    speed : array_like
        Air speed. [m/s]

    Returns
    -------
    array
        Airflow. [m³/s]

    Notes
    -----
    Q = w h v.

    References
    ----------
    .. [1] Continuity, definition; US rules ask for about 0.5 m/s (29 CFR 1910.94(c), from memory).

    """
    w, h, v = (np.asarray(value, float) for value in (width, height, speed))
    require((w > 0.0) & (h > 0.0), "width", w, "m", "more than zero, as the height")
    require(v > 0.0, "speed", v, "m/s", "more than zero")
    return np.asarray(w * h * v, dtype=np.float64)


def clearance_time(
    *,
    volume: npt.ArrayLike,
    airflow: npt.ArrayLike,
    mixing: npt.ArrayLike,
    left: npt.ArrayLike,
) -> Array:
    """Return how long a ventilated place takes until a share of a mist is left.

    Parameters
    ----------
    volume : array_like
        Volume of the place. [m³]
    airflow : array_like
        Air drawn through it. [m³/s]
    mixing : array_like
        How much worse than evenly mixed it is swept: 1 at best, 2 to 3 in a garage. [-]
    left : array_like
        Share that is left. [-]

    Returns
    -------
    array
        Time; the air-fed mask stays on until then. [s]

    Notes
    -----
    C = C₀ exp(−Q t/(K V)), so t = K V/Q · ln(1/left).

    References
    ----------
    .. [1] Dilution ventilation, any text on industrial hygiene (from memory).

    """
    v, q, k, c = (np.asarray(one, float) for one in (volume, airflow, mixing, left))
    require((v > 0.0) & (q > 0.0), "airflow", q, "m³/s", "more than zero, as the volume")
    require(k >= 1.0, "mixing", k, "-", "one or more")
    require((c > 0.0) & (c <= 1.0), "left", c, "-", "above 0, at most 1")
    return np.asarray(k * v / q * np.log(1.0 / c), dtype=np.float64)


def cure_factor(*, temperature: npt.ArrayLike) -> Array:
    """Return how much longer flash and cure take than at 20 °C.

    Parameters
    ----------
    temperature : array_like
        Temperature of the panel. [K]

    Returns
    -------
    array
        Factor on time; nan where the rule says nothing. [-]

    Notes
    -----
    As `cure_time`: twice for every 10 K less.

    References
    ----------
    .. [1] Common practice, no source.

    """
    return cure_time(time_at_20_celsius=1.0, temperature=temperature)


def stage_time(
    *,
    area: npt.ArrayLike,
    coats: int,
    gun_rate: npt.ArrayLike,
    flash: npt.ArrayLike,
) -> Array:
    """Return the time in the spray place for all coats of a material.

    Parameters
    ----------
    area : array_like
        Area. [m²]
    coats : int
        Number of coats. [-]
    gun_rate : array_like
        Area that the gun covers in a time. [m²/s]
    flash : array_like
        Wait after each coat, at the shop's temperature. [s]

    Returns
    -------
    array
        Spraying and flashing off. [s]

    Notes
    -----
    n (A/r) + n t_f; a coat that takes longer to lay than its flash still waits at its last panel.

    References
    ----------
    .. [1] Common practice, no source.

    """
    a, r, f = (np.asarray(one, float) for one in (area, gun_rate, flash))
    require(a >= 0.0, "area", a, "m²", "zero or more")
    require(coats >= 1, "coats", coats, "-", "one or more")
    require(r > 0.0, "gun_rate", r, "m²/s", "more than zero")
    return np.asarray(coats * (a / r + f), dtype=np.float64)


def tins_for(*, volume: float, sizes: Sequence[float]) -> tuple[int, ...]:
    """Return how many tins of each size hold a volume with the least left over.

    Parameters
    ----------
    volume : float
        What is needed. [m³]
    sizes : sequence of float
        Sizes that it is sold in. [m³]

    Returns
    -------
    tuple of int
        Tins of each size; of two buys with the same volume the one with fewer tins. [-]

    Notes
    -----
    Least total volume that covers the need, found step by step in tenths of a litre over all
    reachable totals (unbounded knapsack).

    References
    ----------
    .. [1] R. Bellman, "Dynamic Programming", 1957 (from memory).

    """
    require(volume >= 0.0, "volume", volume, "m³", "zero or more")
    require(len(sizes) > 0 and min(sizes) > 0.0, "sizes", tuple(sizes), "m³", "more than zero")
    step = 1e-4
    steps = [round(size / step) for size in sizes]
    wanted = int(np.ceil(volume / step - 1e-9))
    best: dict[int, tuple[int, tuple[int, ...]]] = {0: (0, (0,) * len(sizes))}
    for total in range(1, wanted + max(steps)):
        ways = []
        for place, size in enumerate(steps):
            if total - size in best:
                count, tins = best[total - size]
                ways.append((count + 1, (*tins[:place], tins[place] + 1, *tins[place + 1 :])))
        if ways:
            best[total] = min(ways)
    return best[min(total for total in best if total >= wanted)][1]
