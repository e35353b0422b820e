"""Front and rear suspension and the dampers: rates and geometry as the catalogue gives them."""

from __future__ import annotations

from drybuild.project.fields import choice, reading
from drybuild.project.groups import part
from drybuild.project.linkage import Hardpoints, places
from drybuild.project.option import Option
from drybuild.project.sections import Section
from drybuild.tables.suspension import layouts, usual_layout


class CoilSpring(Section):
    """A coil spring by its dimensions."""

    wire_diameter = reading("m", "Diameter of the wire")
    mean_diameter = reading("m", "Diameter of the coil, middle of wire to middle of wire")
    active_coils = reading("-", "Coils that work; the seated ends do not")
    total_coils = reading("-", "All coils, ends included; else two more than work")
    coils_removed = reading("-", "Working coils that are cut off")
    free_length = reading("m", "Length without load")
    shear_modulus = reading("Pa", "Shear modulus of the wire", typical="spring_steel.shear_modulus")


class LeafSpring(Section):
    """A leaf spring by its dimensions."""

    leaves = reading("-", "Number of leaves", exact=True, least=1.0)
    leaf_width = reading("m", "Width of a leaf")
    leaf_thickness = reading("m", "Thickness of a leaf")
    front_length = reading("m", "From the front eye to the axle's seat")
    rear_length = reading("m", "From the axle's seat to the rear eye")
    stiffening = reading(
        "-", "Factor of the leaf ends and clamps", typical="leaf_spring.stiffening"
    )
    youngs_modulus = reading("Pa", "Young's modulus", typical="spring_steel.youngs_modulus")
    friction = reading(
        "-", "Force that the leaves' rubbing adds or takes, over the load",
        typical="leaf_spring.friction", most=0.9,
    )  # fmt: skip


class AirSpring(Section):
    """An air spring or a gas-filled unit."""

    area = reading("m²", "Effective area: force over gauge pressure")
    volume = reading("m³", "Gas standing, with its tank")
    area_slope = reading("m", "Growth of the effective area per shortening", least=None)
    exponent = reading("-", "1 for slow motion, 1.4 for quick", typical="air_spring.exponent")


class BumpStop(Section):
    """A bump stop of rubber or foam."""

    length = reading("m", "Free length that could be pressed to nothing")
    scale = reading("N", "Force scale: F = scale ((1 − x/length)^−exponent − 1)")
    exponent = reading("-", "How quickly it stiffens", typical="bump_stop.exponent", least=1.01)
    gap = reading("m", "Wheel travel before it touches")
    motion_ratio = reading("-", "Its compression over wheel travel; else that of the spring")


class TorsionBar(Section):
    """A torsion bar and its arm."""

    diameter = reading("m", "Diameter of the bar")
    bore = reading("m", "Bore of a tube")
    length = reading("m", "Working length, with about half of each taper")
    arm_length = reading("m", "From the bar to the point that carries the wheel")
    arm_angle = reading("rad", "Angle of the arm above level, standing", least=None)
    shear_modulus = reading("Pa", "Shear modulus", typical="spring_steel.shear_modulus")


class AntiRollBar(Section):
    """An anti-roll bar by its dimensions, or by its rate."""

    rate = reading("N/m", "Force at each end per travel of each end, ends moving opposite ways")
    motion_ratio = reading("-", "Travel of its end over travel of the wheel", typical=True)
    diameter = reading("m", "Diameter of the bar")
    bore = reading("m", "Bore of a tube")
    arm_length = reading("m", "Arm along the bar, bend to end")
    lever = reading("m", "Distance of the end from the line of the middle piece")
    centre_length = reading("m", "Middle piece between the bends")
    bush_spacing = reading("m", "Distance between its bushes on the body")
    bush_rate = reading("N/m", "Radial rate of one bush", typical="anti_roll_bar.bush_rate")
    line = places("Any bend: points [x, y, z] from its left end to the car's middle")
    bush_place = reading("m", "Distance of that bar's bush from the car's middle")
    shear_modulus = reading("Pa", "Shear modulus", typical="spring_steel.shear_modulus")
    youngs_modulus = reading("Pa", "Young's modulus", typical="spring_steel.youngs_modulus")


