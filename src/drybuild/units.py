"""Text with a unit to SI and back: the only place where units are converted.

Inside drybuild every number is SI (radians, kelvin, seconds). Pint knows the units; it is loaded
on first use and each pair of unit texts is worked out once.
"""

from __future__ import annotations

import atexit
import json
import os
import re
from contextlib import suppress
from functools import cache, lru_cache
from importlib.util import find_spec
from pathlib import Path
from typing import TYPE_CHECKING

from drybuild.errors import UnitError
from drybuild.keeping import usual_folder

if TYPE_CHECKING:
    import pint

STANDARD_GRAVITY = 9.80665  # [m/s²], 3rd CGPM 1901, ISO 80000-3
MONEY = "money"
"""Stands for the build's one currency in a wanted unit: ``money``, ``money/s``."""

_FRACTION = re.compile(r"^([+-]?)(?:(\d+)\s+)?(\d+)/(\d+)$")
_DECIMAL = re.compile(r"^[+-]?(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d+)?$")
_CURRENCY = re.compile(r"^[A-Z]{3}(?=$|/)")
_LONGEST = 60
"""Characters of a pair of units that is kept on disk; what is longer is hardly a unit."""
SHIPPED = Path(__file__).with_name("unit_pairs.json")
"""Pairs that pint worked out beforehand (``docs/keep_units.py``)."""
_Pair = tuple[float, float]
_SPELLINGS = {
    "″": "in",
    '"': "in",
    "′": "ft",
    "'": "ft",
    "°C": "degC",
    "°F": "degF",
    "°": "deg",
    "·": "*",
    "⋅": "*",
    "Ω": "ohm",
    "µ": "u",
    "μ": "u",
    "%": "percent",
}
_WHOLE = {
    "": "dimensionless",
    "-": "dimensionless",
    "PS": "metric_horsepower",
    "bhp": "horsepower",
    "cu in": "in**3",
    "l/100 km": "litre_per_100km",
    "l/100km": "litre_per_100km",
    "L/100 km": "litre_per_100km",
    "L/100km": "litre_per_100km",
    "gal/100 mi": "gallon_per_100_miles",
    "cc": "cm**3",
}
_RETRIES = (
    (re.compile(r"\blbs?\b"), "lbf"),  # pounds of force: lb·ft, lb/in
    (re.compile(r"\bkg\b"), "kgf"),  # kilograms of force: kg/cm², kg·m
    (re.compile(r"\bg\b"), "g_0"),  # gravities: deg/g
)


@cache
def _kept() -> dict[str, _Pair | None]:
    """Return pairs that were worked out before, on disk from earlier runs; kept at the end.

    None stands for two units that measure different things.

    Loading pint takes longer than most commands need for the rest of a file.
    """
    path = usual_folder() / f"units-{_edition()}.json"
    stamp = Path(__file__).stat().st_mtime_ns
    found = _shipped()
    with suppress(OSError, ValueError, LookupError, TypeError, AttributeError):
        known = json.loads(path.read_text(encoding="utf-8"))
        found |= _pairs(known["pairs"]) if known["stamp"] == stamp else {}
    atexit.register(_keep, path, stamp, found, len(found))
    return found


def _shipped() -> dict[str, _Pair | None]:
    """Return the pairs that come with the program: those that its examples need."""
    with suppress(OSError, ValueError):
        return _pairs(json.loads(SHIPPED.read_text(encoding="utf-8")))
    return {}


def _pairs(told: dict[str, list[float] | None]) -> dict[str, _Pair | None]:
    return {key: (float(pair[0]), float(pair[1])) if pair else None for key, pair in told.items()}


def _edition() -> str:
    """Return what names the installed pint, read off its folder: the metadata take far longer."""
    found = find_spec("pint")
    place = Path(found.origin or "") if found else Path()
    names = sorted(one.stem for one in place.parent.parent.glob("[Pp]int-*.dist-info"))
    return names[0] if names else str(place.stat().st_mtime_ns)


def _keep(path: Path, stamp: int, pairs: dict[str, _Pair | None], before: int) -> None:
    """Write the pairs down if there are new ones; a disk that will not have them does no harm."""
    if len(pairs) == before:
        return
    with suppress(OSError):
        path.parent.mkdir(parents=True, exist_ok=True)
        mine = path.with_suffix(f".{os.getpid()}.part")
        mine.write_text(json.dumps({"stamp": stamp, "pairs": pairs}), encoding="utf-8")
        mine.replace(path)


