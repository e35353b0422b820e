"""Single numbers out of a session's results, for drawings and captions."""

from __future__ import annotations

import math

import numpy as np

from drybuild.present.numbers import in_units, unit_for, value_and_band
from drybuild.project.samples import Values
from drybuild.quantities.graph import summary
from drybuild.session import Session


def nominal_of(session: Session, name: str, label: str = "") -> float | None:
    """Return a quantity's nominal value in SI; None while it is open or has no solution."""
    result = session.quantities.get(name)
    if result is None or result.open or label not in result.labelled():
        return None
    value = float(np.ravel(result.labelled()[label])[0])
    return value if math.isfinite(value) else None


def label_value(session: Session, name: str, label: str = "") -> str:
    """Return a quantity's value in the person's unit, without its band; "?" while it is open."""
    result = session.quantities.get(name)
    if result is None or result.open or label not in result.labelled():
        return "?"
    one, build = result.quantity, session.build
    triple = summary(result.labelled()[label])
    return value_and_band(triple, one.unit, one.shown, build.units, build.currency)[0]


def length_text(session: Session, metres: float) -> str:
    """Return a length as people read it: whole millimetres, or inches to a tenth."""
    units = session.build.units
    value = float(in_units(np.array(metres), "m", "mm", units))
    unit = unit_for("mm", units, "")
    return f"{value:.0f} {unit}".replace("-", "−") if unit == "mm" else f"{value:.1f} {unit}"


def shown_array(session: Session, values: Values, si_unit: str, shown: str) -> Values:
    """Return SI values in the person's unit, for an axis of a plot."""
    return in_units(np.asarray(values, dtype=float), si_unit, shown, session.build.units)


def shown_unit(session: Session, shown: str) -> str:
    """Return the unit that stands at such an axis."""
    return unit_for(shown, session.build.units, session.build.currency)
