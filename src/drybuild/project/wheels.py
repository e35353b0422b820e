"""Wheels as a person gives them."""

from __future__ import annotations

from drybuild.project.fields import choice, reading
from drybuild.project.option import Option
from drybuild.project.profiles import profile
from drybuild.tables.wheels import fastener_grades, fastener_threads


class Wheels(Option):
    """A set of four wheels; entries that begin with rear count where the rear ones differ."""

    diameter = reading("m", "Nominal diameter, as 15 in", typical=True, exact=True)
    rear_diameter = reading("m", "Nominal diameter of the rear wheels", exact=True)
    width = reading("m", "Nominal rim width between the flanges, as 6 in", typical=True, exact=True)
    rear_width = reading("m", "Rim width of the rear wheels", exact=True)
    offset = reading(
        "m",
        "From the rim's middle to the mounting face, positive outboard",
        typical=True,
        least=None,
    )
    rear_offset = reading("m", "Offset of the rear wheels", least=None)
    backspacing = reading("m", "From the mounting face to the inner edge, instead of the offset")
    rear_backspacing = reading("m", "Backspacing of the rear wheels")
    barrel_radius = reading("m", "Least inside radius of the barrel over the brake, measured")
    barrel = profile("Barrel's inside radius over the distance inboard of the mounting face")
    spokes = profile("Back of disc or spokes outboard of the mounting face, over the radius")
    spoke_setback = reading(
        "m", "Back of disc or spokes outboard of the mounting face", typical=True, least=None
    )
    spacer = reading("m", "Spacer between front hub and wheel")
    rear_spacer = reading("m", "Spacer between rear hub and wheel")
    well_depth = reading("m", "Depth of the drop centre below the bead seat", typical=True)
    wall_thickness = reading("m", "Thickness of the barrel at the drop centre", typical=True)
    load_rating = reading("kg", "Load that one wheel is rated for")
    fastener = choice("Thread of the wheel fasteners", *fastener_threads(), usual="M12x1.5")
    fastener_grade = choice("Strength of the fasteners", *fastener_grades(), usual="10.9")
    fastener_torque = reading("N·m", "Torque that they are tightened to")
    fastener_friction = reading("-", "Torque over preload times diameter, dry", typical=True)
    fastener_engagement = reading("m", "Length of thread that the nut or bolt takes hold of")
