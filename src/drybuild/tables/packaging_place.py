"""Typed readers of what may be altered to make an engine fit, and of the room to take parts out."""

from __future__ import annotations

from dataclasses import dataclass

from drybuild.tables.table import read_table


@dataclass(frozen=True, kw_only=True)
class AlterationRow:
    """One alteration of the trade, with its typical hours and costs."""

    name: str
    words: str
    does: str
    """`part`, `off` (the engine's); `wall`, `open`, `away` (what stands); `rock`, `limit`."""
    on: tuple[str, ...]
    """Names of the solids or pieces that it is done to."""
    way: str
    """front, back, up, down, out, inward; empty where it has none."""
    most: float
    """[m, or a share]"""
    step: float
    """[m, or a share]"""
    keep: tuple[str, ...]
    """Areas of the car that it alters."""
    hours: tuple[float, float, float]
    """Least, likely, most. [s]"""
    cost: tuple[float, float, float]
    """Least, likely, most. [money]"""
    caution: str


@dataclass(frozen=True, kw_only=True)
class AccessRow:
    """How a part of the engine is drawn out."""

    piece: str
    way: str
    """front, back, up, down; `own`: away from the engine."""
    most: float
    """[m]"""
    words: str


def alteration_rows() -> tuple[AlterationRow, ...]:
    """Return every alteration of the table."""
    return tuple(
        AlterationRow(
            name=row["alteration"],
            words=row["words"],
            does=row["does"],
            on=tuple(row["on"].split(";")),
            way=row["way"],
            most=_amount(row["most"]),
            step=_amount(row["step"]),
            keep=tuple(word for word in row["keep"].split(";") if word),
            hours=_three(row, "hours", 3600.0),
            cost=_three(row, "cost", 1.0),
            caution=row["caution"],
        )
        for row in read_table("packaging_alteration").rows
    )


def access_rows() -> tuple[AccessRow, ...]:
    """Return how parts of the usual engines are drawn out."""
    return tuple(
        AccessRow(
            piece=row["piece"], way=row["way"], most=float(row["most"]) * 1e-3, words=row["words"]
        )
        for row in read_table("packaging_access").rows
    )


def _amount(text: str) -> float:
    share = text.endswith("%")
    return float(text.removesuffix("%")) / 100.0 if share else float(text) * 1e-3


def _three(row: dict[str, str], name: str, factor: float) -> tuple[float, float, float]:
    low, likely, high = (float(row[f"{name}_{end}"]) * factor for end in ("low", "likely", "high"))
    return low, likely, high
