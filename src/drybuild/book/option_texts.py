"""What an option says of itself: mass, price, lead time, as a person reads them."""

from __future__ import annotations

from drybuild.present.numbers import value_and_band
from drybuild.project.option import Option
from drybuild.project.readings import Reading

WEEK = 7.0 * 86400.0


def given(option: Option | None, name: str) -> Reading | None:
    """Return a reading that the option's own entry gives."""
    found = option.given.get(name) if option else None
    return found if isinstance(found, Reading) else None


def mass_of(option: Option | None, system: str) -> str:
    """Return the mass in the person's system of units, without its spread."""
    found = given(option, "mass")
    if found is None:
        return ""
    triple = (found.value, found.value, found.value)
    return value_and_band(triple, "kg", "kg", system, "")[0]


def money_of(option: Option | None, currency: str) -> str:
    """Return the price, digit for digit; nothing for what stays on the car."""
    found = given(option, "price")
    if found is None:
        return ""
    triple = (found.value, found.value, found.value)
    return value_and_band(triple, "money", "money", "metric", currency)[0]


def lead_time(option: Option | None) -> str:
    """Return the lead time in weeks."""
    found = given(option, "lead_time")
    return "" if found is None else f"{found.value / WEEK:.0f} weeks"


def is_new(option: Option | None) -> bool:
    """Whether the option has to be bought or made."""
    return option is not None and not option.given.get("as_is")
