"""The frame that stands for the body in sums: its template, sections, joints, own members."""

from __future__ import annotations

from drybuild.project.document import Mapping, Node
from drybuild.project.fields import choice, flag, reading, text, texts
from drybuild.project.groups import NamedField, named
from drybuild.project.reader import Reader
from drybuild.project.sections import Section, unknown_entry
from drybuild.tables.frame import TEMPLATES, sections

SHAPES = ("closed", "channel", "trough", "tube")
"""Shapes that a person can give a section."""


class FrameSection(Section):
    """A section as this car has it, where it differs from the template's."""

    shape = choice("What it is like: closed, open to one side or below, or a tube", *SHAPES)
    width = reading("m", "Width across, middle of wall to middle of wall; of a tube its diameter")
    height = reading("m", "Height, likewise; of a pillar its depth fore and aft")
    gauge = reading("m", "Thickness of its wall")
    doubler = reading("m", "Thickness of sheet welded on all round, inside or outside")
    wasted = reading("m", "Thickness that rust took off its wall, from both sides together")
    holes = reading("-", "Share of its wall that round holes cut away", most=0.49)
    slit = flag("Its seam is open along its length: rusted through, or never closed")


class FrameSectionsField(NamedField[FrameSection]):
    """Sections by name; one that no template has is a problem with a hint."""

    def read(self, node: Node, path: str, reader: Reader) -> dict[str, FrameSection] | None:
        """Return the sections that a template can have."""
        known = sections()
        for name, entry in node.entries.items() if isinstance(node, Mapping) else ():
            if name not in known:
                unknown_entry(reader, entry, f"{path}.{name}", known)
        found = super().read(node, path, reader)
        return found and {name: one for name, one in found.items() if name in known}


class FrameMember(Section):
    """A member that this car has beside the template's."""

    start = text("Place where it begins, such as toe or toe left")
    end = text("Place where it ends")
    section = choice("Which section it has", *sections(), usual="brace")
    one_side = flag("Only where it is named, not on the other side too")


class FramePlace(Section):
    """A place of one's own, or a template's place as it was measured on this car."""

    x = reading("m", "Forward of the front wheel centres; behind them it is negative", least=None)
    y = reading("m", "To the left of the middle; the right side is its mirror image")
    z = reading("m", "Over the sill seam", least=None)


class FrameModel(Section):
    """Beams and shear panels that stand for the body: a template fitted to this car."""

    template = choice("Which template stands for the body", *TEMPLATES)
    joint_rate = reading("N·m/rad", "Turning rate of one joint between members", typical=True)
    gauge_share = reading("-", "Walls of this car's sections over the template's", typical=True)
    section_share = reading(
        "-", "Stiffness by size of this car's sections over the template's", typical=True
    )
    sections = FrameSectionsField(FrameSection, "Sections that were measured, by name")
    warping_held = reading(
        "-", "Share of an open member's warping that its joints prevent", typical=True, most=1.0
    )
    mount_rate = reading("N/m", "Rate of one rubber body mount, upright", typical=True)
    mount_side_share = reading(
        "-", "Rate of a body mount sideways over its upright one", typical=True
    )
    mount_radius = reading("m", "Radius of a body mount's rubber", typical=True)
    places = named(FramePlace, "Places of one's own or as measured, by name")
    members = named(FrameMember, "Members beside the template's, by name")
    without = texts("Members and panels of the template that this car does not have")
