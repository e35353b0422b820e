"""The brief: what the car is for, what may not be altered, what it must reach."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import Any

from drybuild.project.document import Listing, Node, Scalar
from drybuild.project.fields import date, reading, texts
from drybuild.project.groups import shares
from drybuild.project.reader import Reader
from drybuild.project.sections import Field, Section, describe, is_empty
from drybuild.units import MONEY

_LINE = re.compile(
    r"^(?P<quantity>[a-z][a-z0-9_]*)(?:\.(?P<label>[\w -]+))?"
    r"(?:\s+at\s+(?P<at1>[\d.]+)\s*%)?"
    r"\s*(?P<operator><=|>=|≤|≥|<|>)\s*(?P<limit>.+?)"
    r"(?:\s+at\s+(?P<at2>[\d.]+)\s*%)?$"
)
MUST_EXAMPLE = "zero_to_100_kmh <= 7.0 s"


@dataclass(frozen=True, kw_only=True)
class MustLine:
    """One line of ``must``: quantity operator value, and how sure it has to be."""

    text: str
    quantity: str
    label: str | None
    at_least: bool
    limit: str
    probability: float | None
    file: Any  # a Path; Any keeps the dataclass free of a circular import
    line: int


class MustField(Field[tuple[MustLine, ...]]):
    """The lines of ``must``."""

    kind = "list of must lines"

    def read(self, node: Node, path: str, reader: Reader) -> tuple[MustLine, ...] | None:
        """Return the lines that read well."""
        if is_empty(node):
            return None
        items = node.items if isinstance(node, Listing) else (node,)
        found = []
        for number, item in enumerate(items):
            typed = item.value if isinstance(item, Scalar) else None
            match = _LINE.match(typed.strip()) if typed else None
            if not match or not typed:
                reader.problem(
                    "must-unreadable",
                    item.where,
                    f"{path}[{number}]",
                    f"{describe(item)} is not a must line",
                    f'Write quantity, operator and value, as "{MUST_EXAMPLE}" or '
                    '"total_cost at 80 % <= 38000 EUR".',
                )
                continue
            at = match["at1"] or match["at2"]
            found.append(
                MustLine(
                    text=typed.strip(),
                    quantity=match["quantity"],
                    label=(match["label"] or "").strip() or None,
                    at_least=match["operator"] in (">=", "≥", ">"),
                    limit=match["limit"],
                    probability=float(at) / 100.0 if at else None,
                    file=item.where.file,
                    line=item.where.line,
                )
            )
        return tuple(found)

    def take(self, section: Section) -> tuple[MustLine, ...]:
        """Return the lines."""
        section.bench.note(section.path_of(self.name))
        given = section.given.get(self.name)
        return given if isinstance(given, tuple) else ()

    def schema(self) -> dict[str, Any]:  # JSON Schema is free-form JSON
        """Return the JSON Schema."""
        return {"description": self.words, "type": ["array", "null"], "items": {"type": "string"}}


class Brief(Section):
    """What the car is for, what may not be altered, what it must reach, what is preferred."""

    use = shares("Share of the distance by kind of road", total=1.0)
    keep = texts("Areas that no option may alter")
    must = MustField("What has to be reached: quantity operator value [at P %]")
    prefer = shares("Weights of what is preferred, by quantity", total=None)
    occupants = reading("-", "People in the car on a usual journey", typical=True, exact=True)
    occupant_mass = reading("kg", "Mass of one person with what they carry", typical=True)
    luggage = reading("kg", "Luggage on a usual journey", typical=True)
    cruise_speed = reading("m/s", "Usual speed on a fast road", typical=True)
    ride_frequency = reading("Hz", "Ride frequency wanted in front, laden", typical=True)
    roll_gradient = reading("rad·s²/m", "Body roll wanted per lateral acceleration", typical=True)
    damping_ratio = reading("-", "Damping of the body wanted, as share of critical", typical=True)
    hot_day = reading("K", "Air temperature of a hot day where the car is used", typical=True)
    cold_day = reading("K", "Air temperature of a cold day where the car is used", typical=True)
    climb_grade = reading("-", "Steepest long climb on its roads", typical=True)
    climb_speed = reading("m/s", "Speed wanted on that climb", typical=True)
    descent_drop = reading("m", "Height lost on its longest descent", typical=True, most=5e3)
    descent_grade = reading("-", "Grade of that descent", typical=True)
    descent_speed = reading("m/s", "Speed on that descent", typical=True)
    yearly_distance = reading("m", "Distance driven in a year", typical=True, most=1e9)
    budget = reading(MONEY, "What may be spent", exact=True)
    finish_by = date("Day on which it should be on the road")
