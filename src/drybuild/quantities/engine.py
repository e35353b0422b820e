"""The engine's full-load curve, and what follows from it."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from drybuild.errors import MissingInput
from drybuild.physics import engine as physics
from drybuild.project.engine import Engine
from drybuild.project.samples import Values
from drybuild.quantities.quantity import Labelled, quantity, step

GREATEST_MEAN_PRESSURE = 0.9 * 1050e3  # [Pa], Heywood sec. 2.7: at the power peak, no boost
ATMOSPHERE = 101325.0  # [Pa], ISO 2533
LIMIT_OVER_RATED = 1.10  # [-], common practice
GENERIC_TORQUE_RISE = 1.25  # [-], peak torque of the generic cubic curve over that at peak power
GENERIC_TORQUE_SPEED = 0.5  # [-], speed of that peak over the rated speed
SHARES = (0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9, 1.0)
"""Shares of the limit speed at which the full-load torque is listed."""


@dataclass(frozen=True, kw_only=True)
class EngineCurve:
    """Full-load torque at even steps of engine speed up to the limit; last axis samples."""

    limit_speed: Values
    torque: Values


@dataclass(frozen=True, kw_only=True)
class Peaks:
    """The two peaks that a full-load curve is drawn through."""

    power: Values
    rated_speed: Values
    torque: Values
    band_start: Values
    band_end: Values


@step("Peaks of the full-load curve", source="artamonov-1976")
def engine_peaks(engine: Engine) -> Peaks:
    """Take them from a curve, else as given, else from displacement and piston speed."""
    if engine.has("curve"):
        return _peaks_of_curve(engine)
    power = _power(engine)
    torque = engine.torque if engine.has("torque") else None
    if engine.kind == "electric":
        if torque is None:
            raise MissingInput(engine.path_of("torque"), "an electric motor needs its torque")
        base = power / torque.value
        return Peaks(
            power=power, rated_speed=base, torque=torque.value, band_start=0.0 * base, band_end=base
        )
    rated = _rated_speed(engine, power)
    start, end = GENERIC_TORQUE_SPEED * rated, GENERIC_TORQUE_SPEED * rated
    if torque is None:
        peak = GENERIC_TORQUE_RISE * power / rated
    else:
        peak = torque.value
        if torque.start is not None and torque.end is not None:
            start, end = torque.start, torque.end
    return Peaks(power=power, rated_speed=rated, torque=peak, band_start=start, band_end=end)


@quantity("W", "Peak power at the flywheel", source="the-build-file", shown="kW")
def peak_power(engine_peaks: Peaks) -> Values:
    """Take it as given or as the curve has it, else as engines of this size usually have it."""
    return engine_peaks.power


@quantity("rad/s", "Engine speed at peak power", source="heywood-1988-ch2", shown="rpm")
def engine_rated_speed(engine_peaks: Peaks) -> Values:
    """Take it as given, else where the pistons reach their usual speed.

    It is no slower than where the power would take more than the greatest usual mean pressure.
    """
    return engine_peaks.rated_speed


@quantity("N·m", "Peak torque at the flywheel", source="artamonov-1976")
def peak_torque(engine_peaks: Peaks) -> Values:
    """Take it as given, else 1.25 times the torque at peak power, as the generic curve has it."""
    return engine_peaks.torque


@quantity("rad/s", "Engine speed at which peak torque begins", source="artamonov-1976", shown="rpm")
def peak_torque_speed(engine_peaks: Peaks) -> Values:
    """Take it as given, else half the speed of peak power."""
    return engine_peaks.band_start


@quantity("rad/s", "Highest engine speed", source="common-practice", shown="rpm")
def engine_limit_speed(engine: Engine, engine_peaks: Peaks) -> Values:
    """Take it as given, else the end of the measured curve, or 10 % above peak power's."""
    if engine.has("curve"):
        end: Values = engine.curve.x[-1] + 0.0 * engine_peaks.power
        return np.minimum(engine.limit_speed, end) if engine.has("limit_speed") else end
    if engine.has("limit_speed") or engine.kind == "electric":
        return engine.limit_speed
    return LIMIT_OVER_RATED * engine_peaks.rated_speed


@step("Full-load torque curve", source="artamonov-1976")
def engine_curve(engine: Engine, engine_peaks: Peaks, engine_limit_speed: Values) -> EngineCurve:
    """Draw it through the measured points, or through the peaks."""
    limit = engine_limit_speed + 0.0 * engine_peaks.power
    speeds = physics.curve_speeds(limit_speed=limit)
    if engine.has("curve"):
        torque = physics.torque_from_points(
            engine_speed=speeds,
            speeds=engine.curve.x[:, np.newaxis] + 0.0 * engine.curve.y,
            torques=engine.curve.y,
        )
    elif engine.kind == "electric":
        torque = np.minimum(engine_peaks.torque, engine_peaks.power / np.maximum(speeds, 1e-6))
    else:
        torque = physics.torque_through_peaks(
            engine_speed=speeds,
            peak_power=engine_peaks.power,
            rated_speed=engine_peaks.rated_speed,
            peak_torque=engine_peaks.torque,
            band_start=engine_peaks.band_start,
            band_end=engine_peaks.band_end,
        )
    return EngineCurve(limit_speed=limit, torque=np.asarray(torque))


