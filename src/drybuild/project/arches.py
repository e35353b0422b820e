"""The room in the arches as the tape measured it: gaps as they are, or the arch itself.

Stations stand round the wheel's centre as the car stands at measuring, seen from its left side; y
counts outward from the car's middle plane. Either side's measures serve for both.
"""

from __future__ import annotations

from drybuild.project.fields import choice, reading, text
from drybuild.project.groups import named, part
from drybuild.project.linkage import TapeField, point
from drybuild.project.sections import Section
from drybuild.tables.suspension import layouts

DIRECTIONS = ("+x", "-x", "+y", "-y", "+z", "-z")


def _tape(words: str) -> TapeField:
    return TapeField("m", words, least=None)


class ArchStation(Section):
    """A place round the arch where the tape was held."""

    angle = reading(
        "rad", "Where it is round the wheel's centre: 0 ahead, 90 deg above", least=None, exact=True
    )
    lip = _tape("From the wheel's centre to the lip, in side view")
    x = _tape("Instead of angle and lip: the lip ahead of the wheel's centre")
    height = _tape("And the lip above the wheel's centre")
    outer = _tape("Lip's inner edge from the car's middle plane")
    fold = reading("m", "How far the lip's fold stands in from the wing's skin")
    inner = _tape("Inner guard from the car's middle plane, beside the tyre")
    ceiling = _tape("From the wheel's centre to the arch's inside above the lip")


class BesideWheel(Section):
    """Something beside the wheel: a rail, a spring or strut, a box; a round bar or a block."""

    follows = choice("What it moves with", "body", "wheel", "half way", usual="body")
    layout = choice(
        "Suspension layout that it is a part of: with another layout it is gone", *layouts()
    )
    start = point("Round bar: one end: ahead of the wheel's centre, from the middle plane, above")
    end = point("Round bar: its other end")
    diameter = reading("m", "Round bar: its diameter")
    rear = _tape("Block: its rear end, ahead of the wheel's centre is plus")
    front = _tape("Block: its front end")
    inner = _tape("Block: its inner side, from the car's middle plane")
    outer = _tape("Block: its outer side, from the car's middle plane")
    bottom = _tape("Block: its underside, above the wheel's centre is plus")
    top = _tape("Block: its top")


class ArchScan(Section):
    """A scan of the arch: a mesh in the build folder."""

    file = text("Name of the file: STL, OBJ or PLY")
    unit = choice("Unit of its numbers", "mm", "m", "in", usual="mm")
    centre = point("The wheel's centre in the scan's own axes")
    ahead = choice("Which way of the scan is ahead", *DIRECTIONS, usual="+x")
    up = choice("Which way of the scan is up", *DIRECTIONS, usual="+z")
    error = reading("m", "How far outward of the truth it may lie", typical=True, least=None)


class AxleArch(Section):
    """One axle's arch."""

    stations = named(ArchStation, "Places round the lip by names of your own, three or more")
    beside = named(BesideWheel, "What else the wheel must clear, by name")
    scan = part(ArchScan, "A scan of it")
    link_diameter = reading("m", "Diameter of the suspension's links", typical=True)

    @property
    def known(self) -> bool:
        """Whether the arch itself was measured, not only the gaps in it."""
        return bool(self.has("stations") or self.has("beside") or self.scan.has("file"))


class Arches(Section):
    """Room around the tyres as measured, and the wheels and tyres that stood there meanwhile."""

    front = part(AxleArch, "The front arch itself, by stations or scan")
    rear = part(AxleArch, "The rear arch itself, by stations or scan")
    front_inner_clearance = reading(
        "m", "Least gap from the front tyre's inner side, through its travel", typical=True
    )
    front_outer_clearance = reading(
        "m", "Least gap from the front tyre's outer side to the wing, through lock", typical=True
    )
    front_radial_clearance = reading(
        "m", "Least gap above the front tyre at full bump", typical=True
    )
    rear_inner_clearance = reading("m", "Least gap from the rear tyre's inner side", typical=True)
    rear_outer_clearance = reading("m", "Least gap from the rear tyre to its wing", typical=True)
    rear_radial_clearance = reading("m", "Least gap above the rear tyre at full bump", typical=True)
    rim_width = reading("m", "Rim width of the wheels at measuring", typical=True, exact=True)
    offset = reading("m", "Offset of those wheels", typical=True, least=None)
    section_width = reading("m", "Width of those tyres", typical=True)
    outside_diameter = reading("m", "Outside diameter of those tyres", typical=True)
