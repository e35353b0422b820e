"""Inside: seats, belts, roll bar, trim, and the room over the heads."""

from __future__ import annotations

from drybuild.project.fields import choice, flag, reading
from drybuild.project.option import Option
from drybuild.project.sections import Section


class Cabin(Section):
    """The room for the people."""

    headlining = reading("m", "Headlining over the floor, at the front seat", typical=True)
    floor_to_mount = reading("m", "Seat mounts over the floor", typical=True)


class Seats(Option):
    """The front seats with their runners."""

    mass = reading("kg", "Mass of all seats that the option changes", typical=True)
    mass_each = reading("kg", "Mass of one front seat with runners", typical=True)
    hip_height = reading("m", "Hip point over the seat's mounts, sat in", typical=True)
    mass_height = reading("m", "Centre of the seat's mass over its mounts", typical=True)
    mount_spacing = reading("m", "Front to rear mounts", typical=True)
    rear_mounts = reading("-", "Bolts in the rear row of one seat", typical=True, exact=True)
    bolt_thread = choice("Thread of the mount bolts", "M8", "M10", "M12")
    bolt_class = choice("Property class of the mount bolts", "8.8", "10.9")
    carries_belts = flag("Lap belts hang on the seat instead of the body")


class Belts(Option):
    """The belts of one front seat; places are counted from the seat's reference point."""

    mass = reading("kg", "Mass of all belts that the option changes", typical=True)
    kind = choice("Kind of belt", "lap", "three-point", "harness", usual="three-point")
    rule = choice("Rule to compare with", "r14", "fmvss", usual="r14")
    buckle_back = reading("m", "Buckle-side anchorage behind the reference point", least=None)
    buckle_down = reading("m", "Buckle-side anchorage below the reference point", least=None)
    outer_back = reading("m", "Outer anchorage behind the reference point", least=None)
    outer_down = reading("m", "Outer anchorage below the reference point", least=None)
    buckle_aside = reading("m", "Buckle-side anchorage from the seat's middle plane")
    outer_aside = reading("m", "Outer anchorage from the seat's middle plane")
    shoulder_back = reading("m", "Shoulder anchorage behind the reference point", least=None)
    shoulder_up = reading("m", "Shoulder anchorage above the reference point", least=None)
    shoulder_aside = reading("m", "Shoulder anchorage from the seat's middle plane")
    torso_angle = reading("rad", "Lean of the back behind the vertical", typical=True)
    strap_back = reading("m", "Harness: anchorage behind the strap's last contact")
    strap_down = reading("m", "Harness: anchorage below that contact", least=None)


class RollBar(Option):
    """A main hoop with its feet."""

    mass = reading("kg", "Mass of hoop, stays and feet", typical=True)
    outside_diameter = reading("m", "Outside diameter of the main hoop's tube", exact=True)
    wall = reading("m", "Wall of the main hoop's tube", exact=True)
    foot_area = reading("m²", "Area of one spread plate")
    foot_thickness = reading("m", "Thickness of the spread plates", exact=True)
    foot_bolts = reading("-", "Bolts in one foot", exact=True)


class Trim(Option):
    """Carpets, headlining, door cards, and what is laid against noise and heat."""

    mass = reading("kg", "Mass of all trim", typical=True)
    damping_area = reading("m²", "Area laid with damping sheet", typical=True)
    damping_weight = reading("kg/m²", "Damping sheet's mass per area", typical=True)
