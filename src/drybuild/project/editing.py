"""Change a build: try the edit beside the files first, refuse what would not read, then save."""

from __future__ import annotations

import shutil
import tempfile
from collections.abc import Mapping
from dataclasses import dataclass, replace
from pathlib import Path

from drybuild.errors import Problem, SaveError
from drybuild.project.address import Address, read_address, write_address
from drybuild.project.build import Build
from drybuild.project.compare import GONE, Gone
from drybuild.project.edit import change, change_part, node_at, remove, value_of
from drybuild.project.folder import FileText, digest, read_folder
from drybuild.project.history import keep, keep_together
from drybuild.project.load import load
from drybuild.project.save import ChangedOutsideError
from drybuild.project.writing import AsTyped, Value


@dataclass(frozen=True, kw_only=True)
class Edited:
    """What an edit did, or why it was refused."""

    address: str
    before: Value
    after: Value
    problems: tuple[Problem, ...]
    """What would be wrong; when there is any, nothing was saved."""


OUT = GONE
"""In place of a value: the entry is taken out."""


def edit(place: Path, address: str, value: Value | Gone, why: str = "") -> Edited:
    """Change one value of a build in place.

    Parameters
    ----------
    place : Path
        The build folder or file.
    address : str
        Where the value stands: ``car.body.wheelbase``.
    value : Value
        The new value, as the person would type it; `OUT` takes the entry out.
    why : str
        For the history.

    Returns
    -------
    Edited
        With problems when the new value does not read; then nothing was saved.

    Raises
    ------
    SaveError
        The place cannot hold it, or the file changed outside or cannot be written.

    """
    source = read_folder(place)
    try:
        key = str(read_address(address)[0])
    except (ValueError, IndexError) as fault:
        raise SaveError(f'"{address}" is no place in a build file: {fault}') from fault
    file = source.file_of(key)
    if file is None:
        raise SaveError(f"there is no build file in {place}")
    standing = node_at(source.root, address)
    before = value_of(standing) if standing is not None else None
    if isinstance(value, Gone):
        value, text = None, remove(file.path, file.text, address)
    else:
        text = change(file.path, file.text, address, value)
    problems = new_problems(place, {file.path: text})
    if not problems:
        folder = place if place.is_dir() else place.parent
        keep(folder, file, text, what=address, before=before, after=value, why=why)
    return Edited(address=address, before=before, after=value, problems=problems)


def edit_together(place: Path, values: Mapping[str, Value], what: str, why: str = "") -> Edited:
    """Change several values of one part of a build at once: one save, one undo.

    Parameters
    ----------
    place : Path
        The build folder or file.
    values : mapping
        The new values by their addresses, all below one top-level key.
    what : str
        The address of the part that they belong to, for the history.
    why : str
        Likewise.

    Returns
    -------
    Edited
        With problems when a new value does not read; then nothing was saved.

    Raises
    ------
    SaveError
        The file cannot hold one of them, changed outside or cannot be written.

    """
    source = read_folder(place)
    file = source.file_of(str(read_address(what)[0]))
    if file is None:
        raise SaveError(f"there is no build file in {place}")
    standing = {address: node_at(source.root, address) for address in values}
    before = {one: value_of(node) if node else None for one, node in standing.items()}
    text = file.text
    for address, value in values.items():
        text = change(file.path, text, address, value)
    problems = new_problems(place, {file.path: text})
    if not problems:
        folder = place if place.is_dir() else place.parent
        keep(folder, file, text, what=what, before=before, after=dict(values), why=why)
    return Edited(address=what, before=before, after=dict(values), problems=problems)


def edit_everywhere(
    place: Path, values: Mapping[Address, Value], what: str, why: str = ""
) -> tuple[Problem, ...]:
    """Change entries anywhere in a build at once, in as many files as it takes: one undo.

    Parameters
    ----------
    place : Path
        The build folder or file.
    values : mapping
        The new values by their addresses.
    what, why : str
        For the history.

    Returns
    -------
    tuple of Problem
        What would be wrong; when there is any, nothing was saved.

    Raises
    ------
    SaveError
        A file cannot hold one of them, changed outside or cannot be written.

    """
    files, texts, before = everywhere(place, values)
    problems = new_problems(place, texts)
    if not problems:
        folder = place if place.is_dir() else place.parent
        after = {write_address(one): value for one, value in values.items()}
        changed = [(files[path], text) for path, text in texts.items()]
        keep_together(folder, changed, what=what, before=before, after=after, why=why)
    return problems


