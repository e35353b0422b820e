"""The entries of a section as a page shows them: what is typed, what stands in, why it matters."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from types import MappingProxyType
from typing import Any

from drybuild.checks.verdicts import State, Verdict
from drybuild.errors import Problem, UnitError
from drybuild.present.numbers import unit_for, value_and_band
from drybuild.present.path_words import plain
from drybuild.project.address import Address, read_address, write_address
from drybuild.project.build import Build
from drybuild.project.document import Mapping as MappingNode
from drybuild.project.document import Scalar
from drybuild.project.edit import node_at, value_of
from drybuild.project.fields import EXAMPLES, ChoiceField, FlagField, ReadingField, TextField
from drybuild.project.groups import NamedField, NumbersField, PartField
from drybuild.project.readings import Reading
from drybuild.project.sections import Section
from drybuild.project.writing import inline
from drybuild.quantities.graph import Evaluation
from drybuild.tables.measuring import HowTo, how_to
from drybuild.units import MONEY, currency_of
from drybuild.workbench.places import page_id

NEW = "new one"
"""Stands for the name of a part that is not there yet."""
ASKED = 7
"""Entries that are asked for when a part is added; the others can be filled in then."""

BRIEF = ("reading", "rated reading", "three-point estimate", "choice", "yes or no", "date", "value")
"""Kinds of entries whose text is short."""


@dataclass(frozen=True, kw_only=True)
class Matter:
    """A verdict that hangs on a reading, and the share of its doubt that comes from it."""

    check: str
    asks: str
    share: float


@dataclass(frozen=True, kw_only=True)
class Long:
    """A reading as its long form tells it; of the short form the value alone."""

    value: str
    origin: str = ""
    note: str = ""


@dataclass(frozen=True, kw_only=True)
class Entry:
    """One entry of the build file."""

    address: str
    path: str
    """As readings are called: the address without quotes."""
    name: str
    words: str
    kind: str
    typed: str
    """As it stands in the file; empty when it does not."""
    choices: tuple[str, ...] = ()
    usual: str = ""
    example: str = ""
    stands_in: str = ""
    """The published range that counts while nothing is typed."""
    origin: str = ""
    how: HowTo | None = None
    matters: tuple[Matter, ...] = ()
    problems: tuple[Problem, ...] = ()
    band: str = ""
    """Its 5 to 95 % bounds, where it has a spread."""
    long: Long | None = None
    """Value, origin and note of a reading, each by itself; None for other entries."""
    numbers: tuple[int, ...] = ()
    """Its numbers on the page's drawing of where to measure."""

    @property
    def broad(self) -> bool:
        """Whether what is typed may be long."""
        return self.kind not in BRIEF

    @property
    def value(self) -> str:
        """What stands in its field: of a long form the value alone."""
        return self.long.value if self.long and self.typed else self.typed

    @property
    def id(self) -> str:
        """The name of its form on a page."""
        return f"e-{page_id(self.path)}"


@dataclass(frozen=True, kw_only=True)
class Adding:
    """Where a part with a name of the person's own can be added, and what is asked of it."""

    inside: str
    words: str
    asks: tuple[Entry, ...]
    parts: tuple[Adding, ...] = ()
    """Lists within it without whose parts it means nothing."""
    least: int = 0
    """How many parts of such a list are asked for at once."""

    @property
    def name(self) -> str:
        """What the list is called in the file."""
        return str(read_address(self.inside)[-1])

    @property
    def id(self) -> str:
        """The name of its form on a page."""
        return f"a-{page_id(self.inside)}"


@dataclass(frozen=True, kw_only=True)
class Group:
    """A heading with entries below it."""

    title: str
    entries: tuple[Entry, ...]
    groups: tuple[Group, ...] = ()
    adds: Adding | None = None
    address: str = ""
    """Of a part that can be taken out again."""
    path: str = ""
    """Its address without quotes."""
    typed: str = ""
    """All that stands in it."""

    def __iter__(self) -> Iterator[Entry]:
        """Give every entry, those of the groups within too."""
        yield from self.entries
        for group in self.groups:
            yield from group


