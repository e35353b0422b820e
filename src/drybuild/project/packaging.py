"""The engine bay as a tape measure knows it: a few planes, a few boxes, the line of the bonnet.

Body axes: x forward from the front wheel centres, y to the left, z up from the sill seam.
"""

from __future__ import annotations

from drybuild.project.by_choice import reading_by
from drybuild.project.fields import choice, reading
from drybuild.project.groups import named, part
from drybuild.project.packaging_place import Package, Placing
from drybuild.project.packaging_solids import Loft, PartShape, Standing
from drybuild.project.sections import Section


class Station(Section):
    """A place along the car where the underside of the bonnet was measured."""

    x = reading("m", "Place: forward of the front wheel centres is plus", least=None)
    height = reading("m", "Underside of the bonnet above the sill seam, in the middle", least=None)
    drop = reading("m", "How much lower it is at its sides")


class BayBox(Section):
    """Something in the bay that stays where it is: steering column, servo, damper, tray."""

    kind = choice("What it is", "fixed", "steering", usual="fixed")
    rear = reading("m", "Its rear end, x", least=None)
    front = reading("m", "Its front end, x", least=None)
    right = reading("m", "Its right side, y: to the right is minus", least=None)
    left = reading("m", "Its left side, y", least=None)
    bottom = reading("m", "Its underside, z", least=None)
    top = reading("m", "Its top, z", least=None)


FORMS = (
    "outline", "inline four", "inline six", "V6", "V8", "flat four", "rotary", "electric motor",
)  # fmt: skip
"""Shapes of an engine: plain boxes, or the usual shape of its kind."""


class EngineBox(Section):
    """An engine's shape by a few dimensions, and where its crankshaft is put.

    The nose is the foremost point that turns with the crankshaft; the outline counts from there.
    Its parts count from the rear face of the block (see `PartShape`).
    """

    form = choice("Kind of engine whose usual shape is taken", *FORMS, usual="outline")
    heads = choice(
        "Its heads: pushrods or one camshaft, or two camshafts", "narrow", "wide", usual="narrow"
    )
    exhaust = choice("Side of the exhaust, where it has one", "right", "left", usual="right")
    length = reading_by("m", "Nose to the bell housing's face", by="form")
    width = reading_by("m", "Greatest width with manifolds", by="form")
    offset = reading(
        "m",
        "Middle of that width left of the crankshaft",
        least=None,
        typical=True,
    )
    height = reading_by("m", "Highest point above the crankshaft", by="form")
    front_height = reading("m", "Highest point of its front part above the crankshaft, if lower")
    high_behind = reading("m", "Where the higher rear part begins, behind the nose")
    depth = reading(
        "m",
        "Underside of the block, and of the sump's shallow part, below the crankshaft",
        typical=True,
    )
    sump_depth = reading("m", "Sump's underside below the crankshaft", typical=True)
    sump_width = reading("m", "Width of the sump and the lower block", typical=True)
    sump_front = reading("m", "Front of the sump's bowl behind the nose", typical=True)
    sump_rear = reading("m", "Rear of the sump's bowl behind the nose", typical=True)
    bell_length = reading("m", "Length of bell housing and gearbox front", typical=True)
    bell_width = reading("m", "Greatest width of the bell housing", typical=True)
    bell_height = reading("m", "Top of the bell housing above the crankshaft", typical=True)
    nose = reading("m", "Place of the nose, x", least=None, typical=True)
    crank_height = reading(
        "m",
        "Crankshaft at the nose above the sill seam, z",
        least=None,
        typical=True,
    )
    crank_offset = reading("m", "Crankshaft left of the car's middle, y", least=None, typical=True)
    nose_up = reading("rad", "Tilt that lifts the nose", least=None, typical=True)
    lean = reading("rad", "Lean of its top to the left", least=None)
    yaw = reading("rad", "Turn of its nose to the left, in plan", least=None)
    rock = reading("m", "Sideways movement of its top under torque, to each side", typical=True)
    shape_doubt = reading(
        "m",
        "How far the real skin may stand out of the usual shape; not asked of plain boxes",
        least=None,
        typical=True,
    )
    parts = named(PartShape, "Parts of its own in its own axes: headers, alternator, sump, servo")
    packages = named(Package, "Other headers, accessory drives, sumps that can be had for it")


class GearboxBox(Section):
    """A gearbox by a few dimensions, counted back from the rear face of the block."""

    front = reading("m", "Where its case begins behind the block's rear face")
    rear = reading("m", "Where its tail ends behind the block's rear face")
    width = reading("m", "Greatest width of its case")
    height = reading("m", "Top of its case above the crankshaft's line")
    depth = reading("m", "Underside of its case below the crankshaft's line")
    tail_width = reading("m", "Width and height of its tail housing")
    tail_length = reading("m", "Length of its tail housing")
    parts = named(PartShape, "Further parts in the same axes: transfer case, lever, support")


class NeededRoom(Section):
    """Room that a person wants to keep in place of the trade's figure."""

    room = reading("m", "Room to keep", exact=True)


class Bay(Section):
    """The room for the engine."""

    bulkhead = reading(
        "m", "Bulkhead's foremost face behind the engine, x", least=None, typical=True
    )
    radiator = reading("m", "Rear face of the radiator or its fan, x", least=None, typical=True)
    tower_width = reading("m", "Between the towers or inner wings, above the rails", typical=True)
    rail_width = reading("m", "Between the chassis rails", typical=True)
    rail_top = reading("m", "Top of the rails, z", least=None, typical=True)
    crossmember_front = reading("m", "Front of the cross-member, x", least=None, typical=True)
    crossmember_rear = reading("m", "Rear of the cross-member, x", least=None, typical=True)
    crossmember_top = reading(
        "m", "Top of the cross-member under the engine, z", least=None, typical=True
    )
    tunnel_width = reading("m", "Width inside the tunnel at its mouth", typical=True)
    tunnel_top = reading("m", "Underside of the tunnel at its mouth, z", least=None, typical=True)
    bonnet_front = reading(
        "m", "Underside of the bonnet over the radiator, z", least=None, typical=True
    )
    bonnet_rear = reading(
        "m", "Underside of the bonnet over the bulkhead, z", least=None, typical=True
    )
    bonnet = named(Station, "The bonnet's underside at places of your own, two or more")
    boxes = named(BayBox, "What else stands in the bay, by name")
    bonnet_width = reading("m", "Width of the bonnet's underside", typical=True)
    hinge_x = reading(
        "m", "The bonnet's hinge, x; ahead of the engine if it opens forwards", least=None
    )
    hinge_z = reading("m", "The bonnet's hinge, z", least=None)
    opens = reading("rad", "How far the bonnet opens", typical=True)
    solids = named(Standing, "What else stands round the engine, by name: boxes to meshes")
    lofts = named(
        Loft,
        "Walls from tape stations, by name; tower, rail and tunnel stand in for the plain ones",
    )
    engines = named(EngineBox, "Shape and place of each engine, by the name of its option")
    gearboxes = named(GearboxBox, "Shape of each gearbox, by the name of its option")
    placing = part(Placing, "How far the engine may be put from its place, and what it has to keep")
    needs = named(
        NeededRoom,
        "Room of your own in place of the trade's, by kind (steering, hot) or by name (left tower)",
    )
