"""Entries made of several readings: rated values, curves, lists, points, shares, sub-sections."""

from __future__ import annotations

import re
from dataclasses import dataclass, replace
from itertools import pairwise
from typing import Any, Generic, TypeVar

import numpy as np

from drybuild.errors import UnitError
from drybuild.project.document import Listing, Mapping, Node, Scalar
from drybuild.project.fields import ReadingField
from drybuild.project.reader import Reader
from drybuild.project.readings import DEFAULT_SPREAD, Origin, Reading, parse_three_point
from drybuild.project.samples import Values
from drybuild.project.sections import Field, Section, describe, is_empty, read_section
from drybuild.units import MONEY, currency_of

S = TypeVar("S", bound=Section)


@dataclass(frozen=True, kw_only=True)
class Rated:
    """A value and the range of another quantity that it holds at; None where not given."""

    value: Values
    start: Values | None
    end: Values | None


class RatedField(Field[Rated]):
    """``180 kW at 5500 rpm`` or ``350 N·m from 1500 to 4500 rpm``; alone the value will do."""

    kind = "rated reading"
    _AT = re.compile(r"^(?P<value>.+?)\s+at\s+(?P<at>.+)$")
    _BAND = re.compile(r"^(?P<value>.+?)\s+from\s+(?P<start>\S+)(?P<unit>.*?)\s+to\s+(?P<end>.+)$")

    def __init__(self, unit: str, at_unit: str, words: str, *, typical: bool = False) -> None:
        super().__init__(words)
        self.value = ReadingField(unit, words, typical=typical)
        self.at = ReadingField(at_unit, f"{words}: where it holds")

    def __set_name__(self, owner: type[Section], name: str) -> None:
        super().__set_name__(owner, name)
        self.value.name = name

    def read(self, node: Node, path: str, reader: Reader) -> Any:  # (value, start, end) readings
        """Return the value and its range."""
        if not isinstance(node, Scalar) or node.value in (None, "?"):
            found = self.value.read(node, path, reader)
            return found and (found, None, None)
        typed = node.value or ""
        if band := self._BAND.match(typed):
            unit = re.sub(r"^[\d.\s]+", "", band["end"])
            ends = (f"{band['start']} {band['unit'].strip() or unit}", band["end"])
            value = band["value"]
        elif at := self._AT.match(typed):
            value, ends = at["value"], (at["at"], at["at"])
        else:
            found = self.value.read(node, path, reader)
            return found and (found, None, None)
        parts = (
            self.value.read(replace(node, value=value), path, reader),
            self.at.read(replace(node, value=ends[0]), f"{path}.at", reader),
            self.at.read(replace(node, value=ends[1]), f"{path}.at", reader),
        )
        return parts if all(part is not None for part in parts) else None

    def take(self, section: Section) -> Rated:
        """Return the value with the range that it holds at."""
        path = section.path_of(self.name)
        given = section.given.get(self.name)
        if not isinstance(given, tuple):
            return Rated(value=self.value.take(section), start=None, end=None)
        value, start, end = given
        taken = section.bench.take(path, value)
        if start is None:
            return Rated(value=taken, start=None, end=None)
        # The ends share their doubt, so that no sample has a band that ends before it begins.
        first = section.bench.take(f"{path}.at", start)
        return Rated(value=taken, start=first, end=first * (end.value / start.value))

    def schema(self) -> dict[str, Any]:  # JSON Schema is free-form JSON
        """Return the JSON Schema: that of the value."""
        return self.value.schema()


@dataclass(frozen=True, kw_only=True)
class Curve:
    """Points of a curve: x of shape (points,), y of shape (points, samples)."""

    x: Values
    y: Values


