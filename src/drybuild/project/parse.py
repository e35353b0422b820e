"""Parse one YAML text: the readable part, and every fault, piece by piece."""

from __future__ import annotations

import re
from dataclasses import replace
from functools import lru_cache
from pathlib import Path

import yaml

from drybuild.errors import Problem
from drybuild.project.composer import Composer, Stopped
from drybuild.project.decoding import BYTE_ORDER_MARK, without_unusable_characters
from drybuild.project.document import Document, Entry, Mapping, Scalar, Where, empty_root
from drybuild.project.syntax import NO_COLON, Fault, describe

LOADER: type[yaml.SafeLoader] | type[yaml.CSafeLoader] = getattr(
    yaml, "CSafeLoader", yaml.SafeLoader
)
MOST_PIECES = 20
"""After so many faults the rest of the file is left alone: the first ones want mending."""

_TOP_LEVEL = re.compile(
    r"""^(?:"[^"\n]*"|'[^'\n]*'|[^\s\#\-?:,\[\]{}&*!|>'"%@`][^\n]*?)[ \t]*:(?=\s|$)""", re.MULTILINE
)
_LONE_RETURN = re.compile(r"\r(?!\n)")  # ends a line too, as on very old computers
_LONE_QUESTION = re.compile(r"(:[ \t]+|-[ \t]+|[\[,]\s*)\?(?=[ \t]*(?:[\r\n,}\]]|\Z)|[ \t]+#)")


@lru_cache(maxsize=24)
def parsed(file: Path, text: str) -> Document:
    """Return a text as read; the proof of one edit is where the next reading begins."""
    return parse(file, text)


def parse(file: Path, text: str) -> Document:
    """Read one YAML text.

    Parameters
    ----------
    file : Path
        Its file, for positions and messages.
    text : str
        The whole text; line endings and byte-order mark as they stand.

    Returns
    -------
    Document
        Nothing is raised. After a fault, reading goes on with the next top-level key; the
        entry with the fault is left out and named in `broken`.

    """
    usable, problems = without_unusable_characters(file, _LONE_RETURN.sub("\n", text))
    usable, mask = _mask_questions(usable)
    composer = Composer(
        file=file,
        text=usable,
        restore=lambda one: one.replace(mask, "?"),
        problems=list(problems),
    )
    entries: dict[str, Entry] = {}
    broken: list[str] = []
    start: int | None = 1 if text.startswith(BYTE_ORDER_MARK) else 0
    for _ in range(MOST_PIECES):
        if start is None:
            break
        start = _read_piece(composer, start, entries, broken)
    return Document(
        text=text,
        root=_root(composer, entries, broken),
        problems=tuple(composer.problems),
        broken=tuple(broken),
    )


def _read_piece(
    composer: Composer, start: int, entries: dict[str, Entry], broken: list[str]
) -> int | None:
    """Read from `start` to the next fault; return where reading can go on."""
    composer.begin(start)
    fault = None
    try:
        _feed(composer, composer.text[start:])
    except yaml.YAMLError as error:
        fault = describe(error, composer.text[start:])
        fault = replace(fault, line=fault.line + composer.base_line)
    except Stopped:
        _keep(composer, composer.read_so_far(), entries)
        broken.extend(key for key, _ in keys_after(composer.text, start) if key not in entries)
        return None
    if fault is None:
        _keep(composer, composer.read_so_far(), entries)
        return None
    return _after_fault(composer, fault, start, entries, broken)


def _feed(composer: Composer, text: str) -> None:
    documents = 0
    for event in yaml.parse(text, Loader=LOADER):
        if isinstance(event, yaml.DocumentStartEvent):
            documents += 1
            if documents > 1:
                composer.problem(
                    "several-documents",
                    composer.where(event, "plain"),
                    "a second document begins here; only the first is read",
                    "Leave out the line ---, or put the rest in a file of its own.",
                    field_="the file",
                )
                return
        composer.feed(event)


def _after_fault(
    composer: Composer, fault: Fault, start: int, entries: dict[str, Entry], broken: list[str]
) -> int | None:
    """Keep what stands whole above the fault; return the next top-level key below it."""
    text = composer.text
    if isinstance(composer.root, Scalar) and "no colon" not in fault.wrong:
        fault = replace(NO_COLON, line=composer.root.where.line - 1)
    keys = [(key, text.count("\n", 0, at), at) for key, at in keys_after(text, start)]
    above = [key for key, line, _ in keys if line <= fault.line]
    indented = text.split("\n", fault.line + 1)[fault.line][:1] in (" ", "\t")
    field = composer.address()
    if indented and above and field == "the file":
        field = above[-1]
    if not indented:
        own = next((key for key, line, _ in keys if line == fault.line), "the file")
        field = field if field.startswith(own) else own
    composer.problems.append(
        Problem(
            code=fault.code,
            file=composer.file,
            line=fault.line + 1,
            field=field,
            wrong=fault.wrong,
            mend=fault.mend,
        )
    )
    whole = {
        key: entry
        for key, entry in composer.read_so_far().items()
        if text.count("\n", 0, entry.node.where.end) < fault.line
        and not (indented and [key] == above[-1:])
    }
    _keep(composer, whole, entries)
    broken.extend(key for key in above if key not in entries)
    return next((at for _, line, at in keys if line > fault.line), None)


def _keep(composer: Composer, found: dict[str, Entry], entries: dict[str, Entry]) -> None:
    for key, entry in found.items():
        if key not in entries:
            entries[key] = entry
        elif entries[key].key_where != entry.key_where:
            composer.problem(
                "duplicate-key",
                entry.key_where,
                f'"{key}" stands here a second time; '
                f"the first is on line {entries[key].key_where.line}",
                "Keep one of them; the first is used until then.",
                field_=key,
            )


def keys_after(text: str, start: int) -> list[tuple[str, int]]:
    """Return what looks like top-level keys in the text, with their places."""
    return [
        (match.group().rstrip().rstrip(":").strip().strip("'\""), match.start())
        for match in _TOP_LEVEL.finditer(text, start)
    ]


def _root(composer: Composer, entries: dict[str, Entry], broken: list[str]) -> Mapping:
    file, root = composer.file, composer.root
    if entries:
        first, last = next(iter(entries.values())), list(entries.values())[-1]
        own = root.where if isinstance(root, Mapping) and root.where.style == "flow" else None
        return Mapping(
            entries=entries,
            where=own or replace(first.key_where, end=last.node.where.end, style="block"),
        )
    nothing = root is None or (isinstance(root, Scalar) and root.value is None)
    if isinstance(root, Mapping):
        if not root.entries and root.where.style == "flow":
            return root
        return empty_root(file)
    if composer.problems and nothing:
        return empty_root(file)
    if nothing:
        where = Where(file=file, line=1, column=1, start=0, end=0)
        composer.problem(
            "file-empty",
            where,
            "there is nothing in this file",
            'Write at least "build: a name for the car", or delete the file.',
            field_="the file",
        )
    elif not broken:
        composer.problem(
            "mapping-wanted",
            root.where if root else Where(file=file, line=1, column=1, start=0, end=0),
            "the file must hold entries by name",
            'Begin each part with its key at the left margin, such as "build: my car".',
            field_="the file",
        )
    return empty_root(file)


def _mask_questions(text: str) -> tuple[str, str]:
    """Put a character that the text does not hold in place of each value that is a lone ``?``."""
    mask = next(chr(code) for code in range(0xE000, 0xF8FF) if chr(code) not in text)
    return _LONE_QUESTION.sub(lambda match: match.group(1) + mask, text), mask