@quantity(
    "N·m",
    "Full-load torque along the speed range",
    per="share of the highest speed",
    source="artamonov-1976",
)
def full_load_torque(engine_curve: EngineCurve) -> Labelled:
    """List the curve at shares of the highest speed."""
    last = len(engine_curve.torque) - 1
    return {f"{share:.0%}": engine_curve.torque[round(share * last)] for share in SHARES}


@quantity(
    "W",
    "Full-load power along the speed range",
    per="share of the highest speed",
    source="artamonov-1976",
    shown="kW",
)
def full_load_power(full_load_torque: Labelled, engine_limit_speed: Values) -> Labelled:
    """List torque times speed."""
    return {
        label: torque * engine_limit_speed * float(label.rstrip("%")) / 100.0
        for label, torque in full_load_torque.items()
    }


@quantity("-", "Peak torque over the torque at peak power", source="gtcars")
def torque_rise(engine_peaks: Peaks) -> Values:
    """Show how far the engine digs in; 47 cars of 2014 to 2017 have 1.00 to 1.27."""
    return engine_peaks.torque * engine_peaks.rated_speed / engine_peaks.power


@quantity("W/m³", "Peak power for the swept volume", source="definition", shown="kW/l")
def specific_power(engine: Engine, peak_power: Values) -> Values:
    """Divide peak power by the swept volume."""
    return peak_power / _swept_volume(engine)


@quantity("Pa", "Mean effective pressure at peak torque", source="heywood-1988-ch2", shown="bar")
def peak_mean_pressure(engine: Engine, peak_torque: Values) -> Values:
    """Compare with the 8.5 to 10.5 bar that unboosted petrol engines reach."""
    return np.asarray(
        physics.mean_effective_pressure(torque=peak_torque, swept_volume=_swept_volume(engine))
    )


@quantity("m/s", "Mean piston speed at peak power", source="heywood-1988-ch2")
def mean_piston_speed(engine: Engine, engine_rated_speed: Values) -> Values:
    """Take the stroke as given, else that of an engine as long in the stroke as in the bore."""
    swept = _swept_volume(engine)
    stroke = (
        engine.stroke
        if engine.has("stroke")
        else physics.square_stroke(swept_volume=swept, cylinders=engine.cylinders)
    )
    return np.asarray(physics.mean_piston_speed(engine_speed=engine_rated_speed, stroke=stroke))


@quantity("Hz", "Firing frequency at idle", source="definition")
def idle_firing_frequency(engine: Engine) -> Values:
    """Count how often it fires in a second at idle."""
    engine.require_piston()
    return np.asarray(
        physics.firing_frequency(engine_speed=engine.idle_speed, cylinders=engine.cylinders)
    )


def _power(engine: Engine) -> Values:
    if engine.has("power") or engine.kind == "electric":
        return engine.power.value
    return engine.specific_power * engine.displacement


def _swept_volume(engine: Engine) -> Values:
    engine.require_piston()
    return engine.displacement


def _rated_speed(engine: Engine, power: Values) -> Values:
    given = engine.power.start if engine.has("power") else None
    if given is not None:
        return given
    usual = physics.rated_speed_from_piston_speed(
        swept_volume=engine.displacement,
        cylinders=engine.cylinders,
        piston_speed=engine.piston_speed,
    )
    boost = 1.0
    if engine.has("boost"):
        boost = 1.0 + float(engine.boost[0]) / ATMOSPHERE
    elif engine.aspiration != "natural":
        boost = 1.5  # common practice for a road engine
    least = physics.speed_for_mean_pressure(
        power=power,
        swept_volume=engine.displacement,
        mean_pressure=boost * GREATEST_MEAN_PRESSURE,
    )
    return np.maximum(usual, least)


def _peaks_of_curve(engine: Engine) -> Peaks:
    points = engine.curve
    speeds = np.union1d(np.linspace(points.x[0], points.x[-1], 400), points.x)
    # The points share one factor, so the peaks stand at the same speeds in every sample.
    torque = np.interp(speeds, points.x, points.y[:, 0])
    factor = points.y[0] / points.y[0, 0]
    rated, peak = speeds[np.argmax(torque * speeds)], speeds[np.argmax(torque)]
    return Peaks(
        power=float(np.max(torque * speeds)) * factor,
        rated_speed=rated + 0.0 * factor,
        torque=float(np.max(torque)) * factor,
        band_start=peak + 0.0 * factor,
        band_end=peak + 0.0 * factor,
    )
