"""Where drybuild keeps what it can work out again; losing it costs time and nothing else."""

from __future__ import annotations

import os
import sys
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
