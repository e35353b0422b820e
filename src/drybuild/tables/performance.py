"""Typed reader of tyre and road friction."""

from __future__ import annotations

from drybuild.tables.table import read_table


def peak_friction(surface: str) -> float:
    """Return the mean peak friction coefficient of a surface: ``dry asphalt``, ``wet asphalt``."""
    return float(read_table("performance_friction").row("surface", surface)["peak"])


def sliding_friction(surface: str) -> float:
    """Return the mean sliding friction coefficient of a surface."""
    return float(read_table("performance_friction").row("surface", surface)["sliding"])
