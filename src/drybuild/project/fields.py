"""The kinds of entry that a section can have: readings first, then words and choices.

A section module writes ``mass = reading("kg", "Mass, dry, with what hangs on it", typical=True)``.
Every number in the file goes through `ReadingField`: unit, spread, origin, bounds.
"""

from __future__ import annotations

import datetime
from dataclasses import replace
from typing import Any

from drybuild.errors import InputError, UnitError
from drybuild.project.document import Listing, Mapping, Node, Scalar, Where
from drybuild.project.reader import Reader, nearest
from drybuild.project.readings import (
    Origin,
    Reading,
    default_half_width,
    parse_reading,
)
from drybuild.project.samples import Values
from drybuild.project.sections import Field, Section, describe, is_empty
from drybuild.units import MONEY, currency_of, from_si

MOST = {
    "m": 1e3,
    "kg": 1e5,
    "N": 1e7,
    "W": 1e7,
    "s": 1e10,
    "N·m": 1e6,
    "m²": 1e4,
    "m³": 1e3,
    "Pa": 1e12,
    "K": 5e3,
    "A": 1e5,
    "V": 1e4,
    MONEY: 1e9,
}
"""Above this a number cannot be meant for a car; it is a slip of the unit or the keyboard."""
LONG_FORM = ("value", "plus_minus", "from", "note")


class ReadingField(Field[Values]):
    """A number with its unit, spread and origin."""

    kind = "reading"

    def __init__(
        self,
        unit: str,
        words: str,
        *,
        typical: bool | str = False,
        least: float | None = 0.0,
        most: float | None = None,
        exact: bool = False,
        origin: Origin = Origin.QUOTED,
    ) -> None:
        super().__init__(words)
        self.unit = unit
        self.typical = typical
        self.least = least
        self.most = most
        self.exact = exact
        self.origin = origin

    def read(self, node: Node, path: str, reader: Reader) -> Reading | None:
        """Return the reading as it stands in the file."""
        if is_empty(node) or (isinstance(node, Scalar) and node.value == "?"):
            return None
        found = (
            self._read_long(node, path, reader)
            if isinstance(node, Mapping)
            else self._read_text(node, path, reader)
        )
        return found if found and self._in_bounds(found, path, node.where, reader) else None

    def take(self, section: Section) -> Values:
        """Return the samples: as given, else from the typical range, else say it is missing."""
        path = section.path_of(self.name)
        known = section.bench.again(path)
        if known is not None:
            return known
        given = section.given.get(self.name)
        if isinstance(given, Reading):
            return section.bench.take(path, given)
        typical = self.typical_reading(section)
        if typical is None:
            section.bench.note(path)
            raise self.missing(section)
        return section.bench.take(path, typical)

    def typical_reading(self, section: Section) -> Reading | None:
        """Return the published typical range that stands in for this entry, if there is one."""
        key = self.typical_key(section)
        found = section.bench.typical(key, self.unit) if key else None
        return found and replace(found, least=self.least, most=self.most)

    def typical_key(self, section: Section) -> str:
        """Return the key that the typical range stands under; empty where there is none."""
        if isinstance(self.typical, str):
            return self.typical
        return f"{section.key}.{self.name}" if self.typical else ""

    def schema(self) -> dict[str, Any]:  # JSON Schema is free-form JSON
        """Return the JSON Schema: a text, or the long form."""
        words = f"{self.words}. Unit: any that measures {self.unit}."
        if self.unit == "-":
            words = f"{self.words}. A plain number or a percentage."
        return {
            "description": words,
            "anyOf": [
                {"type": ["string", "number", "null"]},
                {
                    "type": "object",
                    "properties": {name: {"type": ["string", "number"]} for name in LONG_FORM},
                    "required": ["value"],
                    "additionalProperties": False,
                },
            ],
        }

    def _read_text(self, node: Node, path: str, reader: Reader) -> Reading | None:
        if not isinstance(node, Scalar) or node.value is None:
            reader.problem(
                "number-wanted",
                node.where,
                path,
                f"this is {describe(node)}, but a number with its unit belongs here",
                f'Write it as "{self.example()}".',
            )
            return None
        return self.reading_of(node.value, path, node.where, reader)

    def reading_of(self, text: str, path: str, where: Where, reader: Reader) -> Reading | None:
        """Return the reading that a text holds, or report what is wrong with it."""
        try:
            typed = parse_reading(text, self.unit)
        except UnitError as fault:
            code = "unit-missing" if "no unit" in str(fault) else "number-unreadable"
            code = "currency-missing" if "no currency" in str(fault) else code
            code = "unit-wrong" if "does not measure" in str(fault) else code
            reader.problem(code, where, path, str(fault), f'Write it as "{self.example()}".')
            return None
        if self.unit.startswith(MONEY) and (currency := currency_of(typed.unit)):
            reader.see_currency(currency, where, path)
        origin = typed.origin or (Origin.MEASURED if typed.spread_given else self.origin)
        low, high = typed.low, typed.high
        if not typed.spread_given and not self.exact:
            half = default_half_width(typed.value, origin, self.unit)
            low, high = low - half, high + half
        return Reading(
            value=typed.value,
            low=low,
            high=high,
            origin=origin,
            text=text,
            unit=typed.unit,
            file=where.file,
            line=where.line,
            least=self.least,
            most=self.most,
        )

    def _read_long(self, node: Mapping, path: str, reader: Reader) -> Reading | None:
        texts: dict[str, str] = {}
        for name, entry in node.entries.items():
            if name not in LONG_FORM:
                reader.problem(
                    "unknown-key",
                    entry.key_where,
                    f"{path}.{name}",
                    f'"{name}" is not an entry of a reading',
                    nearest(name, LONG_FORM),
                )
            elif isinstance(entry.node, Scalar) and entry.node.value is not None:
                texts[name] = entry.node.value
        if texts.get("value", "?") == "?":
            return None
        text = texts["value"]
        if "plus_minus" in texts:
            text = f"{text} ± {texts['plus_minus']}"
        found = self.reading_of(text, path, node.where, reader)
        if found is None or "from" not in texts:
            return found and replace(found, note=texts.get("note", ""))
        try:
            origin = Origin(texts["from"])
        except ValueError:
            reader.problem(
                "choice-unknown",
                node.entries["from"].node.where,
                f"{path}.from",
                f'"{texts["from"]}" is not an origin',
                nearest(texts["from"], [one.value for one in Origin]),
            )
            return found
        if "plus_minus" not in texts and "±" not in text and not self.exact:
            half = default_half_width(found.value, origin, self.unit)
            found = replace(found, low=found.value - half, high=found.value + half)
        return replace(found, origin=origin, note=texts.get("note", ""))

    def _in_bounds(self, found: Reading, path: str, where: Where, reader: Reader) -> bool:
        most = self.most if self.most is not None else MOST.get(self.unit, 1e15)
        if (self.least is None or found.value >= self.least) and abs(found.value) <= most:
            return True
        low = "" if self.least is None else f"at least {self._shown(self.least, found)}"
        high = f"at most {self._shown(most, found)}"
        reader.problem(
            "out-of-bounds",
            where,
            path,
            f"{found.text} is outside what can be meant here",
            f"Give {' and '.join(filter(None, (low, high)))}.",
        )
        return False

    def _shown(self, value: float, like: Reading) -> str:
        if self.unit.startswith(MONEY):
            return f"{value:g} {like.unit}"
        return f"{from_si(value, like.unit, self.unit):.4g} {like.unit}".strip()

    def example(self) -> str:
        """Return a well-formed text for this field, for messages and the reference."""
        return EXAMPLES.get(self.unit, f"12 {self.unit}" if self.unit != "-" else "0.85")


