"""A reading: a number with its unit, its spread and where it came from, as a person types it.

The forms are ``1520 mm``, ``1520 ± 3 mm``, ``350 N·m ± 5 %``, ``~650 mm`` (a guess),
``180 to 240 mm``, ``?`` (not known yet), and for work ``8 / 12 / 20 h`` (least, likely, most).
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from enum import StrEnum
from functools import lru_cache
from pathlib import Path

from drybuild.errors import UnitError
from drybuild.units import MONEY, currency_of, factor_and_offset, parse_number


class Origin(StrEnum):
    """Where a reading came from, from the surest to the least sure."""

    MEASURED = "measured"
    QUOTED = "quoted"
    HANDBOOK = "handbook"
    GUESS = "guess"


DEFAULT_SPREAD = {
    Origin.MEASURED: 0.005,
    Origin.QUOTED: 0.02,
    Origin.HANDBOOK: 0.05,
    Origin.GUESS: 0.20,
}
"""Half-width of the 5-95 % band as a share of the value, where none is given; common practice."""

DEFAULT_KELVIN = {
    Origin.MEASURED: 1.0,
    Origin.QUOTED: 3.0,
    Origin.HANDBOOK: 5.0,
    Origin.GUESS: 10.0,
}
"""The same for temperatures, in kelvin: a share of an absolute temperature means nothing."""


def default_half_width(value: float, origin: Origin, unit: str) -> float:
    """Return half the 5-95 % band of a reading that states no spread.

    A quoted length (a catalogue, a drawing) is as good as a measured one.
    """
    if unit == "K":
        return DEFAULT_KELVIN[origin]
    drawn = unit == "m" and origin is Origin.QUOTED
    return abs(value) * DEFAULT_SPREAD[Origin.MEASURED if drawn else origin]


_NUMBER = r"[+-]?(?:\d+\s+\d+/\d+|\d+/\d+|\d+\.?\d*(?:[eE][+-]?\d+)?|\.\d+(?:[eE][+-]?\d+)?)"
_ONE = re.compile(rf"^(?P<number>{_NUMBER})\s*(?P<unit>(?:1/)?[^\d\s].*)?$")
_RANGE = re.compile(r"\s+to\s+")
_SPREAD = re.compile(rf"^(?P<half>{_NUMBER})\s*(?P<unit>(?:1/)?\D.*)?$")
_THREE = re.compile(rf"^(~)?\s*({_NUMBER})\s+/\s+({_NUMBER})\s+/\s+({_NUMBER})\s*((?:1/)?\D.*)?$")


@dataclass(frozen=True, kw_only=True)
class Reading:
    """One number as it stands in the file, in SI; low and high are its 5 and 95 % bounds."""

    value: float
    low: float
    high: float
    origin: Origin
    text: str
    unit: str
    """The unit as typed; empty for a plain number."""
    note: str = ""
    source: str = ""
    file: Path | None = None
    line: int = 0
    least: float | None = None
    """Bounds that samples keep to: a length is not negative, an efficiency not above one."""
    most: float | None = None

    @property
    def spread(self) -> float:
        """Half the width of the 5-95 % band."""
        return (self.high - self.low) / 2.0


@dataclass(frozen=True, kw_only=True)
class Typed:
    """What a text says, in SI, before the field's own rules are applied."""

    value: float
    low: float
    high: float
    origin: Origin | None
    unit: str
    spread_given: bool


@lru_cache(maxsize=4096)
def parse_reading(text: str, wanted: str) -> Typed:
    """Read one number with its unit and spread.

    Parameters
    ----------
    text : str
        As typed.
    wanted : str
        The SI unit of the field; ``-`` takes a plain number or a percentage.

    Returns
    -------
    Typed
        In SI. Without a spread, low and high equal the value.

    Raises
    ------
    UnitError
        The text does not read as such a number; the message says why and what would.

    """
    left, mark, right = _split_spread(text)
    guess = left.strip().startswith("~")
    ends = [_ONE.match(end.strip()) for end in _RANGE.split(left.strip().lstrip("~"), maxsplit=1)]
    first, last = ends[0], ends[-1]
    if not first or not last:
        raise UnitError(f"{text!r} does not read as a number with a unit")
    spread = _SPREAD.match(right.strip()) if mark else None
    if mark and not spread:
        raise UnitError(f"{text!r} has no number after ±")
    spread_unit = (spread["unit"] or "").strip() if spread else ""
    unit = (last["unit"] or "").strip()
    if unit.startswith((",", "_")):
        raise UnitError(f"{text!r} has a {unit[0]} in its number; write a point, or nothing")
    relative = spread_unit.startswith("%") and (unit not in ("", "%") or len(spread_unit) > 1)
    if not unit:
        unit = spread_unit[1:].strip() if relative else spread_unit
    low = _in_si(first["number"], (first["unit"] or "").strip() or unit, wanted, text)
    high = low if first is last else _in_si(last["number"], unit, wanted, text)
    if high < low:
        raise UnitError(f"{text!r} runs from more to less")
    half = 0.0
    if spread:
        number = parse_number(spread["half"])
        if number < 0.0:
            raise UnitError(f"{text!r} has a negative spread")
        if relative:
            half = abs(low) * number / 100.0
        else:
            half = number * _conversion(spread_unit or unit, wanted, text)[0]
    return Typed(
        value=(low + high) / 2.0,
        low=low - half,
        high=high + half,
        origin=Origin.GUESS if guess else None,
        unit=unit,
        spread_given=bool(spread) or len(ends) > 1,
    )


def parse_three_point(text: str, wanted: str) -> tuple[float, float, float, str]:
    """Read least / likely / most; a single number stands for all three. Returns SI and the unit.

    Raises
    ------
    UnitError
        The text does not read so, or the three are not in order.

    """
    found = _THREE.match(text.strip())
    if not found:
        one = parse_reading(text, wanted)
        return one.low, one.value, one.high, one.unit
    unit = (found[5] or "").strip()
    factor, offset = _conversion(unit, wanted, text)
    least, likely, most = (parse_number(found[k]) * factor + offset for k in (2, 3, 4))
    if not least <= likely <= most:
        raise UnitError(f"{text!r} is not in the order least / likely / most")
    return least, likely, most, unit


def _split_spread(text: str) -> tuple[str, str, str]:
    for mark in ("±", "+-", "+/-"):
        if mark in text:
            left, _, right = text.partition(mark)
            return left, mark, right
    return text, "", ""


def _in_si(number: str, unit: str, wanted: str, text: str) -> float:
    factor, offset = _conversion(unit, wanted, text)
    return parse_number(number) * factor + offset


def _conversion(unit: str, wanted: str, text: str) -> tuple[float, float]:
    """Return factor and offset; a missing unit is right only where none is wanted."""
    if not unit and wanted != "-":
        if wanted.startswith(MONEY):
            raise UnitError(f"{text!r} has no currency")
        raise UnitError(f"{text!r} has no unit")
    if wanted.startswith(MONEY) and currency_of(unit) is None:
        raise UnitError(f"{text!r} has no currency")
    return factor_and_offset(unit, wanted)