class CurveField(Field[Curve]):
    """A list of pairs ``[[1500 rpm, 210 N·m], [3000 rpm, 260 N·m]]``, x rising."""

    kind = "curve"

    def __init__(self, x_unit: str, y_unit: str, words: str) -> None:
        super().__init__(words)
        self.x = ReadingField(x_unit, f"{words}: x", exact=True)
        self.y = ReadingField(y_unit, f"{words}: y", least=None, exact=True)

    def read(self, node: Node, path: str, reader: Reader) -> Any:  # tuple of pairs of floats
        """Return the pairs in SI."""
        if is_empty(node) or (isinstance(node, Scalar) and node.value == "?"):
            return None
        pairs = []
        for number, item in enumerate(node.items if isinstance(node, Listing) else ()):
            if not isinstance(item, Listing) or len(item.items) != 2:
                return self._refuse(item, f"{path}[{number}]", reader)
            x = self.x.read(item.items[0], f"{path}[{number}][0]", reader)
            y = self.y.read(item.items[1], f"{path}[{number}][1]", reader)
            if x is None or y is None:
                return None
            pairs.append((x.value, y.value))
        rising = all(a[0] < b[0] for a, b in pairwise(pairs))
        return tuple(pairs) if len(pairs) > 1 and rising else self._refuse(node, path, reader)

    def _refuse(self, node: Node, path: str, reader: Reader) -> None:
        reader.problem(
            "curve-unreadable",
            node.where,
            path,
            f"{describe(node)} is not a curve",
            f"Write two or more pairs with x rising: "
            f'"[[{self.x.example()}, {self.y.example()}], [...]]".',
        )

    def take(self, section: Section) -> Curve:
        """Return the points; their spread is one common factor on y."""
        path = section.path_of(self.name)
        given = section.given.get(self.name)
        if not isinstance(given, tuple):
            section.bench.note(path)
            raise self.missing(section)
        half = DEFAULT_SPREAD[Origin.QUOTED]
        factor = section.bench.take(
            path,
            Reading(
                value=1.0,
                low=1.0 - half,
                high=1.0 + half,
                origin=Origin.QUOTED,
                text="curve",
                unit="",
            ),
        )
        x, y = np.array(given).T
        return Curve(x=x, y=y[:, np.newaxis] * factor)

    def schema(self) -> dict[str, Any]:  # JSON Schema is free-form JSON
        """Return the JSON Schema."""
        pair = {"type": "array", "items": {"type": ["string", "number"]}, "minItems": 2}
        return {"description": self.words, "type": ["array", "string", "null"], "items": pair}


class NumbersField(Field[Values]):
    """A list of readings of one unit: gear ratios, or a point ``[x, y, z]``."""

    kind = "list of readings"

    def __init__(
        self,
        unit: str,
        words: str,
        *,
        count: int | None = None,
        least: float | None = 0.0,
        exact: bool = False,
    ) -> None:
        super().__init__(words)
        self.item = ReadingField(unit, words, least=least, exact=exact)
        self.count = count

    def read(self, node: Node, path: str, reader: Reader) -> tuple[Reading, ...] | None:
        """Return the readings."""
        if is_empty(node) or (isinstance(node, Scalar) and node.value == "?"):
            return None
        items = node.items if isinstance(node, Listing) else ()
        if not items or (self.count and len(items) != self.count):
            wanted = f"{self.count} readings" if self.count else "readings"
            reader.problem(
                "list-wanted",
                node.where,
                path,
                f"this is {describe(node)}{f' of {len(items)}' if items else ''}, "
                f"but a list of {wanted} belongs here",
                f'Write it as "{self.example()}".',
            )
            return None
        found = [self.item.read(one, f"{path}[{k}]", reader) for k, one in enumerate(items)]
        return tuple(one for one in found if one) if all(found) else None

    def example(self) -> str:
        """Return how such a list is written."""
        return f"[{', '.join([self.item.example()] * (self.count or 2))}]"

    def take(self, section: Section) -> Values:
        """Return an array of shape (items, samples)."""
        path = section.path_of(self.name)
        given = section.given.get(self.name)
        if isinstance(given, tuple):
            taken = [section.bench.take(f"{path}[{k}]", one) for k, one in enumerate(given)]
            return np.array(taken)
        section.bench.note(path)
        raise self.missing(section)

    def schema(self) -> dict[str, Any]:  # JSON Schema is free-form JSON
        """Return the JSON Schema."""
        return {
            "description": self.words,
            "type": ["array", "string", "null"],
            "items": self.item.schema(),
        }


