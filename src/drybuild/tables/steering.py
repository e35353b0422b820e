"""Typed reader of the steering-effort limits."""

from __future__ import annotations

from dataclasses import dataclass

from drybuild.tables.table import read_table


@dataclass(frozen=True, kw_only=True)
class EffortLimit:
    """The bend into which a car has to be steered, and the hand force that is allowed for it."""

    radius: float
    """[m]"""
    force: float
    """[N]"""
    turning_time: float
    """Time in which the lock is put on. [s]"""
    speed: float
    """[m/s]"""


def effort_limit(case: str) -> EffortLimit:
    """Return the limit of a case: ``intact`` or ``assistance failed``."""
    row = read_table("steering_effort_limit").row("case", case)
    return EffortLimit(
        radius=float(row["radius"]),
        force=float(row["force"]),
        turning_time=float(row["turning_time"]),
        speed=float(row["speed"]) / 3.6,
    )
