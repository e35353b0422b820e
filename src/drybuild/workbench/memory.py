"""Memory given back to the system: glibc keeps what was freed, for each thread, unless told.

Python looks through everything that it holds for circles that nobody needs, again and again: a
tenth of a second, in the middle of somebody's click. What is held for long is set apart from that;
it is freed all the same when nobody holds it any more.
"""

from __future__ import annotations

import contextlib
import ctypes
import gc
import sys
from functools import cache

ARENAS, TRIM, TOP_PAD, MAPPED = -8, -1, -2, -3
"""``M_ARENA_MAX``, ``M_TRIM_THRESHOLD``, ``M_TOP_PAD``, ``M_MMAP_THRESHOLD`` of malloc.h."""
MEGABYTE = 1 << 20


def share_memory() -> None:
    """Let all threads take memory from one pool."""
    _tell("mallopt", ARENAS, 1)


def hold_memory() -> None:
    """Use what was freed again rather than give it back, in a program that soon ends."""
    for what, megabytes in ((TRIM, 512), (TOP_PAD, 16), (MAPPED, 32)):
        _tell("mallopt", what, megabytes * MEGABYTE)


def give_back_memory() -> None:
    """Give what was freed back to the system; what is held now is no longer looked through."""
    gc.freeze()
    _tell("malloc_trim", 0)


def look_through() -> None:
    """Free the circles that nobody needs, also among what was set apart."""
    gc.unfreeze()
    gc.collect()
    give_back_memory()


def _tell(what: str, *words: int) -> None:
    """Call glibc; another C library is let be."""
    library = _library()
    with contextlib.suppress(AttributeError):
        getattr(library, what)(*words)


@cache
def _library() -> ctypes.CDLL | None:
    if sys.platform == "linux":
        with contextlib.suppress(OSError):
            return ctypes.CDLL("libc.so.6")
    return None
