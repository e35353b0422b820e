"""Front and rear suspension and the dampers: rates and geometry as the catalogue gives them."""

from __future__ import annotations

from drybuild.project.fields import choice, reading
from drybuild.project.groups import part
from drybuild.project.linkage import Hardpoints
from drybuild.project.option import Option
from drybuild.project.sections import Section
from drybuild.tables.suspension import layouts, usual_layout


class CoilSpring(Section):
    """A coil spring by its dimensions."""

    wire_diameter = reading("m", "Diameter of the wire")
    mean_diameter = reading("m", "Diameter of the coil, middle of wire to middle of wire")
    active_coils = reading("-", "Coils that work; the seated ends do not")
    coils_removed = reading("-", "Working coils that are cut off")
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


class Dampers(Option):
    """Dampers of both ends; coefficients are the mean of bump and rebound at about 0.15 m/s."""

    front_damping = reading("N·s/m", "Coefficient of each front damper")
    rear_damping = reading("N·s/m", "Coefficient of each rear damper")
    front_motion_ratio = reading("-", "Front damper travel over wheel travel")
    rear_motion_ratio = reading("-", "Rear damper travel over wheel travel")
    front_damping_ratio = reading("-", "Damping as share of critical, front", typical=True)
    rear_damping_ratio = reading("-", "Damping as share of critical, rear", typical=True)
