"""Where the tape goes on an engine on the floor, in the engine's own axes."""

from __future__ import annotations

from collections.abc import Callable
from typing import TypeAlias

Value: TypeAlias = Callable[[str], float]
Place: TypeAlias = tuple[float, float, float]
Line: TypeAlias = tuple[str, Place, Place]
"""Words, and two places (m)."""
BY_HAND = {
    "nose_up": "the crankshaft's tilt, with a level on the block's face",
    "shape_doubt": "the real engine against its template of card",
    "rock": "how far the engine's top rocks, to each side",
}
"""Entries that are no length between two places."""


def engine_line(entry: str, value: Value) -> Line | None:
    """Return from where to where an engine's dimension goes; None where it is none.

    Parameters
    ----------
    entry : str
        The entry of the engine's shape: `height`, `sump_depth`.
    value : callable
        Nominal value of any entry (m).

    """
    return {**_above(value), **_below(value), **_behind(value)}.get(entry)


def _above(value: Value) -> dict[str, Line]:
    length, half, offset = value("length"), value("width") / 2.0, value("offset")
    middle, level = length / 2.0, 0.6 * value("height")
    return {
        "length": (
            "engine: rear face of the block to the nose",
            (0.0, 0.0, 0.0), (length, 0.0, 0.0),
        ),
        "width": (
            "engine: greatest width with manifolds",
            (middle, offset - half, level), (middle, offset + half, level),
        ),
        "offset": (
            "engine: crankshaft's line to the middle of its width",
            (middle, 0.0, level), (middle, offset, level),
        ),
        "height": (
            "engine: crankshaft's line to its highest point",
            (middle, 0.0, 0.0), (middle, 0.0, value("height")),
        ),
    }  # fmt: skip


def _below(value: Value) -> dict[str, Line]:
    length, side, deep = value("length"), value("sump_width") / 2.0, -value("sump_depth")
    front, rear = length - value("sump_front"), length - value("sump_rear")
    bowl = (front + rear) / 2.0
    return {
        "depth": (
            "engine: crankshaft's line to the block's underside",
            (0.85 * length, 0.0, 0.0), (0.85 * length, 0.0, -value("depth")),
        ),
        "sump_depth": (
            "engine: crankshaft's line to the sump's underside",
            (bowl, 0.0, 0.0), (bowl, 0.0, deep),
        ),
        "sump_width": (
            "engine: the sump's width", (bowl, -side, 0.5 * deep), (bowl, side, 0.5 * deep),
        ),
        "sump_front": (
            "engine: nose to the front of the sump's bowl",
            (length, 0.0, 0.9 * deep), (front, 0.0, 0.9 * deep),
        ),
        "sump_rear": (
            "engine: nose to the rear of the sump's bowl", (length, 0.0, deep), (rear, 0.0, deep),
        ),
    }  # fmt: skip


def _behind(value: Value) -> dict[str, Line]:
    side = value("bell_width") / 2.0
    return {
        "bell_length": (
            "engine: rear face of the block to the gearbox",
            (0.0, 0.0, 0.0), (-value("bell_length"), 0.0, 0.0),
        ),
        "bell_width": (
            "engine: the bell housing's width", (-0.02, -side, 0.0), (-0.02, side, 0.0),
        ),
        "bell_height": (
            "engine: crankshaft's line to the bell housing's top",
            (-0.02, 0.0, 0.0), (-0.02, 0.0, value("bell_height")),
        ),
    }  # fmt: skip
