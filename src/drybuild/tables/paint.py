"""Typed readers of the paint shop's tables: materials, finishes, blasting, panels, hazards."""

from __future__ import annotations

from dataclasses import dataclass

from drybuild.errors import TableError
from drybuild.tables.table import read_table


@dataclass(frozen=True, kw_only=True)
class Material:
    """A paint material as sprayed: low, usual and high film and solids, in SI."""

    film: tuple[float, float, float]
    solids: tuple[float, float, float]
    density: float
    words: str


@dataclass(frozen=True, kw_only=True)
class Panel:
    """An outer panel's area as a share of the body's outside dimensions."""

    along: float
    """Share of the body's length."""
    across: str
    """The other dimension: width or height."""
    coefficient: float
    """Share of that other dimension, with the panel's curve and openings."""
    count: int


@dataclass(frozen=True, kw_only=True)
class Nozzle:
    """A blasting nozzle with hard media on steel, in SI."""

    air: float
    media_flow: float
    rate: float
    media_per_area: float


def materials() -> dict[str, Material]:
    """Return the materials of a refinish, in the order they go on."""
    return {
        row["material"]: Material(
            film=(
                float(row["film_low"]) * 1e-6,
                float(row["film"]) * 1e-6,
                float(row["film_high"]) * 1e-6,
            ),
            solids=(float(row["solids_low"]), float(row["solids"]), float(row["solids_high"])),
            density=float(row["density"]),
            words=row["words"],
        )
        for row in read_table("paint_material").rows
    }


def finish(group: str, name: str) -> float:
    """Return the share of light that a colour scatters, or that a gloss keeps sharp."""
    for row in read_table("paint_finish").rows:
        if (row["group"], row["name"]) == (group, name):
            return float(row["value"])
    raise TableError(f"paint_finish has no {group} called {name!r}")


def finishes(group: str) -> tuple[str, ...]:
    """Return the names in a group: colour or gloss."""
    return tuple(row["name"] for row in read_table("paint_finish").rows if row["group"] == group)


def panels() -> dict[str, Panel]:
    """Return the outer panels by name."""
    return {
        row["panel"]: Panel(
            along=float(row["along"]),
            across=row["across"],
            coefficient=float(row["coefficient"]),
            count=int(row["count"]),
        )
        for row in read_table("paint_panel").rows
    }


def nozzle(size: str) -> Nozzle:
    """Return a blasting nozzle by its bore in millimetres, as printed: ``6.4``."""
    row = read_table("paint_blasting").row("nozzle", size)
    return Nozzle(
        air=float(row["air"]) * 1e-3,
        media_flow=float(row["media_flow"]) / 3600.0,
        rate=float(row["rate"]) / 3600.0,
        media_per_area=float(row["media_per_area"]),
    )


def limit_of(agent: str) -> str:
    """Return a sentence with the exposure limit of something that harms in a paint shop."""
    row = read_table("paint_hazard").row("agent", agent)
    return f"{agent.capitalize()} ({row['limit']} {row['unit']}): {row['words']}."


def hazards() -> tuple[str, ...]:
    """Return what the table of hazards names."""
    return tuple(row["agent"] for row in read_table("paint_hazard").rows)
