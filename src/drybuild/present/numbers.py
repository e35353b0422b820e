"""Numbers as people read them: their units, no more digits than the spread carries."""

from __future__ import annotations

import datetime
import math
import re

import numpy as np

from drybuild.project.samples import Values
from drybuild.units import MONEY, from_si

US_UNITS = {
    "mm": "in",
    "m": "ft",
    "kg": "lb",
    "N": "lbf",
    "N·m": "lbf·ft",
    "km/h": "mph",
    "km": "mi",
    "kW": "hp",
    "°C": "°F",
    "l": "gal",
    "l/h": "gal/h",
    "bar": "psi",
    "N/mm": "lbf/in",
    "kg·m²": "lb·ft²",
    "m²": "ft²",
    "kPa": "psi",
    "MPa": "psi",
    "m/s²": "ft/s²",
    "cm²": "in²",
    "mm²": "in²",
    "N·m/deg": "lbf·ft/deg",
    "kg/kW": "lb/hp",
    "W/kg": "hp/lb",
    "kN": "lbf",
    "kJ": "BTU",
    "l/min": "gal/min",
    "kg/h": "lb/h",
    "cm³": "cu in",
    "kg/m": "lb/ft",
    "l/100 km": "gal/100 mi",
}
"""What a reader of US units gets in place of each metric unit; the others stay."""
_READ_AS = {
    "degC": "°C",
    "deg": "°",
    "deg/g": "°/g",
    "deg/m": "°/m",
    "g_0": "g",
    "week": "weeks",
}
"""How some units are written for people."""
EPOCH = datetime.date(1970, 1, 1)
_HYPHEN = re.compile(r"(?<![\w−)-])-(?=[.\d])")
FINEST = 6
"""Decimals at most; a band finer than they can show is not told."""
ROUNDING = 1e-9
"""A band narrower than this share of the value is the arithmetic's, not the car's."""


def unit_for(shown: str, system: str, currency: str) -> str:
    """Return the unit that a person reads: metric or US, with the build's currency for money."""
    unit = _READ_AS.get(shown, shown)
    unit = US_UNITS.get(unit, unit) if system == "us" else unit
    return unit.replace(MONEY, currency) if unit.startswith(MONEY) else unit


def in_unit(value: float, si_unit: str, shown: str, system: str) -> float:
    """Return an SI value in the unit that a person reads."""
    if si_unit == "date":
        return value
    some = "XXX"  # any currency: the factor of money is one
    return from_si(value, unit_for(shown, system, some), si_unit)


def as_text(value: float, *, low: float | None = None, high: float | None = None) -> str:
    """Return a number with the digits that its 5-95 % band carries; four when it has none."""
    if not math.isfinite(value):
        return "none" if math.isnan(value) else "no limit"
    band = (high - low) / 2.0 if low is not None and high is not None else 0.0
    if band > 0.0 and math.isfinite(band):
        digits = 1 - math.floor(math.log10(band))
    elif value:
        digits = 3 - math.floor(math.log10(abs(value)))
    else:
        digits = 0
    digits = max(min(digits, FINEST), -FINEST)
    rounded = round(value, digits)
    text = f"{rounded:,.{max(digits, 0)}f}".replace(",", "\u202f")  # narrow space in thousands
    if "." in text and (band == 0.0 or digits == FINEST):
        text = text.rstrip("0").rstrip(".")
    return text.replace("-", "−") if rounded else text.lstrip("-")


def with_minus(text: str) -> str:
    """Return a text with a minus sign where a hyphen stands before a number."""
    return _HYPHEN.sub("−", text)


def date_text(days: float) -> str:
    """Return an ISO date for days since 1970-01-01."""
    if not math.isfinite(days):
        return "no date"
    return (EPOCH + datetime.timedelta(days=round(days))).isoformat()


def with_band(
    triple: tuple[float, float, float], si_unit: str, shown: str, system: str, currency: str
) -> str:
    """Return ``1 050 kg (1 010 to 1 090)``: nominal in the person's unit, and its 5-95 % band."""
    value, band = value_and_band(triple, si_unit, shown, system, currency)
    return f"{value} ({band})" if band else value


def value_and_band(
    triple: tuple[float, float, float], si_unit: str, shown: str, system: str, currency: str
) -> tuple[str, str]:
    """Return ``1 050 kg`` and ``1 010 to 1 090``; no band where there is no spread."""
    if si_unit == "date":
        days = [date_text(one) for one in triple]
        return days[0], "" if days[1] == days[2] else f"{days[1]} to {days[2]}"
    nominal, low, high = (in_unit(one, si_unit, shown, system) for one in triple)
    unit = unit_for(shown, system, currency)
    tail = "" if unit == "-" else f" {unit}"
    if not high - low > ROUNDING * max(abs(low), abs(high)):
        return f"{as_text(nominal)}{tail}", ""
    told = [as_text(one, low=low, high=high) for one in (nominal, low, high)]
    return f"{told[0]}{tail}", "" if told[1] == told[2] else f"{told[1]} to {told[2]}"


def in_units(values: Values, si_unit: str, shown: str, system: str) -> Values:
    """Return SI values in the unit that a person reads."""
    zero = in_unit(0.0, si_unit, shown, system)
    return np.asarray(zero + values * (in_unit(1.0, si_unit, shown, system) - zero))
