"""Seats, belts, roll bar and trim: angles, distances, forces, and room over the head."""

from __future__ import annotations

import numpy as np

from drybuild.errors import DoesNotApply
from drybuild.physics.cabin import (
    distance_behind_fk_r14,
    effective_headroom_sae_j1100,
    height_above_c_r14,
    mount_pull,
    roll_hoop_load,
    seat_test_force,
    strap_angle_below_level,
)
from drybuild.physics.cabin import (
    lap_belt_angle as angle_of_lap_belt,
)
from drybuild.physics.fastenings import bolt_tension_resistance, thread_stress_area
from drybuild.physics.sections import elastic_modulus, round_tube
from drybuild.project.cabin import Belts, Cabin, RollBar, Seats, Trim
from drybuild.project.option import ask_where_changed
from drybuild.project.samples import Values
from drybuild.quantities.quantity import Labelled, quantity
from drybuild.tables.cabin import belt_rule, roll_bar_tubes
from drybuild.tables.shell import bolt_class, bolt_thread
from drybuild.units import STANDARD_GRAVITY

SEAT_TEST_FACTOR = 20.0  # [-], UN R14 6.4 and 49 CFR 571.207 S4.2, from memory
HEADROOM_LINE = np.deg2rad(8.0)  # SAE J1100, H61, from memory
STEEL_DENSITY = 7850.0  # [kg/m³]
PARTIAL_FACTOR = 1.25  # γ_M2, EN 1993-1-8 table 2.1
CREW_MASS = 150.0  # [kg], Appendix J 253, from memory
HOOP_FACTOR = 7.5  # [daN/kg], Appendix J 253, from memory


@quantity("m", "Effective headroom in the front seats", source="sae-j1100", shown="mm")
def effective_headroom(cabin: Cabin, seats: Seats) -> Values:
    """Return the line from the hip to the headlining, 8° back, and 102 mm."""
    hip = cabin.floor_to_mount + seats.hip_height
    along = (cabin.headlining - hip) / np.cos(HEADROOM_LINE)
    return effective_headroom_sae_j1100(along_line=along)


@quantity("m", "Hip point above the floor", source="definition", shown="mm")
def hip_height(cabin: Cabin, seats: Seats) -> Values:
    """Return the height of the seat's mounts and of the hip over them."""
    return cabin.floor_to_mount + seats.hip_height


@quantity("N", "Forward test force on the mounts of one seat", source="fmvss-207", shown="kN")
def seat_mount_force(seats: Seats, belts: Belts) -> Values:
    """20 times the seat's weight; the lap belt's test force on top where it hangs on the seat."""
    force = seat_test_force(
        seat_mass=seats.mass_each, factor=SEAT_TEST_FACTOR, gravity=STANDARD_GRAVITY
    )
    if seats.carries_belts:
        return force + _lap_force(belts)
    return force


@quantity("N", "Pull on each rear bolt of a seat in the seat test", source="fmvss-207", shown="kN")
def seat_mount_pull(seats: Seats, belts: Belts) -> Values:
    """By moments about the front mounts; a belt on the seat pulls at the height of the hip."""
    own = seat_test_force(
        seat_mass=seats.mass_each, factor=SEAT_TEST_FACTOR, gravity=STANDARD_GRAVITY
    )
    moment = own * seats.mass_height
    if seats.carries_belts:
        moment = moment + _lap_force(belts) * seats.hip_height
    return mount_pull(
        force=moment, height=1.0, spacing=seats.mount_spacing, count=seats.rear_mounts
    )


@quantity("-", "Use of the seat's rear bolts in the seat test", source="en-1993-1-8", shown="%")
def seat_bolt_use(seat_mount_pull: Values, seats: Seats) -> Values:
    """Bolt alone; the floor it goes through is weaker and wants a spread plate."""
    given = seats.has("bolt_thread")
    ask_where_changed(seats, given=given, why="the seats stay as they are")
    diameter, pitch = bolt_thread(seats.bolt_thread)
    resistance = bolt_tension_resistance(
        stress_area=thread_stress_area(diameter=diameter, pitch=pitch),
        tensile_strength=bolt_class(seats.bolt_class).ultimate,
        partial_factor=PARTIAL_FACTOR,
    )
    return seat_mount_pull / resistance


