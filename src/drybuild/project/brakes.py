"""Brakes as a person gives them: each axle's brakes, the hydraulics, the parking brake."""

from __future__ import annotations

from drybuild.project.by_choice import reading_by
from drybuild.project.fields import choice, flag, reading
from drybuild.project.option import Option
from drybuild.project.profiles import profile
from drybuild.tables.brakes import fluids, linings

DRUMS = ("simplex", "duplex", "duo-servo")
"""Drum brakes: one leading shoe, two leading shoes, or one shoe that pushes the other."""
KINDS = ("disc", *DRUMS)


class AxleBrakes(Option):
    """The two brakes of one axle."""

    kind = choice("Kind of brake: disc, or drum by its shoes", *KINDS, usual="disc")
    rotor_diameter = reading_by(
        "m", "Outside diameter of the disc, or inside diameter of the drum", by="kind"
    )
    pad_height = reading("m", "Height of the disc pad, radially", typical=True)
    effective_radius = reading("m", "Radius at which the pads act, where it is known")
    piston_diameter = reading_by("m", "Caliper piston, or wheel cylinder, diameter", by="kind")
    pistons = reading(
        "-", "Pistons on one side of the disc; one for a sliding caliper", typical=True, exact=True
    )
    caliper_kind = choice(
        "Kind of caliper: it slides after the disc, or it is fixed and has pistons on both sides",
        "sliding",
        "fixed",
        usual="sliding",
    )
    knock_back = reading(
        "m", "Fixed caliper: how far a wobbling disc pushes the pads back, both together"
    )
    pad_area = reading("m²", "Area of one disc pad's lining", typical=True)
    friction = reading_by("-", "Friction coefficient of the linings", by="kind", most=1.5)
    brake_factor = reading("-", "Drum's drag over the force of one piston, where it is known")
    shoe_actuation = reading(
        "-",
        "Drum: arm of the actuating force about the shoe's pivot, over the drum's radius",
        typical=True,
    )
    shoe_normal = reading("-", "Drum: arm of the normal force, over the radius", typical=True)
    shoe_friction = reading("-", "Drum: arm of the friction force, over the radius", typical=True)
    shoes = choice(
        "Drum: the shoes' heels float on an abutment and find their place, or turn on a pin",
        "floating",
        "pinned",
        usual="floating",
    )
    lining_arc = reading("rad", "Drum: angle that the lining of one shoe spans", typical=True)
    threshold_pressure = reading_by(
        "Pa", "Pressure that seals and springs take before the brake bites", by="kind"
    )
    take_up = reading_by("m", "Travel of each piston before the lining touches", by="kind")
    compliance = reading_by("m", "Travel of each piston by give, at 100 bar", by="kind")
    lining = choice("Kind of lining", *linings(), usual="organic pad")
    fade_resistance = reading(
        "-",
        "How well the lining keeps its friction hot: 0 as the worst of its kind, 1 as the best",
        typical=True,
        most=1.0,
    )
    lining_width = reading("m", "Drum: width of the linings", typical=True)
    outer_radius = reading(
        "m", "Largest radius of the brake from the hub's axis, where the wheel turns over it"
    )
    caliper_outline = profile(
        "Caliper's outer radius over the distance inboard of the wheel's face"
    )
    rotor_mass = reading_by("kg", "Mass of one disc's ring, or of one drum", by="kind")
    specific_heat = reading("J/(kg·K)", "Specific heat of the rotor", typical=True)
    heat_share = reading_by("-", "Share of the heat that goes to the rotor", by="kind", most=1.0)
    cooling_area = reading_by("m²", "Surface of one rotor that the air cools", by="kind")
    convection = reading_by("W/(m²·K)", "Convection on that surface at 100 km/h", by="kind")
    slow_convection = reading(
        "W/(m²·K)", "Convection at the descent's speed, where it is known by trial"
    )
    emissivity = reading("-", "Emissivity of the rotor's outside", typical=True, most=1.0)
    hub_conductance = reading(
        "W/K", "Heat that a rotor passes to its hub for each kelvin above the air", typical=True
    )
    caliper_bridge = reading("m", "How far the caliper stands out beyond the disc", typical=True)
    drum_wall = reading("m", "How far the drum's shell stands out beyond its inside", typical=True)


class FrontBrakes(AxleBrakes):
    """The front axle's brakes."""


class RearBrakes(AxleBrakes):
    """The rear axle's brakes."""

    kind = choice("Kind of brake: disc, or drum by its shoes", *KINDS, usual="simplex")


