"""Another place of the engine as the build file would say it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from drybuild.project.address import Address, write_address
from drybuild.project.build import Build
from drybuild.project.document import Mapping as MappingNode
from drybuild.project.edit import node_at
from drybuild.project.packaging import Bay, EngineBox
from drybuild.project.readings import Reading
from drybuild.project.trial import moved_text
from drybuild.project.writing import AsTyped, Value

STILL = 5e-5
"""What moves less stays as it is written. [m, rad]"""
UNITS = {
    "nose": "m",
    "crank_offset": "m",
    "crank_height": "m",
    "nose_up": "rad",
    "yaw": "rad",
}
SHOWN = {"m": "mm", "rad": "deg"}


def moved_entries(build: Build, engine: str, wanted: Mapping[str, float]) -> dict[str, Value]:
    """Return what to write for an engine's place, by address; only what moves.

    Parameters
    ----------
    build : Build
        The build as read.
    engine : str
        Name of the engine's option.
    wanted : mapping
        Entries of its place by name: nose, crank_offset, crank_height, nose_up, yaw. [m, rad]

    """
    bay = build.car.get("bay")
    boxes = bay.given.get("engines") if isinstance(bay, Bay) else None
    box = boxes.get(engine) if isinstance(boxes, dict) else None
    given = box.given if isinstance(box, EngineBox) else {}
    found: dict[str, Value] = {}
    for entry, value in wanted.items():
        reading = given.get(entry)
        stands = reading if isinstance(reading, Reading) else None
        if abs(value - (stands.value if stands else 0.0)) < STILL:
            continue
        at: Address = ("car", "bay", "engines", engine, entry)
        node = node_at(build.tree, at) if build.tree else None
        if isinstance(node, MappingNode) and stands is not None:
            at, stands = (*at, "value"), replace(stands, text="")  # its spread stands beside it
        text = moved_text(stands, value, UNITS[entry], SHOWN[UNITS[entry]])
        found[write_address(at)] = AsTyped(text)
    return found
