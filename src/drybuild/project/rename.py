"""Give an option or a job another name: its key, and everywhere the build names it, in place."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

from drybuild.errors import Problem, SaveError
from drybuild.project.address import Address, write_address
from drybuild.project.document import Listing, Mapping, Node, Scalar, Where
from drybuild.project.edit import node_at
from drybuild.project.editing import new_problems
from drybuild.project.folder import read_folder
from drybuild.project.history import keep_together
from drybuild.project.writing import key, scalar

OF_JOBS = (("survey", "strip_job"), ("survey", "blast_job"), ("work", "fit_after"))
"""Where else than in other jobs a job is named."""


def rename(place: Path, steps: Address, name: str, why: str = "") -> tuple[Problem, ...]:
    """Rename an option or a job; return what would be wrong then, in which case nothing is saved.

    Parameters
    ----------
    place : Path
        The build folder or file.
    steps : Address
        ``("options", system, name)`` or ``("jobs", name)``.
    name : str
        The new name.
    why : str
        For the history.

    Raises
    ------
    SaveError
        There is no such entry, the name is taken, or a file cannot be written.

    """
    source = read_folder(place)
    parent = node_at(source.root, steps[:-1])
    old = str(steps[-1])
    if not isinstance(parent, Mapping) or old not in parent.entries:
        raise SaveError(f"there is no {write_address(steps)}")
    if name in parent.entries:
        raise SaveError(f"there is a {name} already")
    where = parent.entries[old].key_where
    cuts = [(where, key(name, flow=parent.where.style == "flow"))]
    cuts += [(one.where, scalar(name, flow=True)) for one in _naming(source.root, steps)]
    files = {file.path: file for file in source.files}
    texts = {path: _spliced(files[path].text, cuts, path) for path in {one.file for one, _ in cuts}}
    problems = new_problems(place, texts)
    if not problems:
        folder = place if place.is_dir() else place.parent
        changed = [(files[path], text) for path, text in texts.items()]
        what = write_address(steps)
        keep_together(folder, changed, what=what, before=old, after=name, why=why)
    return problems


def _naming(root: Mapping, steps: Address) -> Iterator[Scalar]:
    """Give every scalar that names the entry."""
    if steps[0] == "options":
        yield from _matching(node_at(root, ("picks", steps[1])), steps[-1])
        options = root.get("options")
        for system in options.entries.values() if isinstance(options, Mapping) else ():
            for one in system.node.entries.values() if isinstance(system.node, Mapping) else ():
                for word in ("needs", "excludes"):
                    below = one.node.get(word) if isinstance(one.node, Mapping) else None
                    found = below.get(str(steps[1])) if isinstance(below, Mapping) else None
                    yield from _matching(found, steps[-1])
        return
    for parent in (root.get("jobs"), node_at(root, ("work", "finds"))):
        for one in parent.entries.values() if isinstance(parent, Mapping) else ():
            for word in ("after", "revealed_by", "before"):
                below = one.node.get(word) if isinstance(one.node, Mapping) else None
                yield from _matching(below, steps[-1])
    for address in OF_JOBS:
        yield from _matching(node_at(root, address), steps[-1])


def _matching(node: Node | None, name: str | int) -> Iterator[Scalar]:
    if isinstance(node, Listing):
        for one in node.items:
            yield from _matching(one, name)
    elif isinstance(node, Scalar) and node.value == name:
        yield node


def _spliced(text: str, cuts: list[tuple[Where, str]], path: Path) -> str:
    for where, new in sorted(cuts, key=lambda one: -one[0].start):
        if where.file == path:
            text = text[: where.start] + new + text[where.end :]
    return text
