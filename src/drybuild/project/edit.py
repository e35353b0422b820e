"""Change one value of a build file in place: every other byte stays.

An edit is a cut in the text. The outcome is read again and compared with what was there: unless
the wanted value alone differs, the edit is refused and nothing is saved.
"""

from __future__ import annotations

import contextlib
from collections.abc import Mapping as MappingType
from dataclasses import dataclass
from pathlib import Path

from drybuild.errors import SaveError
from drybuild.project.address import Address, read_address, write_address
from drybuild.project.compare import GONE, Gone, only_changed, says
from drybuild.project.document import Document, Listing, Mapping, Node
from drybuild.project.parse import keys_after, parsed
from drybuild.project.places import (
    Page,
    Splice,
    adding_entry,
    adding_item,
    ending_last_text,
    is_nothing,
    keeping_last_block,
    page_of,
    removing,
    replacing,
)
from drybuild.project.writing import AsTyped, Value

__all__ = ["AsTyped", "Value", "change", "change_part", "node_at", "remove", "value_of"]


def change(file: Path, text: str, address: str | Address, value: Value) -> str:
    """Return the text with one value changed, or added where there is none yet.

    Parameters
    ----------
    file : Path
        The file of the text, for messages.
    text : str
        The whole text.
    address : str or Address
        Where the value stands: ``car.body.wheelbase``, ``jobs[2].hours``. Parents that are not
        there are made; the place after the last of a list adds to it.
    value : Value
        The new value. A text is quoted only when it must be; `AsTyped` leaves ``true`` and ``4``
        as they are.

    Raises
    ------
    SaveError
        The place cannot hold it, or the text cannot be edited safely.

    """
    steps = _steps(address)
    document = _editable(file, text)
    walk = _walk(document.root, steps)
    standing = walk.nodes[-1] if len(walk.nodes) > len(steps) else None
    if isinstance(value, MappingType) and isinstance(standing, Mapping):
        kept = _entry_by_entry(file, text, steps, standing, value)
        if kept is not None:
            return kept
    page = page_of(text, document.root)
    splices = ending_last_text(page, _changing(page, walk, steps, value), value)
    splices = keeping_last_block(page, document.root, splices)
    new = _splice(text, splices)
    _verify(document, parsed(file, new), steps, value)
    return new


def change_part(file: Path, text: str, keys: list[str], address: Address, value: Value) -> str:
    """Do what `change` does, and read only the top-level part that the value stands in.

    Parameters
    ----------
    file, text, address, value
        As in `change`; nothing has to be made but the value.
    keys : list of str
        The top-level keys of the text as it was read, in their order. Where the text does not
        show just these, or the part repeats values, the whole text is read.

    Raises
    ------
    SaveError
        The place cannot hold it, or the text cannot be edited safely.

    """
    found = keys_after(text, 0)
    if [key for key, _ in found] == keys and address[0] in keys:
        starts = [at for _, at in found] + [len(text)]
        start, end = starts[keys.index(str(address[0])) :][:2]
        part = text[start:end]
        if not set("&*\r").intersection(part):
            with contextlib.suppress(SaveError):  # the whole text says it with its line
                return text[:start] + change(file, part, address, value) + text[end:]
    return change(file, text, address, value)


def remove(file: Path, text: str, address: str | Address) -> str:
    """Return the text without one entry or list item.

    Raises
    ------
    SaveError
        There is no such entry, or the text cannot be edited safely.

    """
    steps = _steps(address)
    document = _editable(file, text)
    walk = _walk(document.root, steps)
    if len(walk.nodes) <= len(steps):
        raise SaveError(f"there is no {write_address(steps)} in {file}")
    parent = walk.nodes[-2]
    assert isinstance(parent, (Mapping, Listing))  # it has the child that the walk found
    if parent is document.root and len(document.root.entries) == 1:
        raise SaveError(f"{write_address(steps)} is all that {file} holds; delete the file instead")
    new = _splice(text, removing(page_of(text, document.root), parent, steps[-1]))
    _verify(document, parsed(file, new), steps, GONE)
    return new


def node_at(root: Mapping, address: str | Address) -> Node | None:
    """Return what stands at an address, or None."""
    steps = _steps(address)
    nodes = _walk(root, steps).nodes
    return nodes[-1] if len(nodes) > len(steps) else None


def value_of(node: Node) -> Value:
    """Return a node as a value that can be written again."""
    if isinstance(node, Mapping):
        return {key: value_of(entry.node) for key, entry in node.entries.items()}
    if isinstance(node, Listing):
        return [value_of(one) for one in node.items]
    if node.value is None:
        return None
    return AsTyped(node.value) if node.plain else node.value


