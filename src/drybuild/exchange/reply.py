"""What a reply to a shared build says: options, values and notes, each with its place in the file.

A reply comes from somebody else's hands, so it is read as data within narrow bounds and nothing in
it is a name of a file. Everything wrong is told at once; what reads can still be taken.
"""

from __future__ import annotations

import hashlib
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Literal

from drybuild.errors import Problem
from drybuild.project.address import Address, read_address, write_address
from drybuild.project.build import Build
from drybuild.project.catalogue import system_class
from drybuild.project.decoding import decode
from drybuild.project.document import Entry, Listing, Mapping, Node, Scalar
from drybuild.project.edit import node_at, value_of
from drybuild.project.parse import parse
from drybuild.project.reader import Reader, nearest
from drybuild.project.sections import describe, read_section
from drybuild.project.writing import AsTyped, Value, inline

REPLY_FORMAT = 1
LARGEST_REPLY = 100_000
"""Bytes; a reply that suggests a hundred options has a tenth of it."""
MOST_SUGGESTIONS = 60
LONGEST_TEXT = 2_000
"""Characters of a note, or of any one value."""
DEEPEST_REPLY = 8
KEYS = ("reply", "author", "about", "options", "values", "notes")
VALUE_KEYS = ("at", "value", "from", "note")
NOTE_KEYS = ("about", "says")
OWNERS_ONLY = ("shape", "as_is")
"""Entries of an option that only its owner can know: files, and what is on the car."""
VALUE_TOPS = ("car", "options", "survey", "datum", "work", "jobs")
Kind = Literal["option", "value", "note"]


@dataclass(frozen=True, kw_only=True)
class Suggestion:
    """One thing that a reply suggests."""

    kind: Kind
    address: Address
    """Where it would be written."""
    value: Value
    says: str
    """In a line, as the reply says it."""
    stands: str
    """What stands there now; empty when nothing does."""
    line: int
    problems: tuple[Problem, ...] = ()

    @property
    def id(self) -> str:
        """A short name that changes with what it says."""
        said = f"{write_address(self.address)} {inline(self.value)}"
        return hashlib.blake2b(said.encode(), digest_size=6).hexdigest()

    @property
    def sound(self) -> bool:
        """Whether it can be taken."""
        return not self.problems


@dataclass(frozen=True, kw_only=True)
class Reply:
    """A reply as read against a build."""

    file: Path
    """Its name, for messages."""
    author: str
    suggestions: tuple[Suggestion, ...]
    problems: tuple[Problem, ...]
    """Everything wrong with it, those of the suggestions too."""


def read_reply(name: str, data: bytes, build: Build) -> Reply:
    """Read a reply.

    Parameters
    ----------
    name : str
        The name of its file, for messages; only its last part is used.
    data : bytes
        Its content.
    build : Build
        The build that it is about.

    Returns
    -------
    Reply
        Nothing is raised: what cannot be read is among the problems.

    """
    return _Reading(Path(Path(name.replace("\\", "/")).name or "the reply"), build).read(data)