def everywhere(
    place: Path, values: Mapping[Address, Value]
) -> tuple[dict[Path, FileText], dict[Path, str], dict[str, Value]]:
    """Return the files that entries stand in, their texts once changed, and what stood there."""
    source = read_folder(place)
    files: dict[Path, FileText] = {}
    texts: dict[Path, str] = {}
    before: dict[str, Value] = {}
    for address, value in values.items():
        file = source.file_of(str(address[0]))
        if file is None:
            raise SaveError(f"there is no build file in {place}")
        standing = node_at(source.root, address)
        before[write_address(address)] = value_of(standing) if standing else None
        files[file.path] = file
        texts[file.path] = change(file.path, texts.get(file.path, file.text), address, value)
    return files, texts, before


def take_pick(build: Build, system: str, option: str, why: str = "") -> Build:
    """Write a pick into the file as it was read, without the trial that other edits want.

    Parameters
    ----------
    build : Build
        The build as read.
    system, option : str
        An option that the build has, or ``?`` to leave the system open.
    why : str
        For the history.

    Returns
    -------
    Build
        The same build with the pick.

    Raises
    ------
    SaveError
        There is no such option, the file cannot hold the pick, or it changed outside.

    """
    if system not in build.options or option not in (*build.options[system], "?"):
        raise SaveError(f"there is no {option!r} for {system}")
    entry = build.tree.entries.get("picks") if build.tree else None
    if build.tree is None or entry is None or entry.key_where.file not in build.hashes:
        done = edit(build.folder, write_address(("picks", system)), AsTyped(option), why)
        if done.problems:
            raise SaveError(str(done.problems[0]))
        return load(build.folder)
    path = entry.key_where.file
    try:
        data = path.read_bytes()
        text = data.decode("utf-8")
    except (OSError, UnicodeDecodeError) as fault:
        raise ChangedOutsideError(path, None) from fault
    file = FileText(path=path, text=text, sha256=build.hashes[path])
    if digest(data) != file.sha256:
        raise ChangedOutsideError(path, text)
    what = write_address(("picks", system))
    keys = [key for key, one in build.tree.entries.items() if one.key_where.file == path]
    new = change_part(path, text, keys, ("picks", system), AsTyped(option))
    kept = keep(
        build.folder, file, new, what=what, before=build.picks.get(system), after=option, why=why
    )
    below = keys[-1] != "picks" and new.count("\n") != text.count("\n")
    if below or any(one.field.startswith("picks") for one in build.problems):
        return load(build.folder)  # lines have moved, or something was mended
    picks = {name: one for name, one in build.picks.items() if name != system}
    if option != "?":
        picks[system] = option
    hashes = {**build.hashes, path: kept.sha256}
    return replace(build, picks=picks, hashes=hashes)


def new_problems(place: Path, texts: Mapping[Path, str]) -> tuple[Problem, ...]:
    """Return the problems that the build would have with these texts and has not now."""
    known = {(one.code, one.field, one.wrong) for one in load(place).problems}
    folder = place if place.is_dir() else place.parent
    with tempfile.TemporaryDirectory() as room:
        copy = Path(room) / "build"
        shutil.copytree(folder, copy, ignore=_only_texts)
        real = {copy / path.resolve().relative_to(folder.resolve()): path for path in texts}
        for tried, path in real.items():
            tried.write_text(texts[path], encoding="utf-8", newline="")
        found = load(copy if place.is_dir() else copy / place.name).problems
    return tuple(
        Problem(**{**vars(one), "file": real.get(one.file, one.file)})
        for one in found
        if (one.code, one.field, one.wrong) not in known
    )


def _only_texts(folder: str, names: list[str]) -> list[str]:
    """Leave out what a build file cannot name: hidden files and whatever is large."""
    left = []
    for name in names:
        path = Path(folder) / name
        large = path.is_file() and path.stat().st_size > 5_000_000
        if name.startswith(".") or path.is_symlink() or large:
            left.append(name)
    return left
