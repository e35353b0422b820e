"""Candidates side by side on the terminal."""

from __future__ import annotations

from rich.table import Table
from rich.text import Text

from drybuild.present.candidates import Comparison, figure_text
from drybuild.present.numbers import value_and_band
from drybuild.quantities.graph import Evaluation
from drybuild.units import MONEY

UNKNOWN = "–"


def candidates_table(found: Comparison, evaluation: Evaluation) -> Table:
    """Return a column a candidate and a row a figure, each with its 5-95 % band."""
    words = found.system.replace("_", " ")
    table = Table(title=f"Candidates for the {words}", title_justify="left")
    table.add_column("figure", overflow="fold", ratio=3)
    for one in found.candidates:
        mark = " (as is)" if one.as_is else ""
        mark += " ← picked" if one.picked else ""
        table.add_column(f"{one.name}{mark}", overflow="fold", ratio=3)
    table.add_row("guided by", *(one.layout or UNKNOWN for one in found.candidates))
    table.add_row(
        "geometry from",
        *("hardpoints" if solved(one.curves) else "its sheet" for one in found.candidates),
    )
    for name in found.names:
        cells = [figure_text(one, name, found.axle, evaluation) for one in found.candidates]
        if any(cell != UNKNOWN for cell in cells):
            table.add_row(label_of(found, name), *cells)
    table.add_row("price", *(price_text(one.price, evaluation) for one in found.candidates))
    table.add_row(
        Text("fails", style="bold red"),
        *("\n".join(v.check.id for v in one.fails) or "nothing" for one in found.candidates),
    )
    return table


def label_of(found: Comparison, name: str) -> str:
    """Return a figure's words."""
    return found.candidates[0].results[name].quantity.label


def price_text(price: float | None, evaluation: Evaluation) -> str:
    """Return a price in the build's currency."""
    if price is None:
        return UNKNOWN
    build = evaluation.build
    return value_and_band((price,) * 3, MONEY, MONEY, build.units, build.currency)[0]


def solved(curves: object) -> bool:
    """Whether a candidate's curves follow from hardpoints."""
    return isinstance(curves, dict) and any(one.from_points for one in curves.values())
