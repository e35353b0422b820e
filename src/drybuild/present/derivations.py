"""How a quantity was found: it, what it needs, and what those need, with values and sources."""

from __future__ import annotations

from drybuild.present.quantity_texts import result_text
from drybuild.quantities.graph import Evaluation
from drybuild.sources import source


def derivation(name: str, evaluation: Evaluation, depth: int = 3) -> list[str]:
    """Return how a quantity was found: it, what it needs, and what those need, with values."""
    lines: list[str] = []
    seen: set[str] = set()

    def tell(one: str, level: int) -> None:
        if one in seen or level > depth or one not in evaluation.graph.quantities:
            return
        seen.add(one)
        quantity = evaluation.graph.quantities[one]
        if not quantity.step:
            text = result_text(evaluation.result(one), evaluation).replace("\n", "; ")
            lines.append(f"{'  ' * level}{quantity.label} = {text} [{source(quantity.source)}]")
        for need in quantity.needs:
            tell(need, level + (0 if quantity.step else 1))

    tell(name, 0)
    return lines
