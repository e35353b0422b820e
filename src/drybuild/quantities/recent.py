"""A memory of results that forgets, for work that tries many combinations of options."""

from __future__ import annotations

from dataclasses import fields, is_dataclass
from functools import cache
from types import NoneType
from typing import Any

import numpy as np

from drybuild.quantities.graph import Result

Key = tuple[Any, ...]  # names and picks
DEEPEST = 8
"""How far into a value its arrays are looked for."""
_PLAIN = (str, float, int, type, NoneType)


class Recent(dict[Key, Result]):
    """Results by key: those last asked for, as many as their room in memory holds.

    A result that is dropped is worked out again when it is wanted; nothing else changes. Results
    of one quantity weigh about alike, so only the first of a name is weighed.
    """

    def __init__(self, most: int, room: float = np.inf) -> None:
        """Keep so many results at most, and so many bytes of arrays within them."""
        super().__init__()
        self.most = most
        self.room = room
        self._bytes: dict[Key, int] = {}
        self._usual: dict[Any, int] = {}  # by name
        self._sum = 0

    def __setitem__(self, key: Key, result: Result) -> None:
        """Keep a result; drop the quarter longest unused when there are too many."""
        super().__setitem__(key, result)
        size = self._usual.get(key[0]) or weight(result.value)
        self._usual[key[0]] = size
        self._sum += size - self._bytes.get(key, 0)
        self._bytes[key] = size
        if len(self) > self.most or self._sum > self.room:
            self._drop(key)

    def get(self, key: Key, default: Any = None) -> Any:  # as a dict's own
        """Return a result, if it is kept, and keep it longest of all."""
        found = self.pop(key, None)
        if found is None:
            return default
        super().__setitem__(key, found)
        return found

    def clear(self) -> None:
        """Forget everything."""
        super().clear()
        self._bytes.clear()
        self._sum = 0

    def _drop(self, newest: Key) -> None:
        for old in list(self):
            if len(self) <= 0.75 * self.most and self._sum <= 0.75 * self.room:
                return
            if old != newest:
                del self[old]
                self._sum -= self._bytes.pop(old)


def weight(value: object, depth: int = DEEPEST) -> int:
    """Return about how many bytes the arrays within a value take."""
    if isinstance(value, np.ndarray):
        return value.nbytes
    if depth == 0 or isinstance(value, _PLAIN):
        return 0
    if isinstance(value, dict):
        return sum([weight(one, depth - 1) for one in value.values()])
    if isinstance(value, list | tuple):
        return sum([weight(one, depth - 1) for one in value])
    kind: type = type(value)  # a bound section has no fields; it leads to the whole evaluation
    return sum([weight(getattr(value, name), depth - 1) for name in _names(kind)])


@cache
def _names(kind: type) -> tuple[str, ...]:
    return tuple(one.name for one in fields(kind)) if is_dataclass(kind) else ()
