"""A memory of results that forgets the oldest, for work that tries many combinations of options."""

from __future__ import annotations

from itertools import islice
from typing import Any

from drybuild.quantities.graph import Result

Key = tuple[Any, ...]  # names and picks


class Recent(dict[Key, Result]):
    """Results by key, the last so many of them.

    A result that is dropped is worked out again when it is wanted; nothing else changes.
    """

    def __init__(self, most: int) -> None:
        super().__init__()
        self.most = most

    def __setitem__(self, key: Key, result: Result) -> None:
        """Keep a result; drop the oldest quarter when there are too many."""
        super().__setitem__(key, result)
        if len(self) > self.most:
            for old in list(islice(self, self.most // 4)):
                del self[old]
