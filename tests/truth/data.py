"""Open data that outside checks read from beside the checkout; never part of the project."""

from __future__ import annotations

from pathlib import Path

import pytest

FOLDER = Path(__file__).resolve().parents[3] / "shared" / "truth" / "data"


def truth_data(name: str) -> Path:
    """Return the path of a data file, or skip the test, saying what is missing."""
    path = FOLDER / name
    if not path.exists():
        pytest.skip(f"open data {name} is not beside this checkout")
    return path
