"""Read a build folder, or one build file, with the files that it includes, into one tree."""

from __future__ import annotations

import hashlib
import os
from dataclasses import dataclass, field, replace
from pathlib import Path, PurePosixPath, PureWindowsPath

from drybuild.errors import Problem
from drybuild.project.decoding import LARGEST_FILE, decode
from drybuild.project.document import Document, Entry, Listing, Mapping, Scalar, Where, empty_root
from drybuild.project.parse import parsed

ENDING = ".yaml"
MOST_FILES = 200


@dataclass(frozen=True, kw_only=True)
class FileText:
    """A file as it was read."""

    path: Path
    text: str
    sha256: str
    """Of the bytes on disk; saving is refused when they have changed since."""


@dataclass(frozen=True, kw_only=True)
class Source:
    """Everything that the files of a build say, merged by top-level key."""

    place: Path
    """The folder or file that was asked for."""
    files: tuple[FileText, ...]
    root: Mapping
    problems: tuple[Problem, ...]
    broken: tuple[str, ...] = ()
    """Top-level keys that stand in a file but could not be read, because of a fault there."""

    def file_of(self, key: str) -> FileText | None:
        """Return the file that holds a top-level key, or the main file for a key not there yet."""
        by_path = {one.path: one for one in self.files}
        for wanted in (key, "build", "car"):
            entry = self.root.entries.get(wanted)
            if entry is not None:
                return by_path.get(entry.key_where.file)
        return self.files[0] if self.files else None


def read_folder(place: Path) -> Source:
    """Read a build folder (every ``*.yaml`` directly in it) or a single build file.

    Parameters
    ----------
    place : Path
        The folder or the file.

    Returns
    -------
    Source
        Nothing is raised: what cannot be read is among the problems.

    """
    reading = _Reading(folder=place if place.is_dir() else place.parent)
    if place.is_dir():
        found = sorted(one for one in _names(place) if one.name.endswith(ENDING))
        if not found:
            reading.problem(
                "file-missing",
                _top_of(place),
                "the folder",
                f"there is no *{ENDING} file in this folder",
                'Run "drybuild new FOLDER" for a starter, or name another folder.',
            )
        for path in found:
            reading.read(path, _top_of(path), "the file")
    else:
        reading.read(place, _top_of(place), "the file")
    return Source(
        place=place,
        files=tuple(reading.files.values()),
        root=replace(reading.root or empty_root(place), entries=reading.entries),
        problems=tuple(reading.problems),
        broken=tuple(key for key in reading.broken if key not in reading.entries),
    )


def _names(folder: Path) -> list[Path]:
    try:
        return [one for one in folder.iterdir() if not one.name.startswith(".")]
    except OSError:
        return []


def _real(path: Path) -> Path:
    """Return where a path leads; a circle of links leads nowhere else."""
    try:
        return path.resolve()
    except (OSError, RuntimeError):
        return path.absolute()


def _top_of(file: Path) -> Where:
    return Where(file=file, line=1, column=1, start=0, end=0)


@dataclass
class _Reading:
    """The files read so far, and those that are being read (each includes the next)."""

    folder: Path
    files: dict[Path, FileText] = field(default_factory=dict)
    entries: dict[str, Entry] = field(default_factory=dict)
    root: Mapping | None = None
    problems: list[Problem] = field(default_factory=list)
    broken: list[str] = field(default_factory=list)
    _open: list[Path] = field(default_factory=list)
    _done: set[Path] = field(default_factory=set)

    def read(self, path: Path, asked: Where, field_: str) -> None:
        """Read one file and what it includes; `asked` is where it is asked for."""
        real = _real(path)
        if real in self._open:
            circle = " -> ".join(one.name for one in [*self._open[self._open.index(real) :], real])
            self.problem(
                "include-circle",
                asked,
                field_,
                f"the files include each other in a circle: {circle}",
                "Take one of these includes out.",
            )
            return
        if real in self._done:
            return
        self._done.add(real)
        data = self._bytes(path, asked, field_)
        if data is None:
            return
        text, problems = decode(path, data)
        self.problems.extend(problems)
        self.files[path] = FileText(path=path, text=text, sha256=digest(data))
        if not text and problems:
            return
        document = parsed(path, text)
        self.problems.extend(document.problems)
        self.broken.extend(document.broken)
        self._open.append(real)
        self._merge(document)
        self._open.pop()

    def problem(self, code: str, where: Where, field_: str, wrong: str, mend: str) -> None:
        """Add one problem."""
        self.problems.append(
            Problem(
                code=code, file=where.file, line=where.line, field=field_, wrong=wrong, mend=mend
            )
        )

    def _bytes(self, path: Path, asked: Where, field_: str) -> bytes | None:
        try:
            if not _real(path).is_relative_to(_real(self.folder)):
                mend = "Put a copy of the file into the folder."
                self.problem(
                    "file-outside",
                    asked,
                    field_,
                    f"{path.name} leads to a file outside the build folder",
                    mend,
                )
                return None
            if not path.is_file():
                wrong = f"there is no file {path.name}" if not path.exists() else "this is no file"
                mend = "Compare the name with the files in the folder."
                self.problem("file-missing", asked, field_, wrong, mend)
                return None
            if len(self.files) >= MOST_FILES:
                mend = "Join some of the files."
                self.problem(
                    "too-many-files", asked, field_, f"there are more than {MOST_FILES} files", mend
                )
                return None
            with path.open("rb") as stream:
                return stream.read(LARGEST_FILE + 1)
        except OSError as fault:
            reason = (fault.strerror or "unknown").lower()
            self.problem(
                "file-unreadable",
                asked,
                field_,
                f"the file cannot be read: {reason}",
                "See to it that the file may be read and no other program holds it.",
            )
            return None

    def _merge(self, document: Document) -> None:
        self.root = self.root or document.root
        for key, entry in document.root.entries.items():
            if key == "include":
                self._include(entry)
            elif key in self.entries:
                first = self.entries[key].key_where
                self.problem(
                    "key-in-two-files",
                    entry.key_where,
                    key,
                    f'"{key}" stands here and in {first.file.name}:{first.line}',
                    "Move the entries together into one file; the first is used until then.",
                )
            else:
                self.entries[key] = entry

    def _include(self, entry: Entry) -> None:
        node = entry.node
        if isinstance(node, Scalar) and node.value is None:
            return
        for number, one in enumerate(node.items if isinstance(node, Listing) else (node,)):
            field_ = f"include[{number}]" if isinstance(node, Listing) else "include"
            name = one.value if isinstance(one, Scalar) else None
            if name is None or not _stays_inside(name):
                self.problem(
                    "include-path",
                    one.where,
                    field_,
                    f'"{name}" is not a file below the build folder'
                    if name
                    else "a name is wanted",
                    f"Write a path from this file's own folder, such as parts/engines{ENDING}.",
                )
                continue
            self.read(one.where.file.parent / name, one.where, field_)


def _stays_inside(name: str) -> bool:
    """Whether a name, on any system, is a plain relative path to a build file."""
    posix, windows = PurePosixPath(name), PureWindowsPath(name)
    anchored = posix.is_absolute() or windows.drive or windows.root
    climbs = ".." in posix.parts or "\\" in name
    return not anchored and not climbs and name.endswith(ENDING) and os.sep * 2 not in name


def digest(data: bytes) -> str:
    """Return the SHA-256 of a file's content, in hexadecimal."""
    return hashlib.sha256(data).hexdigest()
