"""The list of modules with quantities; the graph is assembled from it."""

from __future__ import annotations

from functools import cache
from types import ModuleType

from drybuild.quantities.graph import Graph

MODULES: tuple[ModuleType, ...] = ()


@cache
def graph() -> Graph:
    """Return the graph of every quantity."""
    return Graph(MODULES)