EXAMPLES = {
    "m": "1520 ± 3 mm",
    "kg": "138 kg",
    "N": "350 N",
    "W": "180 kW",
    "s": "3 weeks",
    "N·m": "350 N·m",
    "m²": "1.95 m²",
    "m³": "55 l",
    "Pa": "24 psi",
    "K": "90 °C",
    "rad": "5 deg",
    "rad/s": "5500 rpm",
    "m/s": "110 km/h",
    "N/m": "24 N/mm",
    "m³/s": "120 l/h",
    "kg/J": "290 g/kWh",
    MONEY: "1200 EUR",
    "money/s": "45 EUR/h",
}


class TextField(Field[str]):
    """A text of the person's own."""

    kind = "text"

    def read(self, node: Node, path: str, reader: Reader) -> str | None:
        """Return the text."""
        if is_empty(node):
            return None
        if isinstance(node, Scalar):
            return node.value
        reader.problem(
            "text-wanted",
            node.where,
            path,
            f"this is {describe(node)}, but a text belongs here",
            "Write the text on one line.",
        )
        return None

    def take(self, section: Section) -> str:
        """Return the text; empty when not given."""
        section.bench.note(section.path_of(self.name))
        given = section.given.get(self.name)
        return given if isinstance(given, str) else ""

    def schema(self) -> dict[str, Any]:  # JSON Schema is free-form JSON
        """Return the JSON Schema."""
        return {"description": self.words, "type": ["string", "number", "null"]}


class ChoiceField(TextField):
    """One of a few words."""

    kind = "choice"

    def __init__(self, words: str, *choices: str, usual: str | None = None) -> None:
        super().__init__(words)
        self.choices = choices
        self.usual = usual

    def read(self, node: Node, path: str, reader: Reader) -> str | None:
        """Return the word, or report that it is none of the choices."""
        found = super().read(node, path, reader)
        if found in (None, "?") or found in self.choices:
            return None if found == "?" else found
        reader.problem(
            "choice-unknown",
            node.where,
            path,
            f'"{found}" is none of the choices here',
            nearest(found, self.choices),
        )
        return None

    def take(self, section: Section) -> str:
        """Return the word given, else the usual one, else say it is missing."""
        section.bench.note(section.path_of(self.name))
        given = section.given.get(self.name, self.usual)
        if not isinstance(given, str):
            raise self.missing(section)
        return given

    def schema(self) -> dict[str, Any]:  # JSON Schema is free-form JSON
        """Return the JSON Schema."""
        return {"description": self.words, "enum": [*self.choices, "?", None]}