@quantity("rad", "Angle of the lap belt above level", source="eec-76-115", per="side", shown="deg")
def lap_belt_angle(belts: Belts, seats: Seats) -> Labelled:
    """Return the side view angle from the reference point to each lower anchorage."""
    _changed(belts, seats)
    return {
        "buckle": angle_of_lap_belt(back=belts.buckle_back, down=belts.buckle_down),
        "outer": angle_of_lap_belt(back=belts.outer_back, down=belts.outer_down),
    }


@quantity("rad", "Flattest lap belt that the rule allows", source="un-r14", per="side", shown="deg")
def lap_belt_angle_least(belts: Belts) -> Labelled:
    """Return the lower bound of the rule that the belts are compared with."""
    return _lap_bounds(belts, 0)


@quantity("rad", "Steepest lap belt that the rule allows", source="un-r14", per="side", shown="deg")
def lap_belt_angle_most(belts: Belts) -> Labelled:
    """Return the upper bound of the rule that the belts are compared with."""
    return _lap_bounds(belts, 1)


@quantity("m", "Distance between the lower belt anchorages", source="eec-76-115", shown="mm")
def belt_anchorage_spacing(belts: Belts, seats: Seats) -> Values:
    """Return the two anchorages' distances from the middle plane together."""
    _changed(belts, seats)
    return belts.buckle_aside + belts.outer_aside


@quantity("m", "Least distance of lower anchorages by the rule", source="eec-76-115", shown="mm")
def belt_anchorage_spacing_least(belts: Belts) -> Values:
    """Return the bound of the rule that the belts are compared with."""
    return np.array([belt_rule(belts.rule, "lower spacing")[0]])


@quantity(
    "m",
    "Lower belt anchorage from the seat's middle plane",
    source="eec-76-115",
    per="side",
    shown="mm",
)
def belt_anchorage_aside(belts: Belts, seats: Seats) -> Labelled:
    """Return the sideways distance of each anchorage from the seat's middle."""
    _changed(belts, seats)
    return {"buckle": belts.buckle_aside, "outer": belts.outer_aside}


@quantity("m", "Shoulder anchorage from the seat's middle plane", source="eec-76-115", shown="mm")
def shoulder_anchorage_aside(belts: Belts, seats: Seats) -> Values:
    """Return the distance S of the regulation; 140 mm is the least."""
    return _with_shoulder(belts, seats).shoulder_aside


@quantity(
    "m",
    "Shoulder anchorage above the regulation's plane through C",
    source="eec-76-115",
    shown="mm",
)
def shoulder_anchorage_height(belts: Belts, seats: Seats) -> Values:
    """Return the height over C, which lies 450 mm above the reference point."""
    return height_above_c_r14(anchorage_up=_with_shoulder(belts, seats).shoulder_up)


@quantity(
    "m", "Shoulder anchorage behind the regulation's plane FK", source="eec-76-115", shown="mm"
)
def shoulder_anchorage_behind(belts: Belts, seats: Seats) -> Values:
    """Return the distance behind the plane that closes off the shoulder."""
    shoulder = _with_shoulder(belts, seats)
    return distance_behind_fk_r14(
        anchorage_back=shoulder.shoulder_back,
        anchorage_up=shoulder.shoulder_up,
        anchorage_aside=shoulder.shoulder_aside,
        torso_angle=shoulder.torso_angle,
    )


@quantity(
    "rad",
    "Angle of the harness straps below level, behind the seat",
    source="fia-appendix-j-loads",
    shown="deg",
)
def harness_strap_angle(belts: Belts) -> Values:
    """Return how steeply the straps fall to their anchorage behind the seat."""
    if belts.kind != "harness":
        raise DoesNotApply(belts.path_of("kind"), "the belt is no harness")
    return strap_angle_below_level(back=belts.strap_back, down=belts.strap_down)


@quantity("N", "Test force on each strap by the rule", source="un-r14", per="strap", shown="kN")
def belt_test_force(belts: Belts) -> Labelled:
    """Show what an approval pulls with; licensed practice says whether the body bears it."""
    if belts.kind == "lap":
        return {"lap": np.array([belt_rule(belts.rule, "lap only force")[0]])}
    force = np.array([belt_rule(belts.rule, "lap and shoulder force")[0]])
    return {"lap": force, "shoulder": force}


