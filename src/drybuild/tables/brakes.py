"""Typed readers of the brake tables: what regulations ask, hoses, fluids, temperatures."""

from __future__ import annotations

from dataclasses import dataclass

from drybuild.errors import TableError
from drybuild.tables.table import read_table

KILOMETRE_PER_HOUR = 1.0 / 3.6  # [m/s]
CELSIUS_ZERO = 273.15  # [K]
POUND_PER_SQUARE_INCH = 6894.757293168361  # [Pa]
CUBIC_CENTIMETRE_PER_FOOT = 1e-6 / 0.3048  # [m²]
MILLIMETRE = 0.001  # [m]


@dataclass(frozen=True, kw_only=True)
class StoppingLimit:
    """One test of a braking regulation."""

    regulation: str
    speed: float
    """[m/s]"""
    linear: float
    """Coefficient of v in km/h. [-]"""
    quadratic: float
    """Coefficient of v² in km/h. [-]"""
    deceleration: float
    """Least mean fully developed deceleration. [m/s²]"""
    largest_pedal_force: float
    """[N]"""


def stopping_limit(test: str) -> StoppingLimit:
    """Return the limits of a test: ``cold``, ``secondary``, ``older cold`` and so on."""
    row = read_table("brake_stopping_limit").row("test", test)
    return StoppingLimit(
        regulation=row["regulation"],
        speed=float(row["speed"]) * KILOMETRE_PER_HOUR,
        linear=float(row["linear"]),
        quadratic=float(row["quadratic"]),
        deceleration=float(row["deceleration"]),
        largest_pedal_force=float(row["largest_pedal_force"]),
    )


def parking_grade(regulation: str) -> float:
    """Return the grade that a regulation's parking brake must hold. [-]."""
    return float(read_table("brake_parking_limit").row("regulation", regulation)["grade"])


@dataclass(frozen=True, kw_only=True)
class FrictionOverTemperature:
    """A hot lining's friction over its cold one: likely, and within which it lies."""

    temperature: tuple[float, ...]
    """[K]"""
    least: tuple[float, ...]
    likely: tuple[float, ...]
    largest: tuple[float, ...]


@dataclass(frozen=True, kw_only=True)
class HoseExpansion:
    """The largest expansion that the hose standard allows, over pressure."""

    pressure: tuple[float, ...]
    """Rising, from zero. [Pa]"""
    volume: tuple[float, ...]
    """For each metre of free length. [m²]"""


def hose_expansion(*, bore: float, low_expansion: bool) -> HoseExpansion:
    """Return the largest expansion of a brake hose for each metre, over pressure.

    Parameters
    ----------
    bore : float
        Hose bore; between the two printed small bores the 3/16 in row counts. [m]
    low_expansion : bool
        Marked as a low-expansion hose.

    Returns
    -------
    HoseExpansion
        Printed points, and zero at zero.

    Raises
    ------
    TableError
        The bore is not more than zero.

    """
    if bore <= 0.0:
        raise TableError(f"a hose bore of {bore} m is not in brake_hose_expansion")
    printed = "3.175" if bore <= 0.003175 else ("4.7625" if bore < 0.00635 else "6.35")
    column = "low_expansion" if low_expansion else "regular_expansion"
    rows = [row for row in read_table("brake_hose_expansion").rows if row["bore"] == printed]
    return HoseExpansion(
        pressure=(0.0, *(float(row["pressure"]) * POUND_PER_SQUARE_INCH for row in rows)),
        volume=(0.0, *(float(row[column]) * CUBIC_CENTIMETRE_PER_FOOT for row in rows)),
    )


def fluid_boiling_point(fluid: str, *, wet: bool) -> float:
    """Return a brake fluid's lowest boiling point, fresh or after taking up water. [K]."""
    row = read_table("brake_fluid").row("fluid", fluid)
    return float(row["wet_boiling_point" if wet else "dry_boiling_point"]) + CELSIUS_ZERO


def fluids() -> tuple[str, ...]:
    """Return the names of the fluids in the table."""
    return tuple(row["fluid"] for row in read_table("brake_fluid").rows)


def temperature_limit(material: str) -> float:
    """Return the temperature that a friction material or rotor bears for long. [K]."""
    row = read_table("brake_temperature_limit").row("material", material)
    return float(row["sustained_limit"]) + CELSIUS_ZERO


def brake_factor_range(kind: str) -> tuple[float, float]:
    """Return the usual brake factors of a kind of brake at friction 0.35 to 0.40. [-]."""
    row = read_table("brake_factor").row("kind", kind)
    return float(row["least_brake_factor"]), float(row["largest_brake_factor"])


def linings() -> tuple[str, ...]:
    """Return the kinds of lining whose temperature limit is known."""
    rows = read_table("brake_temperature_limit").rows
    return tuple(row["material"] for row in rows if row["part"] == "lining")


def friction_over_temperature(lining: str) -> FrictionOverTemperature:
    """Return what is left of a kind of lining's friction when it is hot."""
    rows = [row for row in read_table("brake_fade").rows if row["lining"] == lining]
    if not rows:
        raise TableError(f"no friction over temperature for {lining}")
    return FrictionOverTemperature(
        temperature=tuple(float(row["temperature"]) + CELSIUS_ZERO for row in rows),
        least=tuple(float(row["least_share"]) for row in rows),
        likely=tuple(float(row["likely_share"]) for row in rows),
        largest=tuple(float(row["largest_share"]) for row in rows),
    )


def master_cylinder_bores() -> dict[str, float]:
    """Return the bores that master cylinders are made with, by name. [m]."""
    return {row["name"]: float(row["bore"]) * MILLIMETRE for row in read_table("brake_bore").rows}


def piston_diameters(part: str) -> dict[str, float]:
    """Return the diameters that a caliper's or wheel cylinder's pistons come in, by name. [m]."""
    rows = read_table("brake_piston").rows
    return {row["name"]: float(row["diameter"]) * MILLIMETRE for row in rows if row["part"] == part}
