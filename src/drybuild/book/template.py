"""A full-size template as PDF: cut into sheets of a home printer, or one sheet a view.

Vectors only, at one to one: a millimetre of the part is a millimetre of paper (1 pt = 1/72 in).
"""

from __future__ import annotations

import json
import math
import string
import tempfile
from collections.abc import Sequence
from importlib.resources import files
from pathlib import Path
from typing import Any

import numpy as np

from drybuild.physics.solids.outlines import parted
from drybuild.present.drawing import Drawing
from drybuild.present.template import Template, TemplateSheet

POINT = 72.0 / 25.4
"""Points in a millimetre."""
PAPERS = {"a4": (210.0, 297.0), "letter": (215.9, 279.4)}
"""Width and height of a printer's sheets: ISO 216 and ANSI/ASME Y14.1. [mm]"""
EDGE = 10.0
"""What a printer may leave white round a sheet. [mm]"""
OVERLAP = 10.0
"""How far neighbouring sheets show the same. [mm]"""
STYLES: dict[str, tuple[str, float, str]] = {
    "OUTLINE": ("ink", 2.2, ""),
    "PARTS WITHIN": ("faint", 0.5, "4 3"),
    "CRANKSHAFT LINE": ("blue", 0.8, "14 3 3 3"),
    "DATUM": ("orange", 1.2, ""),
    "MOUNT FACES": ("green", 1.0, ""),
    "BELL HOUSING FACE": ("purple", 1.6, ""),
    "CHECK RULER": ("ink", 0.7, ""),
    "WORDS": ("ink", 0.7, ""),
}
CAUTION = (
    "A template is as true as the measures behind it, and knows the nominal ones alone. "
    "Usual shapes are drawn round the parts. Leave room for what rocks, turns and gets hot. "
    "Try it with the car on level stands, the battery off, and nobody under an engine on a hoist."
)


def sheet_svg(sheet: TemplateSheet) -> str:
    """Return a template's view as SVG at full size."""
    drawing = Drawing(sheet.height * POINT, sheet.width * POINT)

    def at(place: tuple[float, float]) -> tuple[float, float]:
        return place[0] * POINT, (sheet.height - place[1]) * POINT

    for stroke in sheet.strokes:
        tone, weight, dash = STYLES[stroke.layer]
        points = [at(one) for one in stroke.points]
        drawing.line(points, tone=tone, weight=weight, dash=dash, closed=stroke.closed)
    for label in sheet.labels:
        drawing.words(
            at(label.at),
            label.text,
            size=label.size * POINT,
            tone=STYLES[label.layer][0],
            anchor="middle" if label.middle else "start",
        )
    return drawing.svg()


def write_tiles(template: Template, title: str, paper: str, target: Path) -> None:
    """Write a template as sheets of a home printer, to be joined by their marks.

    Parameters
    ----------
    template : Template
        The part.
    title : str
        The build's name.
    paper : str
        `a4` or `letter`.
    target : Path
        The file to write.

    """
    width, height = PAPERS[paper]
    tiled = [_tiled(one, width, height) for one in template.sheets]
    pages = [page for _, found in tiled for page in found]
    maps = [plan for plan, _ in tiled]
    _set(template, title, target, {"width": width, "height": height, "maps": maps, "pages": pages})


def write_whole(template: Template, title: str, target: Path) -> None:
    """Write a template as one sheet a view, for a print shop's roll."""
    pages = [
        {
            "width": one.width, "height": one.height, "view": k, "name": "", "joins": [],
            "from": [0.0, 0.0], "window": [0.0, 0.0, one.width, one.height],
        }
        for k, one in enumerate(template.sheets)
    ]  # fmt: skip
    _set(template, title, target, {"width": 0.0, "height": 0.0, "maps": [], "pages": pages})


