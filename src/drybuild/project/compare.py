"""Whether two trees say the same but for one value: the proof of an edit."""

from __future__ import annotations

from collections.abc import Mapping as MappingType

from drybuild.project.address import Address
from drybuild.project.document import Listing, Mapping, Node, Scalar
from drybuild.project.places import is_nothing
from drybuild.project.writing import AsTyped, Value, kind_of, scalar


class Gone:
    """Stands for "no longer there"."""


GONE = Gone()


def only_changed(old: Node | None, new: Node, steps: Address, value: Value | Gone) -> bool:
    """Whether `new` is `old` with that value at the address, and nothing else differs.

    Parameters
    ----------
    old : Node or None
        What was there; None for a part that the edit had to make.
    new : Node
        What is there now.
    steps : Address
        Where the value stands.
    value : Value or Gone
        What shall stand there; `GONE` if the entry was to be removed.

    """
    if not steps:
        return not isinstance(value, Gone) and says(new, value)
    step, rest = steps[0], steps[1:]
    if isinstance(new, Mapping) and isinstance(step, str):
        entries = old.entries if isinstance(old, Mapping) else {}
        before = {key: entry.node for key, entry in entries.items()}
        return _entry_changed(before, new, step, rest, value)
    if isinstance(new, Listing) and isinstance(step, int):
        items = list(old.items) if isinstance(old, Listing) else []
        return _item_changed(items, list(new.items), step, rest, value)
    return False


def _entry_changed(
    before: dict[str, Node], new: Mapping, step: str, rest: Address, value: Value | Gone
) -> bool:
    gone = isinstance(value, Gone) and not rest
    keys = [one for one in before if not (gone and one == step)]
    if not gone and step not in before:
        keys.append(step)
    if list(new.entries) != keys:
        return False
    others = all(_same(before[one], new.entries[one].node) for one in keys if one != step)
    return others and (gone or only_changed(before.get(step), new.entries[step].node, rest, value))


def _item_changed(
    items: list[Node], found: list[Node], step: int, rest: Address, value: Value | Gone
) -> bool:
    if isinstance(value, Gone) and not rest:
        return _all_same(items[:step] + items[step + 1 :], found)
    if len(found) != max(len(items), step + 1):
        return False
    others = _all_same(items[:step] + items[step + 1 :], found[:step] + found[step + 1 :])
    inner = items[step] if step < len(items) else None
    return others and only_changed(inner, found[step], rest, value)


def _same(old: Node, new: Node) -> bool:
    if isinstance(old, Scalar) and isinstance(new, Scalar):
        return (old.value, old.plain) == (new.value, new.plain)
    if isinstance(old, Listing) and isinstance(new, Listing):
        return _all_same(list(old.items), list(new.items))
    if isinstance(old, Mapping) and isinstance(new, Mapping):
        return list(old.entries) == list(new.entries) and all(
            _same(old.entries[key].node, new.entries[key].node) for key in old.entries
        )
    return False


def _all_same(old: list[Node], new: list[Node]) -> bool:
    return len(old) == len(new) and all(map(_same, old, new))


def says(node: Node, value: Value) -> bool:
    """Whether a node that was read holds the value that was to be written."""
    if isinstance(value, MappingType):
        return (
            isinstance(node, Mapping)
            and list(node.entries) == list(value)
            and all(says(node.entries[key].node, one) for key, one in value.items())
        )
    if value is None:
        return is_nothing(node)
    if isinstance(value, str):
        if not isinstance(node, Scalar) or node.value != value:
            return False
        return isinstance(value, AsTyped) or not node.plain or kind_of(value) != "nothing"
    if isinstance(value, (bool, int, float)):
        return isinstance(node, Scalar) and node.plain and node.value == scalar(value, flow=False)
    return (
        isinstance(node, Listing)
        and len(node.items) == len(value)
        and all(map(says, node.items, value))
    )