@dataclass(frozen=True, kw_only=True)
class ThreePoint:
    """Least, likely and most of something that is estimated, in SI."""

    least: float
    likely: float
    most: float


class ThreePointField(Field[ThreePoint]):
    """``8 / 12 / 20 h``: least, likely, most; a single reading stands for all three."""

    kind = "three-point estimate"

    def __init__(self, unit: str, words: str) -> None:
        super().__init__(words)
        self.unit = unit

    def read(self, node: Node, path: str, reader: Reader) -> ThreePoint | None:
        """Return the three."""
        if is_empty(node) or (isinstance(node, Scalar) and node.value == "?"):
            return None
        typed = node.value if isinstance(node, Scalar) else None
        unit = "EUR" if self.unit == MONEY else "h"
        mend = f'Write least, likely and most, as "8 / 12 / 20 {unit}", or one as "12 {unit}".'
        if typed is None:
            wrong = f"this is {describe(node)}, but a three-point estimate belongs here"
            reader.problem("estimate-unreadable", node.where, path, wrong, mend)
            return None
        try:
            least, likely, most, typed_unit = parse_three_point(typed, self.unit)
        except UnitError as fault:
            reader.problem("estimate-unreadable", node.where, path, str(fault), mend)
            return None
        if least < 0.0:
            wrong = f"{typed} is negative"
            reader.problem("estimate-unreadable", node.where, path, wrong, mend)
            return None
        if self.unit == MONEY and (code := currency_of(typed_unit)):
            reader.see_currency(code, node.where, path)
        return ThreePoint(least=least, likely=likely, most=most)

    def take(self, section: Section) -> ThreePoint:
        """Return the three, or say that they are missing."""
        section.bench.note(section.path_of(self.name))
        given = section.given.get(self.name)
        if not isinstance(given, ThreePoint):
            raise self.missing(section)
        return given

    def schema(self) -> dict[str, Any]:  # JSON Schema is free-form JSON
        """Return the JSON Schema."""
        return {"description": self.words, "type": ["string", "number", "null"]}


class PartField(Field[S], Generic[S]):
    """A section within a section."""

    kind = "group of entries"

    def __init__(self, section: type[S], words: str) -> None:
        super().__init__(words)
        self.section = section

    def read(self, node: Node, path: str, reader: Reader) -> S:
        """Return the section."""
        return read_section(self.section, node, path, "", reader)

    def take(self, section: Section) -> S:
        """Return the section bound to the same bench; an empty one when not given."""
        path, key = section.path_of(self.name), f"{section.key}.{self.name}"
        given = section.given.get(self.name)
        part = given if isinstance(given, self.section) else self.section(path=path, key=key)
        return self.section(path=path, key=key, given=part.given, bench=section.bench)

    def schema(self) -> dict[str, Any]:  # JSON Schema is free-form JSON
        """Return the JSON Schema."""
        return {"description": self.words, **section_schema(self.section)}


class NamedField(Field[dict[str, S]], Generic[S]):
    """Sections by names of the person's own: circuits, boxes, zones."""

    kind = "named groups"

    def __init__(self, section: type[S], words: str, *, least: int = 0) -> None:
        super().__init__(words)
        self.section = section
        self.least = least
        """How many of them it takes to mean anything."""

    def read(self, node: Node, path: str, reader: Reader) -> dict[str, S] | None:
        """Return the sections by name."""
        if is_empty(node):
            return None
        if not isinstance(node, Mapping):
            reader.problem(
                "mapping-wanted",
                node.where,
                path,
                f"this is {describe(node)}, but named groups of entries belong here",
                "Write a name, and its entries below it.",
            )
            return None
        return {
            name: read_section(self.section, entry.node, f"{path}.{name}", "", reader)
            for name, entry in node.entries.items()
        }

    def take(self, section: Section) -> dict[str, S]:
        """Return the sections bound to the same bench; none when not given."""
        section.bench.note(section.path_of(self.name))
        given = section.given.get(self.name)
        key = f"{section.key}.{self.name}"
        return {
            name: self.section(path=one.path, key=key, given=one.given, bench=section.bench)
            for name, one in (given.items() if isinstance(given, dict) else ())
        }

    def schema(self) -> dict[str, Any]:  # JSON Schema is free-form JSON
        """Return the JSON Schema."""
        return {
            "description": self.words,
            "type": ["object", "null"],
            "additionalProperties": section_schema(self.section),
        }


