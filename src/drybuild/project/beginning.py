"""Make a starter somebody's own: what they said of their car is written in, the rest is open.

The starters are of invented cars. Of a car that exists, nothing of theirs may stand as if it had
been measured: sizes, loads and findings that were not told become unknown, so that the published
range of the kind counts until somebody measures.
"""

from __future__ import annotations

import tempfile
from collections.abc import Mapping as MappingType
from dataclasses import dataclass, field
from pathlib import Path

from drybuild.errors import Problem, UnitError
from drybuild.project.document import Mapping
from drybuild.project.edit import change, remove
from drybuild.project.load import load
from drybuild.project.parse import parse
from drybuild.project.readings import parse_reading
from drybuild.project.starter import MAIN_FILE, starter_text
from drybuild.project.writing import AsTyped, Value
from drybuild.units import MONEY

STARTER_MONEY = "EUR"
HERE = Path(MAIN_FILE)
SIZES = {"year": "-", "wheelbase": "m", "length": "m", "width": "m"}
"""What may be told of the body at the beginning, and its unit."""
TOLD = ("kind", "shape")
"""Entries of the body that are no readings."""


@dataclass(frozen=True, kw_only=True)
class Beginning:
    """What is known of a car when its build begins; whatever is empty is not known."""

    name: str
    kind: str
    shape: str = ""
    units: str = "metric"
    sizes: MappingType[str, str] = field(default_factory=dict)
    """`SIZES` as typed."""
    use: MappingType[str, float] = field(default_factory=dict)
    """Shares of the distance, by kind of road. [%]"""
    keep: tuple[str, ...] = ()
    budget: str = ""
    hours: str = ""
    """Own hours in a usual week."""
    examples: bool = True
    """Whether the invented parts of the starter stay as examples."""

    def wrong(self) -> dict[str, str]:
        """Return what does not read, by field."""
        found = {} if self.name else {"name": "It wants a name."}
        wanted = [(name, self.sizes.get(name, ""), unit) for name, unit in SIZES.items()]
        wanted += [("budget", self.budget, MONEY), ("hours", self.hours, "s")]
        for name, text, unit in wanted:
            try:
                _ = text and parse_reading(text, unit)
            except UnitError as fault:
                found[name] = f"{fault}."
        if self.use and abs(sum(self.use.values()) - 100.0) > 0.5:
            found["use"] = f"The shares add up to {sum(self.use.values()):g} %, not 100 %."
        return found


def beginning_text(one: Beginning) -> str:
    """Return the starter of its kind with what was told written in, comments and all."""
    text = starter_text(one.kind)
    money = parse_reading(one.budget, MONEY).unit if one.budget else STARTER_MONEY
    text = text.replace(f" {STARTER_MONEY}", f" {money}")  # a build has one currency
    root = parse(HERE, text).root
    edits: dict[str, Value] = {"build": one.name, "units": one.units}
    body, mass = (_entries(root, "car", name) for name in ("body", "mass"))
    edits |= {f"car.body.{name}": "?" for name in body if name not in TOLD}
    edits |= {f"car.mass.{name}": "?" for name in mass if name != "off_the_car"}
    told = {name: AsTyped(text) for name, text in one.sizes.items() if text}
    edits |= {f"car.body.{name}": typed for name, typed in told.items()}
    if one.shape:
        edits["car.body.shape"] = one.shape
    if one.use:
        edits["brief.use"] = {road: AsTyped(f"{share:g} %") for road, share in one.use.items()}
    edits["brief.keep"] = list(one.keep)
    budget = f"total_cost at 80 % <= {one.budget}"
    edits["brief.must"] = [AsTyped(budget)] if one.budget else []
    if one.hours:
        edits["work.hours_a_week"] = AsTyped(one.hours)
    for address, value in edits.items():
        text = change(HERE, text, address, value)
    gone = ["survey.zones"] if "zones" in _entries(root, "survey") else []
    gone += [] if one.examples else [name for name in ("picks", "options") if root.get(name)]
    for address in gone:
        text = remove(HERE, text, address)
    return text


def problems_of(text: str) -> tuple[Problem, ...]:
    """Return what would be wrong with a build file of this text."""
    with tempfile.TemporaryDirectory() as room:
        (Path(room) / MAIN_FILE).write_text(text, encoding="utf-8", newline="")
        return load(Path(room)).problems


def _entries(root: Mapping, *names: str) -> tuple[str, ...]:
    node: object = root
    for name in names:
        node = node.get(name) if isinstance(node, Mapping) else None
    return tuple(node.entries) if isinstance(node, Mapping) else ()
