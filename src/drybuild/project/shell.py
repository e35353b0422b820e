"""The carrying structure as it stands, what may strengthen it, and the glass set into it."""

from __future__ import annotations

from drybuild.project.by_choice import ReadingByChoice
from drybuild.project.fields import choice, flag, reading, text
from drybuild.project.groups import named, part, three_point
from drybuild.project.option import Option
from drybuild.project.readings import Origin, Reading
from drybuild.project.samples import Values
from drybuild.project.sections import Section
from drybuild.project.shell_frame import FrameModel
from drybuild.tables.frame import measures as frame_measures
from drybuild.tables.frame import sections as frame_sections
from drybuild.units import MONEY

WORKS = (
    "none",
    "connectors",
    "local strengthening",
    "bolt-in sub-frame",
    "bolt-on chassis",
    "roll bar",
    "other",
)
"""Kinds of reinforcement that a typical mass is known for, and the rest."""

NO_MASS = Reading(
    value=0.0, low=0.0, high=0.0, origin=Origin.HANDBOOK, text="0 kg", unit="kg", least=0.0
)


class Frame(Section):
    """Two rails with a cross-member at each end: a ladder frame in its simplest form."""

    length = reading("m", "Distance between the first and the last cross-member", typical=True)
    width = reading("m", "Distance between the rails", typical=True)
    rail_width = reading("m", "Width of a rail, middle of wall to middle of wall", typical=True)
    rail_height = reading("m", "Height of a rail, likewise", typical=True)
    rail_wall = reading("m", "Wall thickness of a rail", typical=True)
    cross_width = reading("m", "Width of a cross-member, likewise", typical=True)
    cross_height = reading("m", "Height of a cross-member, likewise", typical=True)
    cross_wall = reading("m", "Wall thickness of a cross-member", typical=True)
    open_rails = flag("The rails are channels, open on one side")
    open_cross_members = flag("The cross-members are channels, open on one side")


class Structure(Section):
    """How stiff the body is before anything is done to it."""

    torsional_stiffness = reading(
        "N·m/rad", "Torsional stiffness between the axle lines, before", typical=True
    )
    open_share = reading(
        "-", "Stiffness of an open body as a share of a closed one", typical=True, most=1.0
    )
    corner_load = reading("N", "Three-stand test: load put on the free corner")
    corner_track = reading("m", "Three-stand test: loaded corner to the held one, across the car")
    corner_deflection = reading("m", "Three-stand test: how far the free corner sank")
    joint_share = reading(
        "-", "Share of the sheet that welds and joints leave working", typical=True, most=1.0
    )
    cell_length = reading("m", "Length of the passenger cell, bulkhead to seat back", typical=True)
    cell_height = reading("m", "Height of the passenger cell, floor to roof", typical=True)
    panel_thickness = reading("m", "Thickness of the cell's sheet", typical=True)
    turning_share = reading(
        "-", "Share of the mass that turns with the shell in its first mode", typical=True, most=1.0
    )
    frame = part(Frame, "The ladder frame, where there is one")
    frame_model = part(FrameModel, "Beams and panels that stand for the body")


class Measure(Section):
    """One reinforcement of several that an option is made of."""

    kind = choice("What it is in the frame model; its own name will do", *frame_measures())
    start = text("Place in the frame model where a member of one's own begins")
    end = text("Place where that member ends")
    section = choice("Section of that member", *frame_sections(), usual="brace")
    gain = reading("-", "Stiffness it adds, as a share of the original", least=-1.0)
    added_stiffness = reading("N·m/rad", "Stiffness it adds", least=None)
    mass = reading("kg", "Mass it adds")
    price = reading(MONEY, "Price of it alone, where the option's price is that of several")
    fitting = three_point("s", "Hours to fit it alone: least / likely / most")


class ReinforcementMass(ReadingByChoice):
    """The option's mass: as given, else that of its measures, else typical for its work."""

    def take(self, section: Section) -> Values:
        """Return the mass by the first of these that is known."""
        if section.has(self.name) or not isinstance(section, Shell):
            return super().take(section)
        measures = section.measures
        if measures and all(one.has("mass") for one in measures.values()):
            return sum((one.mass for one in measures.values()), start=_nothing(section, self.name))
        if section.as_is or section.work == "none":
            return _nothing(section, self.name)
        return super().take(section)


def _nothing(section: Section, name: str) -> Values:
    return section.bench.take(f"{section.path_of(name)}.none", NO_MASS)


class Shell(Option):
    """What is done to the carrying structure: nothing, connectors, a sub-frame, a chassis."""

    work = choice("Kind of reinforcement", *WORKS, usual="other")
    mass = ReinforcementMass("kg", "Mass that the reinforcement adds", by="work")
    gain = reading("-", "Stiffness it adds, as a share of the original", least=-1.0)
    added_stiffness = reading("N·m/rad", "Stiffness it adds", least=None)
    measures = named(Measure, "Its single measures by name, where there are several")
    joint_force = reading("N", "Greatest force across its bolted joint, along the joint")
    bolts = reading("-", "Bolts in that joint", exact=True, least=1.0)
    bolt_thread = choice("Thread of those bolts", "M8", "M10", "M12")
    bolt_class = choice("Property class of those bolts", "8.8", "10.9")
    weld_force = reading("N", "Greatest force across its welded joint, along the weld")
    weld_length = reading("m", "Length of fillet weld in that joint")
    weld_leg = reading("m", "Leg of that weld", typical=True)
    weld_steel = choice("Steel of the parts welded", "S235", "S275", "S355", usual="S235")
    sheet_thickness = reading("m", "Thickness of the thinner sheet welded", typical=True)
    stress_range = reading("Pa", "Stress range that comes again and again at the weld")
    weld_detail = choice(
        "What the weld is like there",
        "cruciform toe",
        "transverse attachment",
        "weld root",
        usual="cruciform toe",
    )


class Glass(Option):
    """The fixed panes, and how they sit in the body."""

    mass = reading("kg", "Mass of all panes", typical=True)
    bead = choice("What holds the windscreen", "rubber", "urethane", usual="rubber")
    pane_width = reading("m", "Width of the windscreen", typical=True)
    pane_height = reading("m", "Height of the windscreen along the glass", typical=True)
    pane_thickness = reading("m", "Thickness of the windscreen", typical=True)
    bead_width = reading("m", "Width of the rubber or glue on the flange", typical=True)
    bead_gap = reading("m", "Thickness of the rubber or glue under the glass", typical=True)
    light_transmission = reading("-", "Share of light that the windscreen lets through", most=1.0)
