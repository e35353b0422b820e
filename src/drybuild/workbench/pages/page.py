"""What a page is."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Any

from drybuild.workbench.desk import Desk

Asked = Mapping[str, str]
"""The words after the question mark of an address."""


@dataclass(frozen=True, kw_only=True)
class Page:
    """A page of the workbench."""

    path: str
    title: str
    asks: str
    """The question that it answers."""
    template: str
    fill: Callable[[Desk, Asked], dict[str, Any]]  # a template takes anything
    before: Callable[[Desk, Asked], None] | None = None
    """What it works out or waits for before it is filled, while others use the desk."""
    islands: tuple[str, ...] = ()
    """Scripts of its own, by name; it says the same without them."""
