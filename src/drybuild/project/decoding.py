"""From the bytes of a file to its text: encoding, size and characters that no text file holds."""

from __future__ import annotations

import re
from pathlib import Path

from drybuild.errors import Problem

LARGEST_FILE = 5_000_000
"""In bytes. A build of a hundred systems with ten options each stays below a tenth of it."""

BYTE_ORDER_MARK = "\ufeff"
REPLACEMENT = "\ufffd"

# YAML 1.2.2, production [1] c-printable, without the three rare line separators (next line, line
# separator, paragraph separator): older readers break lines there and newer ones do not.
_UNUSABLE = re.compile(
    "[^\t\n\r\x20-\x7e\xa0-\u2027\u202a-\ud7ff\ue000-\ufefe\uff00-\ufffd\U00010000-\U0010ffff]"
)


def decode(file: Path, data: bytes) -> tuple[str, tuple[Problem, ...]]:
    """Return the text of a file and what is wrong with its bytes.

    Bytes that are not UTF-8 read as the replacement character, so that the rest still opens. The
    line endings and a byte-order mark stay in the text.
    """
    if len(data) > LARGEST_FILE:
        return "", (_too_large(file, len(data)),)
    if data.startswith((b"\xff\xfe", b"\xfe\xff")):
        return "", (_not_utf8(file, 1, "the file is saved as UTF-16"),)
    try:
        return data.decode("utf-8"), ()
    except UnicodeDecodeError as fault:
        line = data.count(b"\n", 0, fault.start) + 1
        found = f"byte 0x{data[fault.start]:02X} is not UTF-8 text"
        return data.decode("utf-8", errors="replace"), (_not_utf8(file, line, found),)


def without_unusable_characters(file: Path, text: str) -> tuple[str, tuple[Problem, ...]]:
    """Return the text, equally long, with the unusable characters replaced, and where they are."""
    first = 1 if text.startswith(BYTE_ORDER_MARK) else 0
    found: dict[int, str] = {}
    for match in _UNUSABLE.finditer(text, first):
        found.setdefault(text.count("\n", 0, match.start()) + 1, match.group())
        if len(found) > 20:
            break
    problems = tuple(_unusable(file, line, character) for line, character in found.items())
    if not problems:
        return text, ()
    return text[:first] + _UNUSABLE.sub(REPLACEMENT, text[first:]), problems


def _too_large(file: Path, size: int) -> Problem:
    return Problem(
        code="file-too-large",
        file=file,
        line=1,
        field="the file",
        wrong=f"{size / 1e6:.1f} MB is more than a build file may have",
        mend=f"Split it into several files of less than {LARGEST_FILE / 1e6:.0f} MB each.",
    )


def _not_utf8(file: Path, line: int, wrong: str) -> Problem:
    return Problem(
        code="not-utf-8",
        file=file,
        line=line,
        field="the file",
        wrong=wrong,
        mend='Save it again with the encoding "UTF-8".',
    )


def _unusable(file: Path, line: int, character: str) -> Problem:
    return Problem(
        code="control-character",
        file=file,
        line=line,
        field="the file",
        wrong=f"the invisible character U+{ord(character):04X} cannot stand in a build file",
        mend="Delete it, or put a space or an ordinary line break in its place.",
    )
