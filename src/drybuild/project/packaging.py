"""The engine bay as a tape measure knows it: a few planes, a few boxes, the line of the bonnet.

Body axes: x forward from the front wheel centres, y to the left, z up from the sill seam.
"""

from __future__ import annotations

from drybuild.project.fields import choice, reading
from drybuild.project.groups import named
from drybuild.project.sections import Section


class Station(Section):
    """A place along the car where the underside of the bonnet was measured."""

    x = reading("m", "Place: forward of the front wheel centres is plus", least=None)
    height = reading("m", "Underside of the bonnet above the sill seam", least=None)


class BayBox(Section):
    """Something in the bay that stays where it is: steering column, servo, damper, tray."""

    kind = choice("What it is", "fixed", "steering", usual="fixed")
    rear = reading("m", "Its rear end, x", least=None)
    front = reading("m", "Its front end, x", least=None)
    right = reading("m", "Its right side, y: to the right is minus", least=None)
    left = reading("m", "Its left side, y", least=None)
    bottom = reading("m", "Its underside, z", least=None)
    top = reading("m", "Its top, z", least=None)


class EngineBox(Section):
    """An engine as a few boxes, and where its crankshaft is put.

    The nose is the foremost point that turns with the crankshaft; the outline counts from there.
    """

    length = reading("m", "Nose to the bell housing's face", typical=True)
    width = reading("m", "Greatest width with manifolds", typical=True)
    offset = reading(
        "m",
        "Middle of that width left of the crankshaft",
        least=None,
        typical=True,
    )
    height = reading("m", "Highest point above the crankshaft", typical=True)
    front_height = reading("m", "Highest point of its front part above the crankshaft, if lower")
    high_behind = reading("m", "Where the higher rear part begins, behind the nose")
    depth = reading("m", "Underside of the block below the crankshaft", typical=True)
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
    rock = reading("m", "Sideways movement of its top under torque, to each side", typical=True)


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
    engines = named(EngineBox, "Outline and place of each engine, by the name of its option")