@dataclass(frozen=True, kw_only=True)
class _Walk:
    """The nodes from the root to an address, as far as they exist."""

    nodes: tuple[Node, ...]
    flow: bool
    """Whether the last of them stands within brackets or braces."""
    column: int
    """Of the key or dash before the last of them, counted from 0."""


def _steps(address: str | Address) -> Address:
    try:
        steps = read_address(address) if isinstance(address, str) else address
    except ValueError as fault:
        raise SaveError(str(fault)) from fault
    if not steps:
        raise SaveError("the whole file cannot be changed at once")
    return steps


def _editable(file: Path, text: str) -> Document:
    document = parsed(file, text)
    for problem in document.problems:
        if document.broken or problem.code in ("syntax", "several-documents", "too-many-values"):
            raise SaveError(f"{file} has to be mended before it can be edited here:\n{problem}")
    return document


def _walk(root: Mapping, steps: Address) -> _Walk:
    nodes: list[Node] = [root]
    flow, column = False, 0
    for step in steps:
        node = nodes[-1]
        child: Node | None = None
        if isinstance(node, Mapping) and isinstance(step, str):
            entry = node.entries.get(step)
            child = entry.node if entry else None
            column = entry.key_where.column - 1 if entry else column
        elif isinstance(node, Listing) and isinstance(step, int) and step < len(node.items):
            child = node.items[step]
            column = node.where.column - 1
        if child is None:
            break
        flow = flow or node.where.style == "flow"
        nodes.append(child)
    return _Walk(nodes=tuple(nodes), flow=flow, column=column)


def _changing(page: Page, walk: _Walk, steps: Address, value: Value) -> list[Splice]:
    for depth, node in enumerate(walk.nodes[: len(steps)]):
        if node.where.style == "alias":
            raise SaveError(
                f"{write_address(steps[:depth])} repeats a value that is written elsewhere; "
                "change it there, or write it out here first"
            )
    last = walk.nodes[-1]
    rest = steps[len(walk.nodes) - 1 :]
    if not rest:
        return replacing(page, last, value, flow=walk.flow, parent_column=walk.column)
    whole = _nested(rest[1:], value)
    step = rest[0]
    if isinstance(last, Mapping) and isinstance(step, str):
        return adding_entry(page, last, step, whole, flow=walk.flow)
    if isinstance(last, Listing) and step == len(last.items):
        return adding_item(page, last, whole, flow=walk.flow)
    if is_nothing(last):
        whole = _nested(rest, value)
        return replacing(page, last, whole, flow=walk.flow, parent_column=walk.column)
    there = write_address(steps[: len(walk.nodes) - 1]) or "the file"
    raise SaveError(f"{there} (line {last.where.line}) cannot hold {write_address(rest)}")


def _entry_by_entry(
    file: Path, text: str, steps: Address, standing: Mapping, value: MappingType[str, Value]
) -> str | None:
    """Return the text with only what differs within a mapping changed: its comments stay.

    None where the mapping has to be written anew: nothing of it stays, or in another order.
    """
    stays = [name for name in standing.entries if name in value]
    added = [name for name in value if name not in standing.entries]
    if not stays or [*stays, *added] != list(value) or standing.where.style == "alias":
        return None
    new = text
    try:
        for name in standing.entries:
            if name not in value:
                new = remove(file, new, (*steps, name))
        for name, one in value.items():
            old = standing.get(name)
            if old is None or not says(old, one):
                new = change(file, new, (*steps, name), one)
        _verify(parsed(file, text), parsed(file, new), steps, value)
    except SaveError:
        return None
    return new


def _nested(steps: Address, value: Value) -> Value:
    for step in reversed(steps):
        if isinstance(step, str):
            value = {step: value}
        elif step == 0:
            value = [value]
        else:
            raise SaveError(f"a new list begins at [0], not at [{step}]")
    return value


def _splice(text: str, splices: list[Splice]) -> str:
    for start, end, new in sorted(splices, reverse=True):
        text = text[:start] + new + text[end:]
    return text


def _verify(old: Document, new: Document, steps: Address, value: Value | Gone) -> None:
    before = sorted((one.code, one.field) for one in old.problems if one.code != "file-empty")
    after = sorted((one.code, one.field) for one in new.problems)
    if before != after or not only_changed(old.root, new.root, steps, value):
        raise SaveError(
            f"{write_address(steps)} cannot be changed in place without touching other values; "
            f"edit {old.root.where.file} by hand"
        )
