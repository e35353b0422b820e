"""Every problem code has its heading in the reference, and no heading is stale."""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator
from functools import cache
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[2]
MODULES = sorted((ROOT / "src" / "drybuild").rglob("*.py"))
PAGE = ROOT / "docs" / "reference" / "problems.md"


def texts(node: ast.expr) -> Iterator[str]:
    """Yield the texts that an expression can be."""
    if isinstance(node, ast.Constant) and isinstance(node.value, str):
        yield node.value
    elif isinstance(node, ast.IfExp):
        yield from texts(node.body)
        yield from texts(node.orelse)


def codes(tree: ast.Module) -> Iterator[str]:
    """Yield every problem code that a module writes out.

    As ``code=...``, as the first word to a function that adds a problem, assigned to ``code``, or
    returned in front of what is wrong and how to mend it.
    """
    for node in ast.walk(tree):
        if isinstance(node, ast.Call):
            for keyword in node.keywords:
                if keyword.arg == "code":
                    yield from texts(keyword.value)
            name = getattr(node.func, "attr", getattr(node.func, "id", ""))
            if "problem" in name and node.args:
                yield from texts(node.args[0])
        elif isinstance(node, ast.Assign):
            if any(isinstance(one, ast.Name) and one.id == "code" for one in node.targets):
                yield from texts(node.value)
        elif isinstance(node, ast.Return) and isinstance(node.value, ast.Tuple):
            first = node.value.elts[:1]
            if first and len(node.value.elts) == 3:
                yield from (one for one in texts(first[0]) if re.fullmatch(r"[a-z]+-[a-z-]+", one))


@cache
def used() -> dict[str, Path]:
    """Return every code with a module that uses it."""
    return {
        code: path
        for path in MODULES
        for code in codes(ast.parse(path.read_text(encoding="utf-8")))
    }


@cache
def sections() -> dict[str, str]:
    """Return the text below each heading of the page."""
    parts = re.split(r"^###? +(.+)$", PAGE.read_text(encoding="utf-8"), flags=re.MULTILINE)
    found = dict(zip(parts[1::2], parts[2::2], strict=True))
    return {name: text.strip() for name, text in found.items() if re.fullmatch(r"[a-z0-9-]+", name)}


def test_codes_are_found_at_all() -> None:
    assert len(used()) > 40


@pytest.mark.parametrize("code", sorted(used()))
def test_every_code_has_its_heading(code: str) -> None:
    assert code in sections(), f"{code}, used in {used()[code]}, has no heading in {PAGE}"
    assert len(sections()[code]) > 40


@pytest.mark.parametrize("heading", sorted(sections()))
def test_no_heading_is_stale(heading: str) -> None:
    assert heading in used(), f"no code {heading} is used any more; take it out of {PAGE}"


def test_headings_stand_once() -> None:
    found = re.findall(r"^### +(.+)$", PAGE.read_text(encoding="utf-8"), re.MULTILINE)
    assert len(found) == len(set(found))