class Reader:
    """Reads the entries of sections off a build as evaluated."""

    def __init__(
        self,
        build: Build,
        evaluation: Evaluation,
        verdicts: tuple[Verdict, ...],
        numbers: Mapping[str, tuple[int, ...]] = MappingProxyType({}),
    ) -> None:
        """Take up a build; `numbers` are those of its entries on a drawing, by path."""
        self.build = build
        self.evaluation = evaluation
        self.numbers = numbers
        self.matters = _matters(verdicts)
        self.problems: dict[str, list[Problem]] = {}
        for problem in build.problems:
            self.problems.setdefault(problem.field, []).append(problem)

    def group(
        self, title: str, cls: type[Section], section: Section | None, address: Address, key: str
    ) -> Group:
        """Return the entries of a section, and those of the sections within it."""
        entries, groups = [], []
        given = section.given if section else {}
        for name, field in cls.FIELDS.items():
            at = (*address, name)
            words, inner = name.replace("_", " "), given.get(name)
            if isinstance(field, PartField):
                part = inner if isinstance(inner, Section) else None
                groups.append(self.group(words, field.section, part, at, f"{key}.{name}"))
            elif isinstance(field, NamedField):
                parts = inner if isinstance(inner, Mapping) else {}
                groups.append(self._named(words, field, parts, at, f"{key}.{name}"))
            else:
                entries.append(self.entry(field, at, f"{key}.{name}"))
        return Group(title=title, entries=tuple(entries), groups=tuple(groups))

    def _named(
        self,
        title: str,
        field: NamedField[Section],
        parts: Mapping[str, Section],
        at: Address,
        key: str,
    ) -> Group:
        """Return the parts that have names of the person's own, and what another one would ask."""
        groups = [
            replace(
                self.group(name, field.section, part, (*at, name), key),
                address=write_address((*at, name)),
                path=".".join(map(str, (*at, name))),
                typed=typed_at(self.build, (*at, name)),
            )
            for name, part in parts.items()
        ]
        return Group(
            title=title, entries=(), groups=tuple(groups), adds=self._adding(field, at, key)
        )

    def _adding(self, field: NamedField[Section], at: Address, key: str) -> Adding:
        """Return what another part would ask, and the parts that it cannot do without."""
        fields = field.section.FIELDS.items()
        asked = [
            self.entry(one, (*at, NEW, name), f"{key}.{name}")
            for name, one in fields
            if not isinstance(one, (PartField, NamedField))
        ]
        parts = [
            self._adding(one, (*at, NEW, name), f"{key}.{name}")
            for name, one in fields
            if isinstance(one, NamedField) and one.least
        ]
        return Adding(
            inside=write_address(at),
            words=field.words,
            asks=tuple(asked[:ASKED]),
            parts=tuple(parts),
            least=field.least,
        )

    def entry(self, field: object, address: Address, key: str) -> Entry:
        """Return one entry."""
        path = ".".join(map(str, address))
        taken = self.evaluation.readings.get(path)
        typed = typed_at(self.build, address)
        return Entry(
            address=write_address(address),
            path=path,
            name=str(address[-1]).replace("_", " "),
            words=getattr(field, "words", ""),
            kind=getattr(field, "kind", "value"),
            typed=typed,
            choices=_choices(field),
            usual=_usual(field),
            origin=str(taken.origin) if taken else "",
            how=how_to(key, field.unit) if isinstance(field, ReadingField) else how_to(key),
            matters=self.matters.get(path, ()),
            problems=tuple(self.problems.get(path, ())),
            numbers=self.numbers.get(path, ()),
            **self._as_reading(field, address, taken),
        )

    def _as_reading(
        self, field: object, address: Address, taken: Reading | None
    ) -> dict[str, Any]:  # fields of an entry
        """Return what the entries of readings have besides."""
        typed = typed_at(self.build, address)
        if not isinstance(field, ReadingField):
            stands = f"{plain(taken.text)} ({taken.origin})" if taken and not typed else ""
            return {"stands_in": stands, "example": _example(field)}
        known = field.unit in EXAMPLES  # an example in a unit that nobody types helps nobody
        example = field.example() if known else ""
        found = {"example": example, "long": long_at(self.build, address)}
        if taken and typed:
            return {**found, "band": _band(taken, field.unit)}
        if taken:
            value, band = self._standing(taken, field.unit)
            return {**found, "example": value, "stands_in": f"{band} ({taken.origin})"}
        return found

    def _standing(self, taken: Reading, unit: str) -> tuple[str, str]:
        """Return what counts while nothing is typed, in the person's units: value, and range."""
        money = currency_of(taken.unit)
        shown = taken.unit.replace(money, MONEY) if money else taken.unit or unit
        system, currency = self.build.units, money or self.build.currency
        if system == "us" and shown == "m":
            shown = "mm"  # read as inches: nobody measures a car in feet
        triple = (taken.value, taken.low, taken.high)
        try:
            value, band = value_and_band(triple, unit, shown, system, currency)
        except UnitError:
            return plain(taken.text), plain(taken.text)
        if not band:
            return value, value
        if system != "us":
            return value, plain(taken.text)
        return value, plain(f"{band} {unit_for(shown, system, currency)}")


