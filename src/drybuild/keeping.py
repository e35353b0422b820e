"""Where drybuild keeps what it can work out again; losing it costs time and nothing else."""

from __future__ import annotations

import hashlib
import os
import sys
from functools import cache
from pathlib import Path


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
