"""Typed readers of the wire, fuse, bundle and standard circuit tables, in SI."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from drybuild.errors import TableError
from drybuild.tables.ranges import Range, range_of
from drybuild.tables.table import read_table

_MM2 = 1e-6
_MM = 1e-3

SITUATIONS = ("idle at night in rain", "cruise by day", "cruise by night")
"""The three loads that an alternator is judged by."""


@dataclass(frozen=True, kw_only=True)
class Cable:
    """A size of single-core cable: copper section, resistance per metre at 20 °C, outside."""

    area: float
    resistance: float
    outside_diameter: float


@dataclass(frozen=True, kw_only=True)
class StandardCircuit:
    """What a circuit of an ordinary car is taken to be while the person has not measured it."""

    name: str
    current: Range
    run: float
    area: float
    fuse: float
    drop: float
    place: str
    duty: tuple[float, float, float]
    """Share of the time that it is on, in each of the situations."""


@cache
def iso_cables() -> tuple[Cable, ...]:
    """Return the cable sizes of ISO 6722-1, smallest first."""
    table = read_table("electrics_iso_cable")
    return tuple(
        Cable(
            area=float(row["area"]) * _MM2,
            resistance=float(row["resistance"]) * 1e-3,
            outside_diameter=float(row["outside_diameter"]) * _MM,
        )
        for row in table.rows
    )


@cache
def iec_resistance(conductor_class: int) -> dict[float, float]:
    """Return the largest resistance [Ω/m at 20 °C] of IEC 60228 by nominal area [mm²]."""
    rows = read_table("electrics_iec_conductor").rows
    return {
        float(row["area"]): float(row["resistance"]) * 1e-3
        for row in rows
        if int(row["class"]) == conductor_class
    }


@cache
def sae_area() -> dict[int, float]:
    """Return the least copper area [m²] of SAE J1128 by cable size."""
    rows = read_table("electrics_sae_cable").rows
    return {int(row["size"]): float(row["area"]) * _MM2 for row in rows}


@cache
def fuse_ratings() -> tuple[float, ...]:
    """Return the fuse ratings that are made [A], smallest first."""
    return tuple(sorted(read_table("electrics_fuse").numbers("rating")))


def next_fuse(current: float) -> float:
    """Return the smallest fuse that is made with at least this rating.

    Raises
    ------
    TableError
        No fuse is as large.

    """
    for rating in fuse_ratings():
        if rating >= current:
            return rating
    raise TableError(f"no fuse is made for {current:.0f} A")


@cache
def fuse_times() -> tuple[tuple[float, float, float], ...]:
    """Return (load over rating, shortest and longest time to open [s]) of blade fuses."""
    rows = read_table("electrics_fuse_time").rows
    return tuple((float(r["load"]), float(r["shortest"]), float(r["longest"])) for r in rows)


@cache
def bundle_factors() -> tuple[tuple[int, float], ...]:
    """Return (wires from, share of the current of a single wire), rising."""
    rows = read_table("electrics_bundle").rows
    return tuple((int(row["least_wires"]), float(row["factor"])) for row in rows)


def bundle_factor(wires: float) -> float:
    """Return the share of its free-air current that a wire may carry among so many.

    Raises
    ------
    TableError
        Fewer than one wire.

    """
    found = [factor for least, factor in bundle_factors() if wires >= least]
    if not found:
        raise TableError(f"a bundle of {wires:g} wires is no bundle")
    return found[-1]


@cache
def standard_circuits() -> dict[str, StandardCircuit]:
    """Return the circuits of an ordinary car by name."""
    table = read_table("electrics_circuit")
    return {
        row["name"]: StandardCircuit(
            name=row["name"],
            current=range_of(table, row, "current"),
            run=float(row["run"]),
            area=float(row["area"]) * _MM2,
            fuse=float(row["fuse"]),
            drop=float(row["drop"]),
            place=row["place"],
            duty=(float(row["idle_night"]), float(row["cruise_day"]), float(row["cruise_night"])),
        )
        for row in table.rows
    }
