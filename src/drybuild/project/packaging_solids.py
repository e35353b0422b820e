"""Solids as a person enters them: boxes, cylinders, plates, tape-measure lofts, mesh files."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from drybuild.project.document import Node
from drybuild.project.fields import TextField, choice, flag, reading
from drybuild.project.groups import named, numbers
from drybuild.project.reader import Reader
from drybuild.project.sections import Section

KINDS = (
    "fixed", "steering", "bonnet", "radiator", "brake line", "fuel line", "hose", "tank",
    "pedal", "suspension", "combustible", "ground",
)  # fmt: skip
"""What a standing thing can be to its neighbours; each has its own needed clearance."""
USUAL_PARTS = (
    "radiator", "fan", "alternator", "compressor", "header", "servo", "battery", "tank",
)  # fmt: skip
"""Parts whose usual shape is known: a few pieces, scaled to length, width and height."""
PART_KINDS = ("engine", "hot", "rotating", "gearbox", "shaft")
"""What a part of the engine can be to its neighbours."""


class MeshFile(str):
    """The name of a mesh file, with the folder that it counts from and its state when read.

    Two are the same only if the file was not written in between: results are kept by that.
    """

    __slots__ = ("folder", "stamp")
    folder: Path
    stamp: tuple[int, int]

    @classmethod
    def seen(cls, name: str, folder: Path) -> MeshFile:
        """Return a file's name as it stands in a folder now."""
        found = cls(name)
        found.folder = folder
        try:
            state = (folder / name).stat()
            found.stamp = (state.st_size, state.st_mtime_ns)
        except (OSError, ValueError):
            found.stamp = (0, 0)
        return found

    def __eq__(self, other: object) -> bool:
        return str(self) == other and self.stamp == getattr(other, "stamp", self.stamp)

    def __hash__(self) -> int:
        return str.__hash__(self)

    def __repr__(self) -> str:
        return f"{str(self)!r} {self.stamp}"


class MeshFileField(TextField):
    """A mesh file in the build folder."""

    kind = "mesh file"

    def read(self, node: Node, path: str, reader: Reader) -> MeshFile | None:
        """Return the name with its folder; the file itself is looked at when all is read."""
        text = super().read(node, path, reader)
        if text in (None, "", "?"):
            return None
        return MeshFile.seen(text, node.where.file.parent)

    def take(self, section: Section) -> str:
        """Return the name, or say that it is missing."""
        section.bench.note(section.path_of(self.name))
        given = section.given.get(self.name)
        if not isinstance(given, MeshFile):
            raise self.missing(section)
        return given

    def schema(self) -> dict[str, Any]:  # JSON Schema is free-form JSON
        """Return the JSON Schema."""
        return {"description": self.words, "type": ["string", "null"]}


class ScanPoint(Section):
    """One point that is known in the mesh and on the car."""

    scan = numbers(
        "-",
        "Where it is in the mesh: x, y, z in the mesh's own unit",
        count=3,
        least=None,
        exact=True,
    )
    car = numbers("m", "Where it is on the car: x, y, z", count=3, least=None)


class TapedDistance(Section):
    """A distance between two of the named points, taped on the car: a check of the mesh's scale."""

    start = TextField("Name of one point")
    end = TextField("Name of the other point")
    distance = reading("m", "Distance by the tape")


class Shape(Section):
    """A solid: a box, a plate, a cylinder, a pipe, a hull of points, a mesh, or a usual part."""

    form = choice(
        "Its shape: plain, a mesh, or the usual shape of a part",
        "box", "plate", "cylinder", "pipe run", "hull", "mesh", *USUAL_PARTS,
        usual="box",
    )  # fmt: skip
    centre = numbers("m", "Box, plate, usual part: its middle x, y, z", count=3, least=None)
    size = numbers(
        "m",
        "Box, plate, usual part: its length, width, height before it is turned; a usual part has "
        "typical ones",
        count=3,
    )
    roll = reading("rad", "Turn about x: lifts the left side", least=None)
    pitch = reading("rad", "Turn about y: lowers the front", least=None)
    yaw = reading("rad", "Turn about z: turns the front left", least=None)
    start = numbers("m", "Cylinder: middle of one end, x, y, z", count=3, least=None)
    end = numbers("m", "Cylinder: middle of the other end, x, y, z", count=3, least=None)
    diameter = reading("m", "Cylinder, pipe run: its outside diameter")
    corners = numbers(
        "m",
        "Hull: x, y, z of each corner, one after another; pipe run: of each point of its line",
        least=None,
    )
    file = MeshFileField("Mesh: an STL, OBJ, PLY or glTF file inside the build folder")
    unit = choice("Mesh: the unit of its numbers", "mm", "cm", "m", "in", "ft")
    points = named(ScanPoint, "Mesh: points known in it and on the car, three or more, by name")
    taped = named(TapedDistance, "Mesh: taped distances between those points, to check its scale")
    doubt = reading(
        "m",
        "How far its real skin may stand off: 0 ± 5 mm; typical for a mesh or a usual part",
        least=None,
        typical=True,
    )


class Standing(Shape):
    """Something that stands in the car round the engine, and how it moves."""

    kind = choice("What it is", *KINDS, usual="fixed")
    axis_at = numbers(
        "m", "A point on the axis that it turns about or slides along", count=3, least=None
    )
    axis = numbers("-", "Direction of that axis: x, y, z", count=3, least=None, exact=True)
    turns = reading("rad", "How far it turns to each side of where it is drawn: steering lock")
    slides_up = reading("m", "How far it slides along the axis from where it is drawn: bump")
    slides_down = reading("m", "How far it slides the other way: droop")
    throw = reading("rad", "How far a lever turns to each side")


class PartShape(Shape):
    """A part that goes with the engine, in the engine's own axes.

    Origin: where the crankshaft's line meets the rear face of the block; x forward along the
    crankshaft, y left, z up.
    """

    kind = choice("What it is", *PART_KINDS, usual="engine")
    separate = flag("Give it rows of its own in the table of clearances")


class LoftStation(Section):
    """One place along the car where the tape went across: half-widths over heights."""

    x = reading("m", "Place: forward of the front wheel centres is plus", least=None)
    heights = numbers("m", "Heights above the sill seam, rising", least=None)
    half = numbers("m", "Distance from the car's middle at each height, both sides alike")
    left = numbers("m", "The same on the left, where the sides differ")
    right = numbers("m", "The same on the right")


class Loft(Section):
    """Walls drawn straight from station to station: inner wings, rails, tunnel."""

    kind = choice("What it is", *KINDS, usual="fixed")
    roof = flag("Closed above at its highest points, as a tunnel is")
    stations = named(
        LoftStation, "Stations along the car, two or more, each with as many heights", least=2
    )
    doubt = reading("m", "How far the real wall may stand off from this one", least=None)
