"""From flywheel to driven wheels: gearbox, clutch, propshaft, axle."""

from __future__ import annotations

from drybuild.project.by_choice import reading_by
from drybuild.project.fields import choice, flag, reading
from drybuild.project.groups import numbers
from drybuild.project.option import Option


class Gearbox(Option):
    """A gearbox, with its torque converter if it is an automatic."""

    kind = choice("Kind of gearbox", "manual", "automatic", usual="manual")
    ratios = numbers("-", "Gear ratios, first gear first", exact=True)
    gears = reading_by("-", "Number of forward gears", by="kind", most=10.0)
    first_ratio = reading_by("-", "First gear, where the ratios are not given", by="kind")
    top_ratio = reading_by("-", "Top gear, where the ratios are not given", by="kind")
    transfer_ratio = reading("-", "Low range of a transfer box", exact=True, least=1.0)
    torque_rating = reading("N·m", "Engine torque that it is rated for")
    efficiency = reading_by("-", "Efficiency of the gearbox", by="kind", most=1.0)
    shift_time = reading_by("s", "Time without drive at an upshift", by="kind")
    stall_speed = reading("rad/s", "Stall speed of the torque converter with this engine")
    stall_torque_ratio = reading("-", "Torque ratio of the converter at stall", typical=True)
    coupling_ratio = reading(
        "-", "Speed ratio at which the converter couples", typical=True, most=0.98
    )


class Clutch(Option):
    """A dry plate clutch."""

    lining = choice("Lining of the driven plate", "organic", "sintered", usual="organic")
    friction = reading_by("-", "Friction coefficient of the lining", by="lining", most=1.0)
    plates = reading("-", "Driven plates", typical=True, exact=True, least=1.0, most=4.0)
    outer_diameter = reading("m", "Outer diameter of the lining", typical=True)
    inner_diameter = reading("m", "Inner diameter of the lining", typical=True)
    clamp_force = reading("N", "Force of the pressure plate", typical=True)
    torque_rating = reading("N·m", "Torque at which it slips, as its maker says")


class Propshaft(Option):
    """The shaft from gearbox to axle; its longest piece where it has two."""

    material = choice("Material of the tube", "steel", "aluminium", usual="steel")
    outside_diameter = reading("m", "Outside diameter of the tube", typical=True)
    wall = reading("m", "Wall of the tube", typical=True)
    length = reading("m", "Joint centre to joint centre, or to the bearing", typical=True)
    front_angle = reading("rad", "Angle of the front joint, seen from the side", typical=True)
    rear_angle = reading("rad", "Angle of the rear joint, seen from the side", typical=True)
    front_plan_angle = reading("rad", "Angle of the front joint, seen from above", typical=True)
    rear_plan_angle = reading("rad", "Angle of the rear joint, seen from above", typical=True)
    out_of_phase = flag("Its yokes stand a quarter turn apart")
    yield_strength = reading_by("Pa", "Yield strength of the tube", by="material")
    joint_rating = reading("N·m", "Torque that its joints are rated for")


class Axle(Option):
    """The driven axle, or both: final drive, differential, half-shafts."""

    driven = choice("Which wheels are driven", "rear", "front", "both", usual="rear")
    kind = choice(
        "Live axle, or differential fixed to the body", "live", "independent", usual="live"
    )
    final_drive = reading("-", "Final drive ratio", typical=True, exact=True)
    differential = choice(
        "Differential", "open", "limited slip", "torque biasing", "locked", usual="open"
    )
    bias_ratio = reading_by(
        "-", "Torque of the slower wheel over that of the faster", by="differential"
    )
    torque_rating = reading("N·m", "Torque at its wheels that it is rated for")
    efficiency = reading("-", "Efficiency of the final drive", typical=True, most=1.0)
    half_shaft_diameter = reading("m", "Least diameter of a half-shaft", typical=True)
    half_shaft_strength = reading("Pa", "Shear stress that a half-shaft stands", typical=True)
    front_roll_share = reading("-", "Front share of the roll stiffness", typical=True, most=1.0)
