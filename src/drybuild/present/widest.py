"""The widest tyre in tables and JSON: what clears, how sure that is, what each change buys."""

from __future__ import annotations

import math
from collections.abc import Callable
from typing import TypeAlias

import numpy as np
from rich.table import Table

from drybuild.physics.envelope.gaps import Gap
from drybuild.physics.envelope.widest import Clear
from drybuild.physics.tyre_sizes import INCH
from drybuild.physics.wheels import FLANGE_THICKNESS, backspacing
from drybuild.present.as_json import Json
from drybuild.present.numbers import in_units, unit_for
from drybuild.quantities.axles import AXLES
from drybuild.quantities.graph import summary
from drybuild.quantities.wheels_widest import AS_PICKED, Tried, Widest

CAUTION = (
    "Wheels: offer up a real wheel and tyre, turn it through lock and bump by hand with the "
    "springs out, before anything is bought or cut; local codes decide on altered wheels."
)
Told: TypeAlias = Callable[[float], str]
"""Turns a length in metres into the person's words."""
COLUMNS = ("with", "axle", "widest tyre", "rim", "offset", "spare air", "buys")


def rows(found: Widest, told: Told) -> list[tuple[str, ...]]:
    """Return one row for each change and axle: what clears and what it buys."""
    lines: list[tuple[str, ...]] = []
    for one in found.tried:
        for axle in AXLES:
            clear = one.clear[axle]
            words = one.change if axle == AXLES[0] else ""
            if not clear:
                lines.append((words, axle, "none that is listed", "", "", "", ""))
                continue
            best = clear[0]
            lines.append(
                (
                    words,
                    axle,
                    best.choice.size,
                    rim_text(best),
                    told(_offset(found, axle, best)),
                    told(best.spare),
                    buys_text(one, axle, told),
                )
            )
    return lines


def widest_table(found: Widest, told: Told) -> Table:
    """Return the rows as a terminal's table."""
    table = Table(title="Widest tyres that clear by the trade's air")
    for column in COLUMNS:
        table.add_column(column, overflow="fold")
    for row in rows(found, told):
        table.add_row(*row)
    return table


def widest_lines(found: Widest, told: Told) -> list[str]:
    """Return what the table rests on, in sentences."""
    lines = [
        f"Tried: {found.choices} tyres on rims, of {found.sizes} listed sizes, at every offset."
    ]
    lines += [f"Bound by: {words}." for words in found.limits]
    same = found.plain.same
    if same:
        lines.append(f"The widest on all four wheels: {same[0].choice.size}.")
    for axle in AXLES:
        if not found.measured[axle]:
            lines.append(
                f"The {axle} arch itself is not measured: the gaps round today's tyre stand for it."
            )
            continue
        sure, gaps = found.clears(axle), found.gaps.get(axle, ())
        if sure is not None and gaps:
            tight = min(gaps, key=lambda one: float(one.values[0]))
            lines.append(
                f"{axle.capitalize()}, {found.plain.clear[axle][0].choice.size}: touches nothing "
                f"in {sure:.0%} of the draws; tightest {gap_words(tight, told)}."
            )
    return lines


def gap_words(gap: Gap, told: Told) -> str:
    """Return where and when a gap is least, in words."""
    value, low, high = summary(gap.values)
    where = f"at the {gap.name}, {place_words(gap.angle)}"
    when = [f"{told(abs(gap.travel))} of {'bump' if gap.travel >= 0.0 else 'droop'}"]
    if abs(gap.steer) > math.radians(0.5):
        side = "left" if gap.steer > 0.0 else "right"
        when.append(f"steered {abs(math.degrees(gap.steer)):.0f}° {side} (left wheel)")
    if abs(gap.roll) > math.radians(0.2):
        when.append(f"axle rolled {abs(math.degrees(gap.roll)):.1f}°")
    band = f"{told(value)} ({told(low)} to {told(high)})"
    return f"{band} {where}, at {', '.join(when)}".replace("-", "−")


def place_words(angle: float) -> str:
    """Return a place round the wheel in words: 0 ahead, 90 degrees above."""
    degrees = math.degrees(angle) % 360.0
    names = ("ahead", "ahead and above", "above", "behind and above", "behind",
             "behind and below", "below", "ahead and below")  # fmt: skip
    return names[int((degrees + 22.5) // 45.0) % 8]


def rim_text(clear: Clear) -> str:
    """Return a rim as the trade writes it: 6½ × 15."""
    inches = clear.choice.rim_width / INCH
    half = "½" if abs(inches % 1.0 - 0.5) < 0.01 else ""
    return f"{int(inches + 0.01)}{half} × {clear.choice.rim_code:g} in"


def buys_text(tried: Tried, axle: str, told: Told) -> str:
    """Return what a change buys: width of tyre, and air round the tyre without it."""
    if tried.change == AS_PICKED:
        wide = tried.buys.get(axle)
        return "" if wide is None else f"{_signed(wide, told)} of tyre"
    if axle not in tried.air:
        return ""
    return f"{_signed(tried.buys[axle], told)} of tyre, {_signed(tried.air[axle], told)} of air"


def widest_json(found: Widest) -> Json:
    """Return the search as JSON, all numbers in SI."""
    return {
        "limits": list(found.limits),
        "sizes": found.sizes,
        "choices": found.choices,
        "arch_measured": dict(found.measured),
        "tried": [_tried_json(found, one) for one in found.tried],
        "gaps": {axle: [gap_json(one) for one in gaps] for axle, gaps in found.gaps.items()},
        "touches_nothing": {axle: found.clears(axle) for axle in AXLES},
        "caution": CAUTION,
    }


def gap_json(gap: Gap) -> Json:
    """Return one gap."""
    value, low, high = summary(gap.values)
    return {
        "obstacle": gap.name,
        "value": value,
        "low": low,
        "high": high,
        "angle": gap.angle,
        "place": [float(one) for one in gap.place],
        "travel": gap.travel,
        "steer": gap.steer,
        "roll": gap.roll,
    }


def length_teller(units: str) -> Told:
    """Return what writes a length: millimetres, or inches to a sixteenth's decimals."""

    def told(metres: float) -> str:
        value = float(in_units(np.array(metres), "m", "mm", units))
        unit = unit_for("mm", units, "")
        digits = 0 if unit == "mm" else 2
        return f"{round(value, digits) + 0.0:.{digits}f} {unit}".replace("-", "−")

    return told


def _signed(metres: float, told: Told) -> str:
    text = told(metres)
    return text if text.startswith("−") else f"+{text}"


def _tried_json(found: Widest, one: Tried) -> Json:
    return {
        "change": one.change,
        "clears": {
            axle: [_clear_json(found, axle, clear) for clear in one.clear[axle]] for axle in AXLES
        },
        "all_four": one.same[0].choice.size if one.same else None,
        "buys": dict(one.buys),
        "air": dict(one.air),
    }


def _clear_json(found: Widest, axle: str, clear: Clear) -> Json:
    choice, offset = clear.choice, _offset(found, axle, clear)
    back = backspacing(rim_width=choice.rim_width, offset=offset, flange_thickness=FLANGE_THICKNESS)
    return {
        "size": choice.size,
        "section_width": choice.fitted_width,
        "outside_diameter": choice.outside_diameter,
        "load_capacity": choice.capacity,
        "rim_diameter": choice.rim_code * INCH,
        "rim_width": choice.rim_width,
        "offset": offset,
        "backspacing": float(np.ravel(back)[0]),
        "spare_air": clear.spare,
    }


def _offset(found: Widest, axle: str, clear: Clear) -> float:
    return found.old_offset[axle] - clear.shift
