"""The reference pages are what the code says today."""

from __future__ import annotations

import importlib.util
from pathlib import Path

import pytest

DOCS = Path(__file__).resolve().parents[2] / "docs"


def generated() -> dict[str, str]:
    """Return the pages as the code would write them now."""
    spec = importlib.util.spec_from_file_location("generate", DOCS / "generate.py")
    assert spec is not None
    assert spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    pages = module.pages()
    assert isinstance(pages, dict)
    return pages


@pytest.mark.parametrize("name", generated())
def test_reference_is_current(name: str) -> None:
    written = (DOCS / "reference" / name).read_text(encoding="utf-8")
    assert written == generated()[name], "run: python docs/generate.py"
