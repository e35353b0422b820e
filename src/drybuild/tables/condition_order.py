"""Typed readers of the repair order: which zones come first, which must not be open together."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from drybuild.errors import TableError
from drybuild.tables.table import read_table

SIDES = ("left", "right")


@dataclass(frozen=True, kw_only=True)
class Turn:
    """When a zone's turn comes."""

    rank: int
    on_shell: bool
    """Whether it is part of the shell; else it is bolted on and repaired on the bench."""
    why: str


@dataclass(frozen=True, kw_only=True)
class Together:
    """Zones that must not be open together."""

    name: str
    first: tuple[str, ...]
    second: tuple[str, ...]
    sides: str
    """same side, across the car, or any."""
    brace: str
    why: str

    def names(self, one: str, other: str) -> bool:
        """Say whether it is about two zones, told without their sides."""
        return (one in self.first and other in self.second) or (
            other in self.first and one in self.second
        )

    def holds(self, side: str, other: str) -> bool:
        """Say whether it is about these two sides of the car."""
        if self.sides == "any":
            return True
        return bool(side and other) and (side == other) == (self.sides == "same")


@cache
def split(zone: str) -> tuple[str, str]:
    """Return a zone's name without its side, and the side."""
    for side in SIDES:
        if zone.endswith(f" {side}"):
            return zone.removesuffix(f" {side}"), side
    return zone, ""


@cache
def turn_of(zone: str) -> Turn:
    """Return when a zone's turn comes."""
    base = split(zone)[0]
    for row in read_table("condition_order").rows:
        if base in row["zones"].split(";"):
            return Turn(rank=int(row["rank"]), on_shell=row["place"] == "shell", why=row["why"])
    raise TableError(f"condition_order does not say when the turn of {zone!r} comes")


@cache
def together() -> tuple[Together, ...]:
    """Return every rule on what must not be open together."""
    return tuple(
        Together(
            name=row["name"],
            first=tuple(row["first"].split(";")),
            second=tuple(row["second"].split(";")),
            sides=row["sides"],
            brace=row["brace"],
            why=row["why"],
        )
        for row in read_table("condition_together").rows
    )


@cache
def _about(one: str, other: str) -> tuple[Together, ...]:
    return tuple(rule for rule in together() if rule.names(one, other))


def forbidden(one: str, other: str) -> Together | None:
    """Return the first rule that forbids two zones to be open together, if any does."""
    if one == other:
        return None
    (base, side), (other_base, other_side) = split(one), split(other)
    rules = _about(base, other_base)
    return next((rule for rule in rules if rule.holds(side, other_side)), None)
