"""A template as a DXF file: millimetres, one layer a sort of line, its three views side by side."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from drybuild.present.template import Template, TemplateSheet

if TYPE_CHECKING:
    from ezdxf.layouts.layout import Modelspace

RELEASE = "R2000"
MILLIMETRES = 4
"""$INSUNITS: DXF reference, HEADER section."""
METRIC = 1
"""$MEASUREMENT: DXF reference, HEADER section."""
APART = 60.0
"""Room between views. [mm]"""
LAYERS: dict[str, tuple[int, str, int]] = {
    "OUTLINE": (7, "CONTINUOUS", 50),
    "PARTS WITHIN": (8, "DASHED", 18),
    "CRANKSHAFT LINE": (5, "CENTER", 25),
    "DATUM": (1, "CONTINUOUS", 35),
    "MOUNT FACES": (3, "CONTINUOUS", 35),
    "BELL HOUSING FACE": (6, "CONTINUOUS", 50),
    "CHECK RULER": (2, "CONTINUOUS", 25),
    "WORDS": (7, "CONTINUOUS", 25),
}
"""Colour's number, line type, weight in 0.01 mm of each layer."""


def write_dxf(template: Template, target: Path) -> None:
    """Write a template as a DXF file of release 2000."""
    from ezdxf.filemanagement import new  # noqa: PLC0415  slow to import

    document = new(RELEASE, setup=["linetypes"], units=MILLIMETRES)
    document.header["$MEASUREMENT"] = METRIC
    for name, (colour, pattern, weight) in LAYERS.items():
        document.layers.add(name, color=colour, linetype=pattern, lineweight=weight)
    space = document.modelspace()
    right = 0.0
    for sheet in template.sheets:
        _draw(space, sheet, right)
        right += sheet.width + APART
    document.saveas(target)


def _draw(space: Modelspace, sheet: TemplateSheet, right: float) -> None:
    from ezdxf.enums import TextEntityAlignment  # noqa: PLC0415  slow to import

    for stroke in sheet.strokes:
        points = [(x + right, y) for x, y in stroke.points]
        looks = {"layer": stroke.layer}
        if len(points) == 2 and not stroke.closed:
            space.add_line(points[0], points[1], dxfattribs=looks)
        else:
            space.add_lwpolyline(points, close=stroke.closed, dxfattribs=looks)
    for label in sheet.labels:
        text = space.add_text(label.text, height=label.size, dxfattribs={"layer": label.layer})
        place = (label.at[0] + right, label.at[1])
        align = TextEntityAlignment.BOTTOM_CENTER if label.middle else TextEntityAlignment.LEFT
        text.set_placement(place, align=align)
