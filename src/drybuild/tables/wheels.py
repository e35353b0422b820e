"""Typed readers of the wheel tables: bead seats, largest discs, fasteners."""

from __future__ import annotations

from dataclasses import dataclass

from drybuild.errors import TableError
from drybuild.tables.table import read_table

MILLIMETRE = 0.001  # [m]
POUND_FOOT = 1.3558179483314004  # [N·m]
MEGAPASCAL = 1e6  # [Pa]


@dataclass(frozen=True, kw_only=True)
class FastenerThread:
    """A wheel stud or bolt thread and how the trade tightens it, dry."""

    diameter: float
    """[m]"""
    pitch: float
    """[m]"""
    unified: bool
    least_torque: float
    """[N·m]"""
    largest_torque: float
    """[N·m]"""
    least_turns: float | None
    """Turns of engagement; None where the trade tables are silent. [-]"""


def bead_seat_diameter(rim_code: float) -> float:
    """Return the bead seat diameter of a 5 degree drop-centre rim, by its code in inches. [m]."""
    row = read_table("wheel_bead_seat").row("rim_code", f"{rim_code:g}")
    return float(row["bead_seat_diameter"]) * MILLIMETRE


def largest_rotor_in_practice(rim_code: float) -> tuple[float, float]:
    """Return the disc diameters that go inside a wheel with a thick and a thin caliper. [m]."""
    row = read_table("wheel_largest_rotor").row("rim_code", f"{rim_code:g}")
    return float(row["least_rotor"]) * MILLIMETRE, float(row["largest_rotor"]) * MILLIMETRE


def fastener_thread(thread: str) -> FastenerThread:
    """Return a wheel fastener's thread by its name: ``M12x1.5``, ``1/2-20``."""
    row = read_table("wheel_fastener").row("thread", thread)
    return FastenerThread(
        diameter=float(row["diameter"]) * MILLIMETRE,
        pitch=float(row["pitch"]) * MILLIMETRE,
        unified=row["series"] == "unified",
        least_torque=float(row["least_torque"]) * POUND_FOOT,
        largest_torque=float(row["largest_torque"]) * POUND_FOOT,
        least_turns=float(row["least_turns"]) if row["least_turns"] else None,
    )


def fastener_threads() -> tuple[str, ...]:
    """Return the names of the threads that the trade tables list."""
    return tuple(row["thread"] for row in read_table("wheel_fastener").rows)


def proof_stress(grade: str) -> float:
    """Return the proof stress of a fastener's property class. [Pa]."""
    return float(read_table("wheel_fastener_grade").row("grade", grade)["proof_stress"]) * (
        MEGAPASCAL
    )


def fastener_grades() -> tuple[str, ...]:
    """Return the property classes with a known proof stress."""
    return tuple(row["grade"] for row in read_table("wheel_fastener_grade").rows)


def rim_codes() -> tuple[float, ...]:
    """Return the rim diameter codes whose bead seat is known."""
    codes = tuple(float(row["rim_code"]) for row in read_table("wheel_bead_seat").rows)
    if not codes:
        raise TableError("wheel_bead_seat is empty")
    return codes