class FlagField(Field[bool]):
    """Yes or no."""

    kind = "yes or no"
    WORDS = {"true": True, "false": False, "yes": True, "no": False}  # noqa: RUF012  a constant

    def __init__(self, words: str, *, usual: bool = False) -> None:
        super().__init__(words)
        self.usual = usual

    def read(self, node: Node, path: str, reader: Reader) -> bool | None:
        """Return yes or no."""
        if is_empty(node):
            return None
        found = node.value if isinstance(node, Scalar) else None
        if found is not None and found.lower() in self.WORDS:
            return self.WORDS[found.lower()]
        if found != "?":
            reader.problem(
                "yes-or-no-wanted",
                node.where,
                path,
                f"this is {describe(node)}, but yes or no belongs here",
                'Write "true" or "false".',
            )
        return None

    def take(self, section: Section) -> bool:
        """Return what is given, else the usual."""
        section.bench.note(section.path_of(self.name))
        return bool(section.given.get(self.name, self.usual))

    def schema(self) -> dict[str, Any]:  # JSON Schema is free-form JSON
        """Return the JSON Schema."""
        return {"description": self.words, "enum": [True, False, "yes", "no", "?", None]}


class TextsField(Field[tuple[str, ...]]):
    """A list of words; a single word stands for a list of one."""

    kind = "list of words"

    def read(self, node: Node, path: str, reader: Reader) -> tuple[str, ...] | None:
        """Return the words."""
        if is_empty(node):
            return None
        nodes = node.items if isinstance(node, Listing) else (node,)
        words = [one.value for one in nodes if isinstance(one, Scalar) and one.value is not None]
        if len(words) == len(nodes):
            return tuple(words)
        reader.problem(
            "list-wanted",
            node.where,
            path,
            f"this is {describe(node)}, but a list of words belongs here",
            'Write it as "[bonnet, tunnel]".',
        )
        return None

    def take(self, section: Section) -> tuple[str, ...]:
        """Return the words; none when not given."""
        section.bench.note(section.path_of(self.name))
        given = section.given.get(self.name)
        return given if isinstance(given, tuple) else ()

    def schema(self) -> dict[str, Any]:  # JSON Schema is free-form JSON
        """Return the JSON Schema."""
        return {
            "description": self.words,
            "anyOf": [{"type": "array", "items": {"type": "string"}}, {"type": ["string", "null"]}],
        }


class DateField(Field[datetime.date]):
    """A calendar date."""

    kind = "date"

    def read(self, node: Node, path: str, reader: Reader) -> datetime.date | None:
        """Return the date."""
        if is_empty(node) or (isinstance(node, Scalar) and node.value == "?"):
            return None
        try:
            return datetime.date.fromisoformat(node.value or "" if isinstance(node, Scalar) else "")
        except ValueError:
            reader.problem(
                "date-unreadable",
                node.where,
                path,
                f"{describe(node)} is no date",
                'Write year, month and day, as "2027-03-01".',
            )
            return None

    def take(self, section: Section) -> datetime.date:
        """Return the date, or say that it is missing."""
        section.bench.note(section.path_of(self.name))
        given = section.given.get(self.name)
        if not isinstance(given, datetime.date):
            raise self.missing(section)
        return given

    def schema(self) -> dict[str, Any]:  # JSON Schema is free-form JSON
        """Return the JSON Schema."""
        return {"description": self.words, "type": ["string", "null"], "format": "date"}


class PatternField(TextField):
    """A text in a notation of the trade, such as a tyre size, checked while reading."""

    kind = "notation"

    def __init__(self, words: str, check: Any, example: str) -> None:  # any callable that raises
        super().__init__(words)
        self.check = check
        self.example = example

    def read(self, node: Node, path: str, reader: Reader) -> str | None:
        """Return the text if it reads well."""
        found = super().read(node, path, reader)
        if found in (None, "?"):
            return None
        try:
            self.check(found)
        except (InputError, UnitError) as fault:
            reader.problem(
                "notation-unreadable",
                node.where,
                path,
                str(fault),
                f'Write it as "{self.example}".',
            )
            return None
        return found

    def take(self, section: Section) -> str:
        """Return the text, or say that it is missing."""
        found = super().take(section)
        if not found:
            raise self.missing(section)
        return found


reading = ReadingField
text = TextField
texts = TextsField
choice = ChoiceField
flag = FlagField
date = DateField
notation = PatternField