@quantity("m²", "Metal area of the main hoop's tube", source="thin-section-theory", shown="mm²")
def roll_bar_tube_area(roll_bar: RollBar) -> Values:
    """Return the cross-section of the metal."""
    return round_tube(outside_diameter=_hoop(roll_bar).outside_diameter, wall=roll_bar.wall).area


@quantity(
    "m³", "Section modulus of the main hoop's tube", source="thin-section-theory", shown="mm³"
)
def roll_bar_tube_modulus(roll_bar: RollBar) -> Values:
    """Return the elastic modulus that bending strength goes by."""
    tube = round_tube(outside_diameter=_hoop(roll_bar).outside_diameter, wall=roll_bar.wall)
    return elastic_modulus(
        second_moment=tube.second_moment_upright, depth=roll_bar.outside_diameter
    )


@quantity("kg/m", "Mass of the main hoop's tube by length", source="definition")
def roll_bar_tube_weight(roll_bar_tube_area: Values) -> Values:
    """Return area times the density of steel."""
    return roll_bar_tube_area * STEEL_DENSITY


@quantity(
    "-", "Main hoop's section modulus over the weakest tube listed", source="fia-appendix-j-253"
)
def roll_bar_tube_share(roll_bar_tube_modulus: Values) -> Values:
    """Compare bending strength with the listed tubes, for the same steel."""
    listed = []
    for diameter, wall in roll_bar_tubes("main hoop"):
        tube = round_tube(outside_diameter=diameter, wall=wall)
        listed.append(
            float(elastic_modulus(second_moment=tube.second_moment_upright, depth=diameter))
        )
    return roll_bar_tube_modulus / min(listed)


@quantity(
    "N", "Load that a main hoop is homologated for", source="fia-appendix-j-loads", shown="kN"
)
def roll_hoop_test_load(kerb_mass: Values) -> Values:
    """Return the load on car and crew that a homologation asks for."""
    return roll_hoop_load(car_mass=kerb_mass, crew_mass=CREW_MASS, factor=HOOP_FACTOR)


@quantity("m²", "Area of a roll bar's spread plate", source="the-build-file", shown="cm²")
def roll_bar_foot_area(roll_bar: RollBar) -> Values:
    """Return the area as given; 120 cm² is the least listed."""
    return _hoop(roll_bar).foot_area


@quantity("m", "Thickness of a roll bar's spread plate", source="the-build-file", shown="mm")
def roll_bar_foot_thickness(roll_bar: RollBar) -> Values:
    """Return the thickness as given; 3 mm is the least listed."""
    return _hoop(roll_bar).foot_thickness


@quantity("-", "Bolts in a roll bar's foot", source="the-build-file")
def roll_bar_foot_bolts(roll_bar: RollBar) -> Values:
    """Return the bolts as given; three M8 8.8 are the least listed."""
    return _hoop(roll_bar).foot_bolts


@quantity("kg", "Mass of damping sheet", source="definition")
def damping_mass(trim: Trim) -> Values:
    """Return area times mass per area."""
    return trim.damping_area * trim.damping_weight


def _lap_force(belts: Belts) -> float:
    item = "lap only force" if belts.kind == "lap" else "lap and shoulder force"
    return belt_rule(belts.rule, item)[0]


def _lap_bounds(belts: Belts, end: int) -> Labelled:
    found: Labelled = {}
    for side in ("buckle", "outer"):
        item = "lap angle" if belts.rule == "fmvss" else f"lap angle {_R14_SIDES[side]}"
        bound = belt_rule(belts.rule, item)[end]
        found[side] = np.array([np.nan if bound is None else bound])
    return found


_R14_SIDES = {"buckle": "buckle", "outer": "other"}


def _changed(belts: Belts, seats: Seats) -> None:
    """Ask where belts or seats change, or the places are given anyway; places are never assumed."""
    given = any(belts.has(one) for one in ("buckle_back", "outer_back", "buckle_aside"))
    ask_where_changed(belts, seats, given=given, why="seats and belts stay as they are")


def _with_shoulder(belts: Belts, seats: Seats) -> Belts:
    if belts.kind != "three-point":
        why = f"a {belts.kind} belt has no shoulder anchorage of this kind"
        raise DoesNotApply(belts.path_of("kind"), why)
    _changed(belts, seats)
    return belts


def _hoop(roll_bar: RollBar) -> RollBar:
    given = roll_bar.has("outside_diameter")
    ask_where_changed(roll_bar, given=given, why="there is no roll bar")
    return roll_bar