class WordsByNameField(Field[dict[str, tuple[str, ...]]]):
    """Lists of words by name: ``needs: {gearbox: [five-speed]}``, ``joins: {bellhousing: B}``."""

    kind = "words by name"

    def read(self, node: Node, path: str, reader: Reader) -> dict[str, tuple[str, ...]] | None:
        """Return the words by name."""
        if is_empty(node):
            return None
        found: dict[str, tuple[str, ...]] = {}
        for name, entry in node.entries.items() if isinstance(node, Mapping) else ():
            item = entry.node
            items = item.items if isinstance(item, Listing) else (item,)
            words = [one.value for one in items if isinstance(one, Scalar) and one.value]
            if len(words) == len(items):
                found[name] = tuple(words)
        if isinstance(node, Mapping) and len(found) == len(node.entries):
            return found
        reader.problem(
            "mapping-wanted",
            node.where,
            path,
            f"this is {describe(node)}, but words by name belong here",
            'Write it as "{gearbox: [close five-speed]}".',
        )
        return None

    def take(self, section: Section) -> dict[str, tuple[str, ...]]:
        """Return the words by name; none when not given."""
        section.bench.note(section.path_of(self.name))
        given = section.given.get(self.name)
        return given if isinstance(given, dict) else {}

    def schema(self) -> dict[str, Any]:  # JSON Schema is free-form JSON
        """Return the JSON Schema."""
        words = {"type": ["string", "array", "number"]}
        return {
            "description": self.words,
            "type": ["object", "null"],
            "additionalProperties": words,
        }


class SharesField(Field[dict[str, float]]):
    """Shares by name that add up to 100 %, or plain weights by name."""

    kind = "shares by name"

    def __init__(self, words: str, *, total: float | None) -> None:
        super().__init__(words)
        self.total = total
        self.item = ReadingField("-", words, exact=True)

    def read(self, node: Node, path: str, reader: Reader) -> dict[str, float] | None:
        """Return the shares."""
        if is_empty(node):
            return None
        found: dict[str, float] = {}
        for name, entry in node.entries.items() if isinstance(node, Mapping) else ():
            one = self.item.read(entry.node, f"{path}.{name}", reader)
            if one is not None:
                found[name] = one.value
        if not isinstance(node, Mapping):
            wrong, mend = f"this is {describe(node)}", 'Write names and numbers, as "{town: 35 %}".'
            reader.problem("mapping-wanted", node.where, path, wrong, mend)
            return None
        if self.total is not None and found and abs(sum(found.values()) - self.total) > 0.005:
            reader.problem(
                "shares-total",
                node.where,
                path,
                f"the shares add up to {sum(found.values()) * 100:.4g} %",
                f"Make them add up to {self.total * 100:g} %.",
            )
            return None
        return found

    def take(self, section: Section) -> dict[str, float]:
        """Return the shares; none when not given."""
        section.bench.note(section.path_of(self.name))
        given = section.given.get(self.name)
        return given if isinstance(given, dict) else {}

    def schema(self) -> dict[str, Any]:  # JSON Schema is free-form JSON
        """Return the JSON Schema."""
        number = {"type": ["string", "number"]}
        return {
            "description": self.words,
            "type": ["object", "null"],
            "additionalProperties": number,
        }


def section_schema(section: type[Section]) -> dict[str, Any]:  # JSON Schema is free-form JSON
    """Return the JSON Schema of a section."""
    return {
        "type": ["object", "null"],
        "properties": {name: field.schema() for name, field in section.FIELDS.items()},
        "additionalProperties": False,
    }


rated = RatedField
curve = CurveField
numbers = NumbersField
three_point = ThreePointField
part = PartField
named = NamedField
words_by_name = WordsByNameField
shares = SharesField
