"""The frame that stands for the body in sums: its template, sections, joints, own members."""

from __future__ import annotations

from drybuild.project.document import Mapping, Node
from drybuild.project.fields import choice, flag, reading, text, texts
from drybuild.project.groups import NamedField, named
from drybuild.project.reader import Reader
from drybuild.project.sections import Section, unknown_entry
from drybuild.tables.frame import TEMPLATES, sections


class FrameSection(Section):
    """A section as this car has it, where it differs from the template's."""

    width = reading("m", "Width across, middle of wall to middle of wall")
    height = reading("m", "Height, likewise; of a pillar its depth fore and aft")
    gauge = reading("m", "Thickness of its wall")
    slit = flag("Its seam is open along its length: rusted through, or an open channel")


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


class FrameModel(Section):
    """Beams and shear panels that stand for the body: a template fitted to this car."""

    template = choice("Which template stands for the body", *TEMPLATES)
    joint_rate = reading("N·m/rad", "Turning rate of one joint between members", typical=True)
    gauge_share = reading("-", "Walls of this car's sections over the template's", typical=True)
    section_share = reading(
        "-", "Stiffness by size of this car's sections over the template's", typical=True
    )
    sections = FrameSectionsField(FrameSection, "Sections that were measured, by name")
    members = named(FrameMember, "Members beside the template's, by name")
    without = texts("Members and panels of the template that this car does not have")