class _Reading:
    def __init__(self, file: Path, build: Build) -> None:
        self.file = file
        self.build = build
        self.reader = Reader(currency=build.currency)
        self.author = ""

    def read(self, data: bytes) -> Reply:
        found: list[Suggestion] = []
        root = self._root(data)
        if root is not None:
            self._known_keys(root, KEYS, "")
            self._format(root)
            self.author = self._text(root, "author", "author") or "somebody"
            for suggestion in self._suggestions(root):
                if len(found) == MOST_SUGGESTIONS:
                    wrong = f"there are more than {MOST_SUGGESTIONS} suggestions"
                    self._problem("reply-too-large", 1, "the reply", wrong, "Split the reply.")
                    break
                found.append(suggestion)
        own = [one for each in found for one in each.problems]
        problems = sorted({*self.reader.problems, *own}, key=lambda one: (one.line, one.field))
        return Reply(
            file=self.file, author=self.author, suggestions=tuple(found), problems=tuple(problems)
        )

    def _root(self, data: bytes) -> Mapping | None:
        if len(data) > LARGEST_REPLY:
            wrong = f"{len(data) / 1e3:.0f} kB is more than a reply may have"
            mend = f"Keep it below {LARGEST_REPLY / 1e3:.0f} kB."
            self._problem("reply-too-large", 1, "the reply", wrong, mend)
            return None
        text, problems = decode(self.file, data)
        self.reader.problems.extend(problems)
        if problems:
            return None
        document = parse(self.file, text)
        self.reader.problems.extend(document.problems)
        for line, said in _too_much(document.root, 0):
            self._problem("reply-too-large", line, "the reply", said, "Say it in fewer words.")
            return None
        return document.root

    def _format(self, root: Mapping) -> None:
        entry = root.entries.get("reply")
        said = entry.node.value if entry and isinstance(entry.node, Scalar) else None
        if said != str(REPLY_FORMAT):
            line = entry.key_where.line if entry else 1
            wrong = f"this says reply {said}" if entry else "this does not say that it is a reply"
            mend = f'Begin with the line "reply: {REPLY_FORMAT}", as the template does.'
            self._problem("reply-format", line, "reply", wrong, mend)

    def _suggestions(self, root: Mapping) -> Iterator[Suggestion]:
        for system, systems in self._group(root, "options"):
            if system not in self.build.options:
                wrong = f'"{system}" is no system of this build'
                mend = nearest(system, self.build.options)
                where = systems.key_where.line
                self._problem("reply-unknown", where, f"options.{system}", wrong, mend)
                continue
            for name, entry in self._inside(systems.node, f"options.{system}"):
                yield self._option(system, name, entry)
        for place, item in enumerate(self._items(root, "values")):
            yield from self._value(item, f"values[{place}]")
        for place, item in enumerate(self._items(root, "notes")):
            yield from self._note(item, f"notes[{place}]")

    def _option(self, system: str, name: str, entry: Entry) -> Suggestion:
        path, line = f"options.{system}.{name}", entry.key_where.line
        mine = Reader(currency=self.build.currency)
        read_section(system_class(system), entry.node, path, system, mine)
        problems = list(mine.problems)
        said = value_of(entry.node)
        value = dict(said) if isinstance(said, dict) else {}
        for key in OWNERS_ONLY:
            if key in value:
                wrong = f'"{key}" is for the owner of the build to say'
                problems.append(self._problem_of("reply-forbidden", line, f"{path}.{key}", wrong))
        if name in self.build.options[system]:
            wrong = f"{system} has an option of that name already"
            mend = "Give the suggestion another name, or suggest values for the one that is there."
            problems.append(self._problem_of("reply-name-taken", line, path, wrong, mend))
        note = value.get("note")
        value["note"] = (
            f"Suggested by {self.author}. {note if isinstance(note, str) else ''}".strip()
        )
        told = ", ".join(f"{key} {_short(one)}" for key, one in value.items() if key != "note")
        return Suggestion(
            kind="option",
            address=("options", system, name),
            value=value,
            says=f"{system}: {name}" + (f" ({told})" if told else ""),
            stands="",
            line=line,
            problems=tuple(problems),
        )

    def _value(self, item: Node, field: str) -> Iterator[Suggestion]:
        said = self._entries(item, field, VALUE_KEYS, ("at", "value"))
        if said is None:
            return
        line, problems = item.where.line, []
        try:
            address = read_address(said["at"])
        except ValueError:
            address = ()
        if not address or address[0] not in VALUE_TOPS or len(address) < 2:
            wrong = f'"{said["at"]}" is no entry that a reply can suggest'
            mend = f"Name one below {', '.join(VALUE_TOPS)}, such as car.body.wheelbase."
            self._problem("reply-unknown", line, f"{field}.at", wrong, mend)
            return
        if address[-1] in OWNERS_ONLY:
            wrong = f'"{address[-1]}" is for the owner of the build to say'
            problems.append(self._problem_of("reply-forbidden", line, f"{field}.at", wrong))
        note = f"Reply of {self.author}. {said.get('note', '')}".strip()
        origin = said.get("from", "guess")
        node = node_at(self.build.tree, address) if self.build.tree else None
        value: Value = AsTyped(said["value"])
        if any(letter.isdigit() for letter in said["value"]):  # else a choice or a word
            value = {"value": value, "from": AsTyped(origin), "note": note}
        yield Suggestion(
            kind="value",
            address=address,
            value=value,
            says=f"{said['at']}: {said['value']} ({origin})",
            stands=inline(value_of(node)) if node is not None else "",
            line=line,
            problems=tuple(problems),
        )

    def _note(self, item: Node, field: str) -> Iterator[Suggestion]:
        said = self._entries(item, field, NOTE_KEYS, ("says",))
        if said is None:
            return
        about = said.get("about", "")
        key = f"{self.author}: {about or 'the build'}"[:80]
        taken = {*self.build.named["advice"]}
        name = next(one for one in _numbered(key) if one not in taken)
        yield Suggestion(
            kind="note",
            address=("advice", name),
            value={"about": about or "the build", "says": said["says"], "by": self.author},
            says=f"{about}: {said['says']}" if about else said["says"],
            stands="",
            line=item.where.line,
        )

    # Reading within bounds ---------------------------------------------------------------------

    def _entries(
        self, item: Node, field: str, known: tuple[str, ...], must: tuple[str, ...]
    ) -> dict[str, str] | None:
        """Return the texts of an item, or nothing when they are not all there."""
        if not isinstance(item, Mapping):
            wrong = f"this is {describe(item)}, but a group of {', '.join(known)} belongs here"
            mend = f"Write {{{must[0]}: ..., ...}} as in the template."
            self._problem("reply-shape", item.where.line, field, wrong, mend)
            return None
        self._known_keys(item, known, f"{field}.")
        found = {key: self._text(item, key, f"{field}.{key}") for key in known}
        lacking = [key for key in must if not found[key]]
        if lacking:
            wrong = f"{' and '.join(lacking)} {'is' if len(lacking) == 1 else 'are'} not given"
            mend = "Write it as in the template, or take this item out."
            self._problem("reply-shape", item.where.line, field, wrong, mend)
            return None
        return {key: one for key, one in found.items() if one}

    def _known_keys(self, node: Mapping, known: tuple[str, ...], lead: str) -> None:
        for key, entry in node.entries.items():
            if key not in known:
                wrong = f'"{key[:60]}" is not an entry that belongs in a reply here'
                line, mend = entry.key_where.line, nearest(key[:60], known)
                self._problem("reply-unknown", line, f"{lead}{key[:60]}", wrong, mend)

    def _text(self, node: Mapping, key: str, field: str) -> str:
        entry = node.entries.get(key)
        if entry is None:
            return ""
        if isinstance(entry.node, Scalar):
            return " ".join((entry.node.value or "").split())
        wrong, mend = f"this is {describe(entry.node)}, but one text belongs here", "Write a text."
        self._problem("reply-shape", entry.key_where.line, field, wrong, mend)
        return ""

    def _group(self, root: Mapping, key: str) -> list[tuple[str, Entry]]:
        entry = root.entries.get(key)
        return self._inside(entry.node, key) if entry else []

    def _inside(self, node: Node, field: str) -> list[tuple[str, Entry]]:
        if isinstance(node, Mapping):
            return list(node.entries.items())
        if not (isinstance(node, Scalar) and node.value is None):
            wrong = f"this is {describe(node)}, but entries by name belong here"
            mend = "Write them as in the template."
            self._problem("reply-shape", node.where.line, field, wrong, mend)
        return []

    def _items(self, root: Mapping, key: str) -> tuple[Node, ...]:
        entry = root.entries.get(key)
        if entry is None or (isinstance(entry.node, Scalar) and entry.node.value is None):
            return ()
        if isinstance(entry.node, Listing):
            return entry.node.items
        wrong = f"this is {describe(entry.node)}, but a list belongs here"
        mend = 'Begin each item with "- ", as in the template.'
        self._problem("reply-shape", entry.key_where.line, key, wrong, mend)
        return ()

    def _problem(self, code: str, line: int, field: str, wrong: str, mend: str) -> None:
        self.reader.problems.append(self._problem_of(code, line, field, wrong, mend))

    def _problem_of(
        self, code: str, line: int, field: str, wrong: str, mend: str = "Leave it out."
    ) -> Problem:
        return Problem(code=code, file=self.file, line=line, field=field, wrong=wrong, mend=mend)


def _too_much(node: Node, depth: int) -> Iterator[tuple[int, str]]:
    if depth > DEEPEST_REPLY:
        yield node.where.line, "this is nested too deeply"
    elif isinstance(node, Mapping):
        for key, entry in node.entries.items():
            if len(key) > LONGEST_TEXT // 10:
                yield entry.key_where.line, "this name is too long"
            yield from _too_much(entry.node, depth + 1)
    elif isinstance(node, Listing):
        for one in node.items:
            yield from _too_much(one, depth + 1)
    elif node.value is not None and len(node.value) > LONGEST_TEXT:
        yield node.where.line, f"this text has more than {LONGEST_TEXT} characters"


def _numbered(name: str) -> Iterator[str]:
    yield name
    for number in range(2, 10_000):
        yield f"{name} {number}"


def _short(value: Value) -> str:
    said = value if isinstance(value, str) else inline(value)
    return said if len(said) < 60 else f"{said[:57]}..."
