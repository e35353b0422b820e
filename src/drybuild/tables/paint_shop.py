"""Typed readers of the finish's working tables: joints, fillers, blasting media, mixing."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from drybuild.tables.table import read_table


@dataclass(frozen=True, kw_only=True)
class Joint:
    """Gap and flushness between two panels, in metres."""

    gap: tuple[float, float, float]
    """Least, wanted and most."""
    taper: float
    """How much it may differ from end to end."""
    flush: tuple[float, float]
    """How far the first panel may lie below (minus) and stand above the second."""
    words: str


@dataclass(frozen=True, kw_only=True)
class Filler:
    """A filler and its limits."""

    thickest: float
    words: str
    source: str


@dataclass(frozen=True, kw_only=True)
class Media:
    """What strips a body, and where it may be used."""

    hardness: str
    """On Mohs' scale; empty where it does not apply."""
    takes_rust: bool
    skins: bool
    structure: bool
    aluminium: bool
    words: str


@dataclass(frozen=True, kw_only=True)
class Mix:
    """How a material is mixed, sprayed and left to dry, in SI; times at 20 °C."""

    paint: float
    hardener: float
    thinner: float
    coats: int
    flash: float
    recoat: float
    """Before the next material goes over it, unsanded."""
    dry: float
    """Before it is sanded or handled."""
    gun: float
    """Area that one coat takes a time. [m²/s]"""
    tins: tuple[float, ...]
    """Sizes that it is sold in. [m³]"""

    @property
    def parts(self) -> dict[str, float]:
        """Shares of the volume ready to spray."""
        total = self.paint + self.hardener + self.thinner
        found = {"paint": self.paint, "hardener": self.hardener, "thinner": self.thinner}
        return {name: part / total for name, part in found.items() if part > 0.0}


@cache
def joints() -> dict[str, Joint]:
    """Return the joints by name."""
    found = {}
    for row in read_table("paint_joint").rows:
        one = {name: float(row[name]) * 1e-3 for name in row if name.startswith(("gap", "flush"))}
        found[row["joint"]] = Joint(
            gap=(one["gap_low"], one["gap"], one["gap_high"]),
            taper=float(row["taper"]) * 1e-3,
            flush=(one["flush_low"], one["flush_high"]),
            words=row["words"],
        )
    return found


@cache
def fillers() -> dict[str, Filler]:
    """Return the fillers by name."""
    return {
        row["filler"]: Filler(
            thickest=float(row["thickest"]) * 1e-3, words=row["words"], source=row["source_id"]
        )
        for row in read_table("paint_filler").rows
    }


@cache
def media() -> dict[str, Media]:
    """Return the ways of stripping by name."""
    return {
        row["media"]: Media(
            hardness=row["hardness"],
            takes_rust=row["takes_rust"] == "yes",
            skins=row["skins"] == "yes",
            structure=row["structure"] == "yes",
            aluminium=row["aluminium"] == "yes",
            words=row["words"],
        )
        for row in read_table("paint_media").rows
    }


@cache
def mixes() -> dict[str, Mix]:
    """Return how each material is mixed, in the order they go on."""
    return {
        row["material"]: Mix(
            paint=float(row["paint"]),
            hardener=float(row["hardener"]),
            thinner=float(row["thinner"]),
            coats=int(row["coats"]),
            flash=float(row["flash"]) * 60.0,
            recoat=float(row["recoat"]) * 3600.0,
            dry=float(row["dry"]) * 3600.0,
            gun=float(row["gun"]) / 3600.0,
            tins=tuple(float(size) * 1e-3 for size in row["tins"].split()),
        )
        for row in read_table("paint_mix").rows
    }
