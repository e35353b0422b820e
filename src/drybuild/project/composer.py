"""From the parser's events to our tree: positions, aliases, limits, keys that stand twice."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass, field, replace
from pathlib import Path

import yaml

from drybuild.errors import Problem
from drybuild.project.address import Address, write_address
from drybuild.project.document import Entry, Listing, Mapping, Node, Scalar, Style, Where

DEEPEST = 40
"""Levels of nesting; a build file needs about six."""
MOST_NODES = 200_000
"""Values in one file, each alias counted with all that it stands for."""

STYLES: dict[str | None, Style] = {
    None: "plain",
    "": "plain",
    "'": "single",
    '"': "double",
    "|": "literal",
    ">": "folded",
}
_PROPERTIES = re.compile(r"(?:[&!]\S*(?:[ \t\r\n]|#[^\n]*\n)+)+")


class Stopped(Exception):  # noqa: N818  not an error of ours: the text asks for too much
    """The text goes on, but reading it further would take too much."""


@dataclass(slots=True)
class _Frame:
    """A list or mapping that is still open."""

    event: yaml.NodeEvent
    address: Address
    is_mapping: bool
    entries: dict[str, Entry] = field(default_factory=dict)
    items: list[Node] = field(default_factory=list)
    key: Scalar | None = None
    wants_key: bool = True
    end: int = 0
    size: int = 1
    height: int = 1


@dataclass(slots=True)
class _Anchored:
    node: Node
    size: int
    height: int


@dataclass
class Composer:
    """Builds the tree of one text; fed with the parser's events, one at a time.

    The text may be read in several pieces, each from the start of a line (`base`); anchors and
    counts go on from one piece to the next.
    """

    file: Path
    text: str
    restore: Callable[[str], str]
    """Undoes what was replaced in a scalar before parsing."""
    problems: list[Problem] = field(default_factory=list)
    base: int = 0
    base_line: int = 0
    root: Node | None = None
    count: int = 0
    _stack: list[_Frame] = field(default_factory=list)
    _anchors: dict[str, _Anchored] = field(default_factory=dict)
    _open: list[str] = field(default_factory=list)

    def begin(self, base: int) -> None:
        """Start a new piece of the text."""
        self.base, self.base_line = base, self.text.count("\n", 0, base)
        self.root = None
        self._stack.clear()
        self._open.clear()

    def feed(self, event: yaml.Event) -> None:
        """Take one event in."""
        if isinstance(event, yaml.ScalarEvent):
            self._check_tag(event)
            self._finish(event, self._scalar(event), 1, 0)
        elif isinstance(event, yaml.AliasEvent):
            self._alias(event)
        elif isinstance(event, (yaml.SequenceStartEvent, yaml.MappingStartEvent)):
            self._check_tag(event)
            self._push(event)
        elif isinstance(event, (yaml.SequenceEndEvent, yaml.MappingEndEvent)):
            frame = self._stack.pop()
            if frame.event.anchor:
                self._open.remove(frame.event.anchor)
            node = self._collection(frame, event)
            self._finish(frame.event, node, frame.size, frame.height)

    def read_so_far(self) -> dict[str, Entry]:
        """Return the top-level entries whose value is complete."""
        if self._stack:
            return dict(self._stack[0].entries) if self._stack[0].is_mapping else {}
        return dict(self.root.entries) if isinstance(self.root, Mapping) else {}

    def address(self) -> str:
        """Return where reading has got to, in the person's words."""
        return write_address(self._next_address()) or "the file"

    def problem(self, code: str, where: Where, wrong: str, mend: str, field_: str = "") -> None:
        """Add one problem at a place."""
        self.problems.append(
            Problem(
                code=code,
                file=self.file,
                line=where.line,
                field=field_ or self.address(),
                wrong=wrong,
                mend=mend,
            )
        )

    def where(self, event: yaml.Event, style: Style, end: int | None = None) -> Where:
        """Return where an event stands, without the anchor or tag in front of it.

        It ends where the event does, or at the given `end`; never before it starts.
        """
        mark = event.start_mark
        assert mark is not None  # only events made by hand have none
        start, line, column = mark.index + self.base, mark.line + self.base_line, mark.column
        if end is None:
            end = self._end(event)
        if (getattr(event, "anchor", None) and style != "alias") or getattr(event, "tag", None):
            match = _PROPERTIES.match(self.text, start)
            if match:
                skipped = match.group()
                line += skipped.count("\n")
                after = skipped.rpartition("\n")[2]
                column = len(after) if "\n" in skipped else column + len(after)
                start = match.end()
        return Where(
            file=self.file,
            line=line + 1,
            column=column + 1,
            start=start,
            end=end if end > start else start,
            style=style,
        )

    def _end(self, event: yaml.Event) -> int:
        assert event.end_mark is not None  # only events made by hand have none
        return event.end_mark.index + self.base

    def _next_address(self) -> Address:
        if not self._stack:
            return ()
        frame = self._stack[-1]
        if not frame.is_mapping:
            return (*frame.address, len(frame.items))
        if frame.wants_key or frame.key is None:
            return frame.address
        return (*frame.address, frame.key.value or "")

    def _push(self, event: yaml.NodeEvent) -> None:
        self._deep_enough(event, 1)
        self._count(event, 1)
        mapping = isinstance(event, yaml.MappingStartEvent)
        frame = _Frame(event=event, address=self._next_address(), is_mapping=mapping)
        if event.anchor:
            self._open.append(event.anchor)
        self._stack.append(frame)

    def _scalar(self, event: yaml.ScalarEvent) -> Scalar:
        self._count(event, 1)
        style = STYLES[event.style]
        where = self.where(event, style)
        if style in ("literal", "folded"):
            where = replace(where, end=self._end_of_block(where))
        plain = style == "plain"
        nothing = plain and event.value == ""
        return Scalar(
            value=None if nothing else self.restore(event.value),
            plain=plain,
            where=replace(where, end=where.start) if nothing else where,
        )

    def _end_of_block(self, where: Where) -> int:
        """Return the end of a block scalar's text; blank lines count only when it keeps them."""
        block = self.text[where.start : where.end]
        if "+" not in block.partition("\n")[0].partition("#")[0]:
            return where.start + len(block.rstrip())
        return where.start + len(block.removesuffix("\n").removesuffix("\r"))

    def _collection(self, frame: _Frame, event: yaml.Event) -> Node:
        flow = bool(getattr(frame.event, "flow_style", False))
        end = self._end(event) if flow else frame.end
        where = self.where(frame.event, "flow" if flow else "block", end)
        if frame.is_mapping:
            return Mapping(entries=frame.entries, where=where)
        return Listing(items=tuple(frame.items), where=where)

    def _finish(self, event: yaml.NodeEvent, node: Node, size: int, height: int) -> None:
        if event.anchor:
            self._anchors[event.anchor] = _Anchored(node, size, height)
        self._place(node, size, height)

    def _place(self, node: Node, size: int, height: int) -> None:
        if not self._stack:
            self.root = node
            return
        frame = self._stack[-1]
        frame.size += size
        frame.height = max(frame.height, height + 1)
        frame.end = max(frame.end, node.where.end)
        if not frame.is_mapping:
            frame.items.append(node)
        elif frame.wants_key:
            frame.key = self._key(node)
            frame.wants_key = False
        else:
            self._add_entry(frame, node)
            frame.wants_key = True

    def _key(self, node: Node) -> Scalar | None:
        if isinstance(node, Scalar) and node.value and node.where.style != "alias":
            if node.plain and node.value == "<<":
                self.problem(
                    "merge-key",
                    node.where,
                    "the key << does not merge entries here",
                    "Write the entries out, or use an alias for the whole value.",
                )
                return None
            return node
        self.problem(
            "key-not-text",
            node.where,
            "the key of an entry must be a text",
            "Write a word before the colon.",
        )
        return None

    def _add_entry(self, frame: _Frame, node: Node) -> None:
        key = frame.key
        if key is None or key.value is None:
            return
        first = frame.entries.get(key.value)
        if first is None:
            frame.entries[key.value] = Entry(key_where=key.where, node=node)
            return
        self.problem(
            "duplicate-key",
            key.where,
            f'"{key.value}" stands here a second time; the first is on line {first.key_where.line}',
            "Keep one of them; the first is used until then.",
        )

    def _alias(self, event: yaml.AliasEvent) -> None:
        where = self.where(event, "alias")
        name = event.anchor or ""
        found = self._anchors.get(name)
        if name in self._open:
            self.problem(
                "alias-circle",
                where,
                f"*{name} stands inside the value that it repeats",
                "Write the value out here.",
            )
        elif found is None:
            self.problem(
                "alias-unknown",
                where,
                f"*{name} repeats a value, but no value above is marked &{name}",
                f'Mark the value with &{name}, or put the text in quotes: "*{name}".',
            )
        else:
            self._deep_enough(event, found.height)
            self._count(event, found.size)
            self._place(replace(found.node, where=where), found.size, found.height)
            return
        self._place(Scalar(value=None, plain=True, where=where), 1, 0)

    def _check_tag(self, event: yaml.NodeEvent) -> None:
        tag = getattr(event, "tag", None)
        if tag:
            self.problem(
                "tag",
                self.where(event, "plain"),
                f"the mark {tag.replace('tag:yaml.org,2002:', '!!')} in front has no use here",
                "Leave it out; every value is read as text.",
            )

    def _deep_enough(self, event: yaml.Event, height: int) -> None:
        if len(self._stack) + height > DEEPEST:
            self.problem(
                "too-deep",
                self.where(event, "plain"),
                f"entries are nested more than {DEEPEST} levels deep",
                "Close the brackets that are open here.",
                field_=write_address(self._next_address()[:3]) or "the file",
            )
            raise Stopped

    def _count(self, event: yaml.Event, size: int) -> None:
        self.count += size
        if self.count > MOST_NODES:
            self.problem(
                "too-many-values",
                self.where(event, "plain"),
                f"the file holds more than {MOST_NODES} values, aliases written out",
                "Take the aliases out, or split the file.",
            )
            raise Stopped