def typed_at(build: Build, address: Address) -> str:
    """Return what stands at an address as a person would type it; empty when nothing does."""
    if build.tree is None:
        return ""
    node = node_at(build.tree, address)
    if node is None:
        return ""
    if isinstance(node, Scalar):
        return "" if node.value is None or (node.plain and node.value == "null") else node.value
    return inline(value_of(node))


def long_at(build: Build, address: Address) -> Long:
    """Return value, origin and note of the reading at an address."""
    node = node_at(build.tree, address) if build.tree else None
    if not isinstance(node, MappingNode):
        return Long(value=typed_at(build, address))
    value, spread, origin, note = (
        typed_at(build, (*address, name)) for name in ("value", "plus_minus", "from", "note")
    )
    return Long(value=f"{value} ± {spread}" if spread else value, origin=origin, note=note)


def _band(taken: Reading, unit: str) -> str:
    """Return the bounds of a reading in the unit that it was typed in."""
    triple = (taken.value, taken.low, taken.high)
    shown = unit if currency_of(taken.unit) else taken.unit or unit
    try:
        _, band = value_and_band(triple, unit, shown, "metric", "")
    except UnitError:
        return ""
    return f"{band} {taken.unit}" if band else ""


def _matters(verdicts: tuple[Verdict, ...]) -> dict[str, tuple[Matter, ...]]:
    found: dict[str, list[Matter]] = {}
    for verdict in verdicts:
        if verdict.state is State.GOOD:
            continue
        for doubt in verdict.doubts:
            one = Matter(check=verdict.check.id, asks=verdict.check.asks, share=doubt.share)
            found.setdefault(doubt.path, []).append(one)
        for lack in verdict.missing:
            one = Matter(check=verdict.check.id, asks=verdict.check.asks, share=1.0)
            found.setdefault(lack.path, []).append(one)
    return {path: tuple(sorted(one, key=lambda each: -each.share)) for path, one in found.items()}


def _example(field: object) -> str:
    """Return how a list of numbers, or a text in a notation of its own, is written."""
    if isinstance(field, NumbersField):
        return field.example()
    found = getattr(field, "example", "")
    return found if isinstance(found, str) else ""


def _choices(field: object) -> tuple[str, ...]:
    if isinstance(field, ChoiceField):
        return tuple(map(str, field.choices))
    return ("yes", "no") if isinstance(field, FlagField) else ()


def _usual(field: object) -> str:
    usual = getattr(field, "usual", None) if isinstance(field, (TextField, FlagField)) else None
    return {True: "yes", False: "no", None: ""}.get(usual, str(usual))
