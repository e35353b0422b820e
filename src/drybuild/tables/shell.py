"""Typed readers of the shell's tables: bolts, welds, load cases, sheet, published stiffness."""

from __future__ import annotations

from dataclasses import dataclass
from math import radians

from drybuild.tables.table import read_table


@dataclass(frozen=True, kw_only=True)
class BoltClass:
    """A property class of bolts, in SI."""

    ultimate: float
    proof: float
    shear_factor: float


@dataclass(frozen=True, kw_only=True)
class LoadCase:
    """A load that a body is checked for: direction, and low, usual and high factor."""

    direction: str
    low: float
    value: float
    high: float
    words: str
    source_id: str


def bolt_class(name: str) -> BoltClass:
    """Return a property class, such as ``8.8``."""
    row = read_table("shell_bolt_class").row("property_class", name)
    return BoltClass(
        ultimate=float(row["ultimate"]) * 1e6,
        proof=float(row["proof"]) * 1e6,
        shear_factor=float(row["shear_factor"]),
    )


def bolt_thread(name: str) -> tuple[float, float]:
    """Return nominal diameter and pitch of a coarse thread, such as ``M10``, in m."""
    row = read_table("shell_bolt_load").row("thread", name)
    return float(row["diameter"]) * 1e-3, float(row["pitch"]) * 1e-3


def bolt_threads() -> tuple[str, ...]:
    """Return the threads that the table holds."""
    return tuple(row["thread"] for row in read_table("shell_bolt_load").rows)


def weld_steel(name: str) -> tuple[float, float]:
    """Return ultimate strength [Pa] and correlation factor [-] of a steel grade."""
    row = read_table("shell_weld_steel").row("steel", name)
    return float(row["ultimate"]) * 1e6, float(row["correlation_factor"])


def fatigue_class(detail: str) -> float:
    """Return the stress range that a welded detail bears for two million cycles, in Pa."""
    return float(read_table("shell_fatigue_class").row("detail", detail)["class"]) * 1e6


def load_cases() -> dict[str, LoadCase]:
    """Return the load cases by name."""
    return {
        row["case"]: LoadCase(
            direction=row["direction"],
            low=float(row["low"]),
            value=float(row["value"]),
            high=float(row["high"]),
            words=row["words"],
            source_id=row["source_id"],
        )
        for row in read_table("shell_load_case").rows
    }


def sheet_thickness(gauge: str) -> float:
    """Return the thickness of a US sheet gauge, in m."""
    return float(read_table("shell_sheet_gauge").row("gauge", gauge)["thickness"]) * 1e-3


def published_stiffness() -> dict[str, tuple[str, float]]:
    """Return kind of body and torsional stiffness [N·m/rad] of bodies that were published."""
    return {
        row["body"]: (row["kind"], float(row["torsional_stiffness"]) / radians(1.0))
        for row in read_table("shell_stiffness").rows
    }
