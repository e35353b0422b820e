"""Where drybuild keeps what it can work out again; losing it costs time and nothing else."""

from __future__ import annotations

import hashlib
import os
import sys
from collections.abc import Callable, Mapping
from dataclasses import fields, is_dataclass
from functools import cache
from pathlib import Path
from types import NoneType
from typing import Generic, TypeVar

import numpy as np

T = TypeVar("T")
PLAIN = (str, int, float, complex, bytes, np.generic, NoneType)
"""What tells all of itself in words."""


class Known(Generic[T]):
    """What was worked out last, by the content of all that it rests on.

    A name of the whole content cannot be out of date; what is dropped is worked out again.
    """

    def __init__(self, most: int) -> None:
        """Keep so many of them at most: those that were last asked for."""
        self.most = most
        self._kept: dict[bytes, tuple[T]] = {}

    def of(self, name: bytes, work: Callable[[], T]) -> T:
        """Return what is known by a name (of `content_name`), else work it out."""
        held = self._kept.pop(name, None)
        found = work() if held is None else held[0]
        self._kept[name] = (found,)
        for old in list(self._kept)[: -self.most]:
            self._kept.pop(old, None)
        return found

    def clear(self) -> None:
        """Forget everything."""
        self._kept.clear()


def content_name(*values: object) -> bytes:
    """Return a name for all that values hold: numbers, texts, arrays, and what is made of these.

    Raises
    ------
    TypeError
        A value, or one within it, is of a kind that does not tell all of itself.

    """
    found = hashlib.blake2b(digest_size=16)
    for value in values:
        _tell(found, value)
    return found.digest()


def _tell(found: hashlib.blake2b, value: object) -> None:
    if isinstance(value, np.ndarray):
        found.update(f"{value.dtype.str}{value.shape}".encode())
        found.update(np.ascontiguousarray(value).data)
    elif isinstance(value, PLAIN):
        found.update(f"{type(value).__name__}{value!r};".encode())
    elif isinstance(value, Mapping):
        _tell(found, tuple(value.items()))
    elif isinstance(value, tuple | list):
        found.update(f"{len(value)}(".encode())
        for one in value:
            _tell(found, one)
    elif is_dataclass(value) and not isinstance(value, type):
        found.update(f"{type(value).__qualname__}(".encode())
        for field in fields(value):
            _tell(found, getattr(value, field.name))
    else:
        raise TypeError(f"{type(value).__name__} has no name by content")


def usual_folder() -> Path:
    """Return where programs of this kind keep what they can work out again.

    The environment variable ``DRYBUILD_CACHE`` names another folder.
    """
    if named := os.environ.get("DRYBUILD_CACHE"):
        return Path(named)
    home = Path.home()
    if sys.platform == "win32":
        return Path(os.environ.get("LOCALAPPDATA", home)) / "drybuild"
    if sys.platform == "darwin":
        return home / "Library" / "Caches" / "drybuild"
    return Path(os.environ.get("XDG_CACHE_HOME") or home / ".cache") / "drybuild"


@cache
def program_name() -> str:
    """Return a name for this state of the program: its files by size and time."""
    root = Path(__file__).parent
    files = sorted(one for one in root.rglob("*") if one.suffix in (".py", ".csv"))
    stats = [(str(one.relative_to(root)), one.stat()) for one in files]
    seen = [(name, stat.st_size, stat.st_mtime_ns) for name, stat in stats]
    return hashlib.blake2b(repr(seen).encode(), digest_size=16).hexdigest()
