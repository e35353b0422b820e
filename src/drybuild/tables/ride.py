"""Typed readers of road roughness, kinds of road, and what people say of vibration."""

from __future__ import annotations

from dataclasses import dataclass

from drybuild.tables.table import read_table


def road_class_roughness(road_class: str) -> float:
    """Return the mean roughness of a road class of ISO 8608, at 0.1 cycle/m. [m³]."""
    return float(read_table("ride_road_class").row("class", road_class)["mean"]) * 1e-6


def comfort_reactions(acceleration: float) -> tuple[str, ...]:
    """Return the reactions whose bands hold this weighted acceleration; the bands overlap.

    Parameters
    ----------
    acceleration : float
        Weighted acceleration of a seated person. [m/s²]

    Returns
    -------
    tuple of str
        From the mildest on.

    """
    return tuple(
        row["reaction"]
        for row in read_table("ride_comfort_reaction").rows
        if float(row["low"]) <= acceleration <= float(row["high"])
    )


@dataclass(frozen=True, kw_only=True)
class RoadUse:
    """How fast, and over what surface, a kind of road is driven."""

    speed: float
    """[m/s]"""
    roughness: float
    """At 0.1 cycle/m. [m³]"""


def road_use(kind: str) -> RoadUse | None:
    """Return the usual speed and roughness of a kind of road.

    A kind counts as the first row whose leading word it contains: "mountain passes" as the
    mountain road. None when there is no such row.
    """
    for row in read_table("ride_road_use").rows:
        if row["use"].split()[0] in kind.lower():
            return RoadUse(
                speed=float(row["speed"]) / 3.6, roughness=road_class_roughness(row["road_class"])
            )
    return None


def road_uses() -> tuple[str, ...]:
    """Return the kinds of road that have a row."""
    return tuple(row["use"] for row in read_table("ride_road_use").rows)
