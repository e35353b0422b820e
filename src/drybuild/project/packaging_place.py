"""How far an engine may be put from its place in the file, and what else its place has to keep."""

from __future__ import annotations

from drybuild.project.fields import flag, reading, text, texts
from drybuild.project.groups import named, numbers, three_point
from drybuild.project.packaging_solids import PartShape
from drybuild.project.sections import Section
from drybuild.units import MONEY


class Drawn(Section):
    """Room to take a part of the engine out, in the engine's own axes."""

    of = text("Piece or part of the engine that comes out: starter motor, oil filter")
    along = numbers(
        "-", "Direction in which it comes out: x, y, z", count=3, least=None, exact=True
    )
    way = reading("m", "How far it is drawn before it is free")


class Package(Section):
    """Another way to equip an engine: headers, an accessory drive, a sump; a choice of its own."""

    taken = flag("It is the one that the engine carries now")
    instead_of = texts("Pieces that go for it: exhaust manifold, downpipe, alternator, sump bowl")
    parts = named(PartShape, "What it brings, in the engine's own axes")
    price = reading(MONEY, "Price with what is needed to fit it")
    fitting = three_point("s", "Owner's hours to fit it: least / likely / most")
    alters = texts("Areas of the car that it cuts or changes")


class OwnAlteration(Section):
    """What one's own knows better about an alteration than the typical table."""

    never = flag("It is out of the question")
    most = reading("m", "The most that it can be done by", exact=True)
    price = reading(MONEY, "What it costs, without one's own hours")
    fitting = three_point("s", "Owner's hours for it: least / likely / most")


class Placing(Section):
    """Where the engine may be put, as the search for its best place takes it."""

    along = reading("m", "How far forward or back of its place in the file", typical=True)
    across = reading("m", "How far to either side of it", typical=True)
    up = reading("m", "How far up or down", typical=True)
    nose_up_least = reading("rad", "Least tilt that lifts the nose", least=None, typical=True)
    nose_up_most = reading("rad", "Greatest tilt that lifts the nose", least=None, typical=True)
    yaw_most = reading("rad", "How far its nose may be turned aside in plan", typical=True)
    mount_reach = reading(
        "m", "How far new brackets carry each mount from where it is now", typical=True
    )
    support_reach = reading(
        "m", "How far the gearbox's support may be moved from where it is now", typical=True
    )
    pinion = numbers("m", "Middle of the rear joint at ride height: x, y, z", count=3, least=None)
    pinion_slope = reading("rad", "How much the pinion's shaft falls to the rear", least=None)
    most_front_share = reading("-", "Greatest share of the empty mass in front", most=1.0)
    drawn = named(Drawn, "Room to keep for parts that have to come out with the engine in place")
    alterations = named(OwnAlteration, "Own prices and bounds of alterations, by the table's name")