def _tiled(
    sheet: TemplateSheet, width: float, height: float
) -> tuple[dict[str, Any], list[dict[str, Any]]]:
    """Return the map of a view's sheets, and the sheets; turned where that takes fewer."""
    wide, high = min(
        ((width, height), (height, width)),
        key=lambda one: math.prod(_counts(sheet, *one)),
    )
    columns, rows = _counts(sheet, wide, high)
    step = (wide - 2.0 * EDGE - OVERLAP, high - 2.0 * EDGE - OVERLAP)
    room = (wide - 2.0 * EDGE, high - 2.0 * EDGE)
    drawn = {
        (column, row)
        for column in range(columns)
        for row in range(rows)
        if _holds(sheet, column * step[0], row * step[1], room)
    }
    pages = [
        {
            "width": wide,
            "height": high,
            "name": _name(column, row),
            "joins": [
                [side, _name(column + right, row + down)]
                for side, right, down in SIDES
                if (column + right, row + down) in drawn
            ],
            "from": [column * step[0], row * step[1]],
            "window": [EDGE, EDGE, *room],
        }
        for row in range(rows)
        for column in range(columns)
        if (column, row) in drawn
    ]
    plan = {
        "title": sheet.title,
        "size": [sheet.width, sheet.height],
        "cells": [
            [_name(column, row), column * step[0], row * step[1], *room]
            for column, row in sorted(drawn)
        ],
    }
    for page in pages:
        page["title"] = sheet.title
    return plan, pages


SIDES = (("left", -1, 0), ("right", 1, 0), ("top", 0, -1), ("bottom", 0, 1))


def _counts(sheet: TemplateSheet, wide: float, high: float) -> tuple[int, int]:
    found = []
    for length, side in ((sheet.width, wide), (sheet.height, high)):
        room = side - 2.0 * EDGE
        found.append(1 + max(0, math.ceil((length - room) / (room - OVERLAP))))
    return found[0], found[1]


def _holds(sheet: TemplateSheet, left: float, top: float, room: Sequence[float]) -> bool:
    """Whether a sheet shows any line; `top` counts down from the view's upper edge."""
    high = sheet.height - top
    window = np.array(
        [
            (left, high - room[1]), (left + room[0], high - room[1]),
            (left + room[0], high), (left, high),
        ]
    )  # fmt: skip
    lines = np.array(
        [
            pair
            for one in sheet.strokes
            if one.layer != "CHECK RULER"
            for pair in zip(one.points, one.points[1:] + one.points[:1], strict=True)
        ]
    )
    _, inside = parted(lines=lines, polygons=[window])
    return bool(len(inside))


def _name(column: int, row: int) -> str:
    """Return a sheet's name: column by letter, row by number."""
    return f"{string.ascii_uppercase[column % 26]}{row + 1}"


def _set(template: Template, title: str, target: Path, data: dict[str, Any]) -> None:
    import typst  # noqa: PLC0415  only paper needs the setter

    room_of = files("drybuild").joinpath("book")
    with tempfile.TemporaryDirectory() as folder:
        room = Path(folder)
        for k, sheet in enumerate(template.sheets):
            (room / f"view-{k}.svg").write_text(sheet_svg(sheet), encoding="utf-8")
        titles = [one.title for one in template.sheets]
        for page in data["pages"]:
            page.setdefault("title", titles[page.get("view", 0)])
            page["view"] = titles.index(page["title"])
        told = {
            **data,
            "build": title,
            "part": template.part,
            "datum": template.words,
            "typical": template.typical,
            "caution": CAUTION,
            "sizes": [[one.width, one.height] for one in template.sheets],
            "overlap": OVERLAP,
        }
        (room / "template.json").write_text(json.dumps(told), encoding="utf-8")
        text = room_of.joinpath("template.typ").read_text(encoding="utf-8")
        (room / "template.typ").write_text(text, encoding="utf-8")
        made = typst.compile(str(room / "template.typ"), ignore_system_fonts=True)
    target.write_bytes(made)
