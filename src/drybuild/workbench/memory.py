"""Memory given back to the system: glibc keeps what was freed, for each thread, unless told."""

from __future__ import annotations

import contextlib
import ctypes
import sys

ARENAS = -8
"""``M_ARENA_MAX`` of glibc's malloc.h."""


def share_memory() -> None:
    """Let all threads take memory from one pool."""
    _tell("mallopt", ARENAS, 1)


def give_back_memory() -> None:
    """Give what was freed back to the system."""
    _tell("malloc_trim", 0)


def _tell(what: str, *words: int) -> None:
    """Call glibc; another C library is let be."""
    if sys.platform == "linux":
        with contextlib.suppress(OSError, AttributeError):
            getattr(ctypes.CDLL("libc.so.6"), what)(*words)