class BrakeHydraulics(Option):
    """From the pedal to the brakes: pedal, servo, master cylinder, valve, hoses, fluid."""

    booster = choice(
        "Help for the foot: none, vacuum servo, hydraulic servo, or electric servo",
        "none",
        "vacuum",
        "hydraulic",
        "electric",
        usual="none",
    )
    pedal_ratio = reading_by("-", "Travel of the pad over travel of the rod", by="booster")
    pedal_stroke = reading("m", "Travel of the pedal before it meets the floor", typical=True)
    free_play = reading("m", "Travel of the pad before the rod moves the piston", typical=True)
    pedal_stiffness = reading(
        "N/m", "Foot force for each metre that pedal and bulkhead give, where it is known"
    )
    master_cylinder_bore = reading_by("m", "Bore of the master cylinder", by="booster")
    chamber_stroke = reading(
        "m", "Travel of one chamber's piston of a tandem cylinder, to its stop", typical=True
    )
    efficiency = reading("-", "Of pedal, seals and cylinders together", typical=True, most=1.0)
    booster_diameter = reading("m", "Effective diameter of the vacuum servo", typical=True)
    booster_rod = reading("m", "Diameter of the rod through its diaphragm", typical=True)
    booster_diaphragms = reading("-", "Diaphragms in tandem", typical=True, exact=True)
    booster_gain = reading("-", "Servo's output over its input", typical=True, least=1.0)
    booster_efficiency = reading("-", "Efficiency of the vacuum servo", typical=True, most=1.0)
    vacuum = reading("Pa", "Depression that the engine gives it", typical=True, most=101e3)
    booster_assist = reading("N", "Greatest help of a hydraulic or electric servo", typical=True)
    circuits = choice(
        "How the circuits are split: not at all, by axle, crosswise, each with half the front "
        "pistons and one rear wheel, or half the front pistons each and one with the rear",
        "single",
        "front and rear",
        "diagonal",
        "front halves and a rear wheel each",
        "front halves, one with the rear",
        usual="front and rear",
    )
    valve = choice(
        "Kind of rear valve: a fixed knee, a knee that follows the rear load, or one that comes at "
        "a deceleration",
        "fixed",
        "load-sensing",
        "deceleration-sensing",
        usual="fixed",
    )
    valve_knee = reading(
        "Pa", "Pressure at which a valve begins to hold the rear back, at kerb weight"
    )
    laden_valve_knee = reading("Pa", "Load-sensing valve: that pressure in the laden car")
    valve_slope = reading("-", "Share of a further rise that the valve lets through", most=1.0)
    hose_length = reading("m", "Free length of all flexible hoses together", typical=True)
    hose_bore = reading("m", "Bore of the flexible hoses", typical=True, exact=True)
    low_expansion = flag("The hoses are of the low-expansion kind")
    hose_share = reading(
        "-", "Swelling of the hoses over the most that the standard allows", typical=True, most=1.0
    )
    filling = reading("m³", "Fluid in the pressurised parts", typical=True)
    bulk_modulus = reading("Pa", "Stiffness of the fluid as filled", typical=True)
    air = reading("m³", "Air left in the system after bleeding, where a trial has shown it")
    residual_pressure = reading("Pa", "Pressure that a residual valve keeps in the drums' line")
    fluid = choice("Kind of brake fluid", *fluids(), usual="DOT 4")
    fluid_heat_share = reading(
        "-", "Rise of the fluid in the caliper over the rise of the rotor", typical=True, most=1.0
    )
    delay = reading("s", "Full-speed travel that build-up of a stop is worth", typical=True)


class ParkingBrake(Option):
    """The parking brake, which works on the rear wheels."""

    kind = choice(
        "What the lever works: the rear drums' shoes, the rear calipers, drums in the discs, or "
        "one drum on the transmission",
        "rear drums",
        "rear calipers",
        "drums in discs",
        "transmission drum",
        usual="rear drums",
    )
    lever_ratio = reading("-", "Travel of the grip over travel of the cable", typical=True)
    lever_length = reading("m", "From the lever's pivot to the middle of the grip")
    lever_arm = reading("m", "From the lever's pivot to the line of the cable's pull")
    cable_efficiency = reading("-", "Efficiency of cables and equaliser", typical=True, most=1.0)
    brake_ratio = reading_by("-", "Actuating force over cable force, at the brake", by="kind")
    friction = reading("-", "Friction of the parking linings, where it is another")
    drum_diameter = reading(
        "m",
        "Inside diameter of the drums in the discs, or of the transmission's drum",
        typical=True,
    )
    hand_force = reading("N", "Force on the grip that may be asked", typical=True)