class Suspension(Option):
    """One end of the car's suspension: how it guides the wheels, and what it springs them with."""

    layout = choice("How the wheels are guided", *layouts())
    wheel_rate = reading("N/m", "Rate at each wheel, without the anti-roll bar and the tyre")
    spring_rate = reading("N/m", "Rate of each spring")
    motion_ratio = reading("-", "Spring travel over wheel travel", most=2.0)
    coil = part(CoilSpring, "Each coil spring by its dimensions")
    leaf = part(LeafSpring, "Each leaf spring by its dimensions")
    torsion_bar = part(TorsionBar, "Each torsion bar by its dimensions")
    air_spring = part(AirSpring, "Each air spring")
    bump_stop = part(BumpStop, "Each bump stop")
    spring_shear_limit = reading(
        "Pa", "Corrected shear that a coil may have at full bump",
        typical="suspension.spring_shear_limit",
    )  # fmt: skip
    seat_distance = reading("m", "Between the spring's seats at ride height as measured")
    packing = reading("m", "Spacer, or adjusted seat: thickness that it adds", least=None)
    lowering_block = reading("m", "Block between leaf and axle that lowers the body", least=None)
    shackle_change = reading("m", "How much longer the leaf's shackle is", least=None)
    body_frequency = reading("Hz", "Body on these springs, where no rate is known", typical=True)
    anti_roll_bar = part(AntiRollBar, "Its anti-roll bar, if there is one")
    bar_roll_stiffness = reading("N·m/rad", "Roll stiffness of its bar at the wheels", typical=True)
    spring_spacing = reading("m", "Distance between the springs of a rigid axle")
    roll_centre_height = reading("m", "Roll centre over the road, standing", least=None)
    camber_gain = reading("rad/m", "Camber that a wheel gains inwards per bump", least=None)
    roll_steer = reading("-", "Steer per roll, positive to understeer", least=None)
    unsprung_mass = reading("kg", "What moves with both wheels, wheels and brakes included")
    ride_height_change = reading("m", "How it raises (+) or lowers (-) the body", least=None)
    track_change = reading("m", "How it changes the track", least=None)
    bump_travel = reading("m", "Wheel travel left up to the stop, car empty", typical=True)
    droop_travel = reading("m", "Wheel travel down to full droop, car empty", typical=True)
    axle_load_limit = reading("kg", "Greatest load that the axle may carry")
    ball_joint_cone = reading(
        "rad", "How far a ball joint tilts from its standing place",
        typical="suspension.ball_joint_cone",
    )  # fmt: skip
    bush_cone = reading(
        "rad", "How far a bush tilts across its pin", typical="suspension.bush_cone"
    )
    shaft_joint_angle = reading(
        "rad", "How far a half-shaft's joint may bend", typical="suspension.shaft_joint_angle"
    )
    points = part(Hardpoints, "Where its joints are; its geometry then follows by itself")
    spring_on = choice(
        "What spring, damper and bar link stand on", "lower arm", "upper arm", "carrier"
    )


class FrontSuspension(Suspension):
    """Front suspension, with the geometry of the steered wheels."""

    layout = choice("How the wheels are guided", *layouts(), usual=usual_layout("front"))
    caster = reading("rad", "Caster, top of the steering axis rearward", typical=True, least=None)
    kingpin_inclination = reading("rad", "Steering axis inclination, top inward", typical=True)
    scrub_radius = reading(
        "m", "Tyre centre outside the axis at the road", typical=True, least=None
    )
    mechanical_trail = reading("m", "Axis ahead of the tyre centre at the road", typical=True)
    camber = reading("rad", "Static camber, top outward positive", typical=True, least=None)
    toe_in = reading("rad", "Toe-in of both wheels together", typical=True, least=None)


class RearSuspension(Suspension):
    """Rear suspension, live axle or independent."""

    layout = choice("How the wheels are guided", *layouts(), usual=usual_layout("rear"))
    camber = reading("rad", "Static camber, top outward positive", least=None)
    toe_in = reading("rad", "Toe-in of both wheels together", least=None)


class Dampers(Option):
    """Dampers of both ends; coefficients are the mean of bump and rebound at about 0.15 m/s."""

    front_damping = reading("N·s/m", "Coefficient of each front damper")
    rear_damping = reading("N·s/m", "Coefficient of each rear damper")
    front_motion_ratio = reading("-", "Front damper travel over wheel travel")
    rear_motion_ratio = reading("-", "Rear damper travel over wheel travel")
    rebound_over_bump = reading("-", "Rebound coefficient over that of bump", typical=True)
    knee_speed = reading("m/s", "Speed of the wheel at which the valves open", typical=True)
    beyond_knee = reading("-", "Slope beyond the knee over that below it", typical=True)
    front_damping_ratio = reading("-", "Damping as share of critical, front", typical=True)
    rear_damping_ratio = reading("-", "Damping as share of critical, rear", typical=True)