@cache
def _registry() -> pint.UnitRegistry[float]:
    import pint  # noqa: PLC0415  loading takes 0.4 s, and a help page needs no units

    registry: pint.UnitRegistry[float]
    try:
        registry = pint.UnitRegistry(cache_folder=usual_folder() / "units")
    except Exception:
        # Whatever is wrong with what was kept (a full disk, another version): do without.
        registry = pint.UnitRegistry()
    registry.define("litre_per_100km = 1e-8 m**2")
    registry.define("gallon_per_100_miles = 3.785411784e-3 / 160934.4 * m**2")
    return registry


def parse_number(text: str) -> float:
    """Return a plain number: ``1520``, ``1.5``, ``7/8``, ``1 1/8``.

    Raises
    ------
    UnitError
        The text is no finite number. Underscores and decimal commas are not taken.

    """
    text = text.strip().replace("−", "-")
    if not _DECIMAL.match(text):
        return _fraction(text)
    number = float(text)
    if abs(number) > 1e30:
        raise UnitError(f"{text} is too large to be meant")
    return number


def _fraction(text: str) -> float:
    fraction = _FRACTION.match(text)
    if not fraction:
        raise UnitError(f"{text!r} is not a number")
    sign, whole, top, bottom = fraction.groups()
    if int(bottom) == 0:
        raise UnitError(f"{text} divides by zero")
    number = int(whole or 0) + int(top) / int(bottom)
    return -number if sign == "-" else number


def currency_of(unit: str) -> str | None:
    """Return the currency code that a unit text starts with, if it does: ``EUR/h`` gives EUR."""
    found = _CURRENCY.match(unit.strip())
    return found.group() if found else None


@lru_cache(maxsize=4096)
def factor_and_offset(unit: str, wanted: str) -> tuple[float, float]:
    """Return (factor, offset) that take a number in `unit` to the SI unit `wanted`.

    ``si = number * factor + offset``; the offset is zero but for temperatures.

    Raises
    ------
    UnitError
        The unit is not known, or measures something else.

    """
    if wanted.startswith(MONEY):
        code = currency_of(unit)
        if code is None:
            raise UnitError(f"{unit!r} names no currency")
        unit, wanted = f"1{unit.strip()[3:]}", f"1{wanted[len(MONEY) :]}"
    kept, key = _kept(), f"{unit}\n{wanted}"
    pair = kept[key] if key in kept else _worked_out(unit, wanted)
    if len(key) <= _LONGEST:
        kept[key] = pair
    if pair is None:
        raise UnitError(f"{unit!r} does not measure what is wanted here")
    return pair


def _worked_out(unit: str, wanted: str) -> _Pair | None:
    spelled, target = _spell(unit), _spell(wanted)
    for candidate in (spelled, *_second_readings(spelled)):
        pair = _convert(candidate, target)
        if pair is not None:
            return pair
    return None


def to_si(number: float, unit: str, wanted: str) -> float:
    """Return a number given in `unit` in the SI unit `wanted`.

    Raises
    ------
    UnitError
        The unit is not known, or measures something else.

    """
    factor, offset = factor_and_offset(unit, wanted)
    return number * factor + offset


def from_si(value: float, unit: str, si_unit: str) -> float:
    """Return an SI value in another unit.

    Raises
    ------
    UnitError
        The unit is not known, or measures something else.

    """
    factor, offset = factor_and_offset(unit, si_unit)
    return (value - offset) / factor


def _spell(unit: str) -> str:
    text = unit.strip()
    if text in _WHOLE:
        return _WHOLE[text]
    if text.startswith("/"):
        text = f"1{text}"
    for typed, meant in _SPELLINGS.items():
        text = text.replace(typed, meant)
    text = re.sub(r"(?<=[A-Za-z])([23])\b", r"**\1", text)
    return re.sub(r"\b(lbf?|ft|in|N|kgf?|m)[ -](?=(?:lbf?|ft|in|m)\b)", r"\1*", text)


def _second_readings(spelled: str) -> list[str]:
    return [rule.sub(meant, spelled) for rule, meant in _RETRIES if rule.search(spelled)]


def _convert(unit: str, wanted: str) -> _Pair | None:
    import pint  # noqa: PLC0415  see _registry

    registry = _registry()
    try:
        zero = registry.Quantity(0.0, unit).to(wanted).magnitude
        one = registry.Quantity(1.0, unit).to(wanted).magnitude
    except (pint.PintError, ValueError, TypeError, AttributeError, KeyError, SyntaxError):
        return None
    except Exception:
        return None
    if not isinstance(zero, float) or not isinstance(one, float):
        return None
    return one - zero, zero
