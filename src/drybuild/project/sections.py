"""A section of the build file: a class whose attributes are fields with a unit and words.

A section is read once from the file (`read_section`) and keeps the readings. To compute with it,
the graph binds it to a `Bench`: then each attribute gives an array over samples, and what was
taken is noted, so that every result knows the readings it rests on.
"""

from __future__ import annotations

from typing import Any, ClassVar, Generic, Protocol, Self, TypeVar, overload

from drybuild.errors import MissingInput
from drybuild.project.document import Entry, Listing, Mapping, Node, Scalar, Where
from drybuild.project.reader import Reader, nearest
from drybuild.project.readings import Reading
from drybuild.project.samples import Values

T = TypeVar("T")


class Bench(Protocol):
    """Where a bound section takes its samples from; the graph provides it."""

    def take(self, path: str, reading: Reading) -> Values:
        """Return the samples of a reading and note that it was taken."""

    def again(self, path: str) -> Values | None:
        """Return the samples of a reading taken before, and note it; None if it was not."""

    def note(self, path: str) -> None:
        """Note that a value that is no number was taken."""

    def typical(self, key: str, unit: str) -> Reading | None:
        """Return the published typical range of a field for this car, if there is one."""


class Field(Generic[T]):
    """One entry of a section. Subclasses say how it is read and what it gives."""

    kind: ClassVar[str] = "value"
    """The word for this kind of entry in the reference and in messages."""

    def __init__(self, words: str) -> None:
        self.words = words
        self.name = ""

    def __set_name__(self, owner: type[Section], name: str) -> None:
        self.name = name

    @overload
    def __get__(self, section: None, owner: type[Section]) -> Self: ...
    @overload
    def __get__(self, section: Section, owner: type[Section]) -> T: ...
    def __get__(self, section: Section | None, owner: type[Section]) -> Self | T:
        if section is None:
            return self
        return self.take(section)

    def read(self, node: Node, path: str, reader: Reader) -> object:
        """Return what the file says here, or None when it says nothing usable."""
        raise NotImplementedError

    def take(self, section: Section) -> T:
        """Return the value for computing."""
        raise NotImplementedError

    def schema(self) -> dict[str, Any]:  # JSON Schema is free-form JSON
        """Return the JSON Schema of this entry."""
        raise NotImplementedError

    def missing(self, section: Section) -> MissingInput:
        """Return the exception that says this entry is not given."""
        return MissingInput(section.path_of(self.name), f"{self.words} is not given")


class Section:
    """A named group of fields in the build file; subclass it and list the fields."""

    FIELDS: ClassVar[dict[str, Field[Any]]] = {}  # each field has its own value type

    def __init_subclass__(cls) -> None:
        """Collect the fields of the class and its bases."""
        super().__init_subclass__()
        own = {name: one for name, one in vars(cls).items() if isinstance(one, Field)}
        cls.FIELDS = {**cls.FIELDS, **own}

    def __init__(
        self,
        *,
        path: str,
        key: str,
        given: dict[str, object] | None = None,
        bench: Bench | None = None,
        where: Where | None = None,
    ) -> None:
        self.path = path
        """Where it stands in the file: ``options.engine.turbo four``."""
        self.key = key
        """The path without the person's own names: ``engine``; typical ranges go by it."""
        self.given = given or {}
        self.where = where
        self._bench = bench

    def has(self, name: str) -> bool:
        """Say whether the file gives this entry, and note that it was asked."""
        if self._bench:
            self._bench.note(self.path_of(name))
        return self.given.get(name) is not None

    def path_of(self, name: str) -> str:
        """Return the path of an entry."""
        return f"{self.path}.{name}" if self.path else name

    def bound(self, bench: Bench) -> Self:
        """Return this section bound to a bench, ready to compute with."""
        return type(self)(
            path=self.path, key=self.key, given=self.given, bench=bench, where=self.where
        )

    @property
    def bench(self) -> Bench:
        """The bench that this section is bound to."""
        if self._bench is None:
            raise RuntimeError(f"{self.path} is not bound to a bench")
        return self._bench


S = TypeVar("S", bound=Section)


def read_section(cls: type[S], node: Node | None, path: str, key: str, reader: Reader) -> S:
    """Read a section; unknown keys become problems, and the readable rest is kept."""
    given: dict[str, object] = {}
    if node is None:
        return cls(path=path, key=key)
    if not isinstance(node, Mapping):
        if not is_empty(node):
            reader.problem(
                "mapping-wanted",
                node.where,
                path,
                f"this is {describe(node)}, but a group of entries belongs here",
                f"Write entries below it, such as {_example(cls)}.",
            )
        return cls(path=path, key=key, where=node.where)
    for name, entry in node.entries.items():
        if name not in cls.FIELDS:
            unknown_entry(reader, entry, f"{path}.{name}" if path else name, cls.FIELDS)
            continue
        value = cls.FIELDS[name].read(entry.node, f"{path}.{name}" if path else name, reader)
        if value is not None:
            given[name] = value
    return cls(path=path, key=key, given=given, where=node.where)


def unknown_entry(reader: Reader, entry: Entry, path: str, known: Any) -> None:  # any iterable
    """Report a key that no field has."""
    name = path.rpartition(".")[2]
    reader.problem(
        "unknown-key",
        entry.key_where,
        path,
        f'"{name}" is not an entry that belongs here',
        nearest(name, known),
    )


def is_empty(node: Node) -> bool:
    """Say whether a node holds nothing at all: a key with no value, or a bare null."""
    return isinstance(node, Scalar) and (
        node.value is None or (node.plain and node.value in ("", "~", "null", "Null", "NULL"))
    )


def describe(node: Node) -> str:
    """Return words for what kind of thing a node is."""
    if isinstance(node, Scalar):
        return f'the single value "{node.value}"' if not is_empty(node) else "empty"
    return "a list" if isinstance(node, Listing) else "a group of entries"


def _example(cls: type[Section]) -> str:
    return " or ".join(f'"{name}: ..."' for name in list(cls.FIELDS)[:2])
