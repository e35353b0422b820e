"""Wheels: where they put the tyres, what room they leave for the brakes, and their fasteners."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from drybuild.errors import DoesNotApply, MissingInput, TableError
from drybuild.physics import wheels as physics
from drybuild.physics.envelope.barrel import barrel_gap
from drybuild.physics.fastenings import thread_stress_area
from drybuild.physics.tyre_sizes import INCH, tyre_size
from drybuild.project.arches import Arches
from drybuild.project.brakes import AxleBrakes, FrontBrakes, RearBrakes
from drybuild.project.option import Option, ask_where_changed
from drybuild.project.samples import Values
from drybuild.project.suspension import FrontSuspension, RearSuspension
from drybuild.project.tyres import Tyres
from drybuild.project.wheels import Wheels
from drybuild.quantities.axles import FRONT, REAR, both_axles, constant, each_axle
from drybuild.quantities.quantity import Labelled, quantity, step
from drybuild.tables import wheels as tables


@dataclass(frozen=True, kw_only=True)
class MeasuredFit:
    """The wheels and tyres that the gaps in the arches were measured with."""

    offset: Labelled
    section_width: Labelled
    outside_diameter: Labelled


LEAST_ROTOR_CLEARANCE = 0.003  # [m], common practice, no source; flex comes on top


@quantity("m", "Nominal diameter of the wheel", per="axle", source="iso-4000-2", shown="in")
def wheel_diameter(wheels: Wheels, tyres: Tyres) -> Labelled:
    """As given; else the one that the tyres' size names; else a usual whole number of inches."""
    if wheels.has("diameter"):
        return both_axles(wheels, "diameter")
    if tyres.has("size"):
        front = constant(tyre_size(text=tyres.size).rim_code * INCH)
        rear = tyres.rear_size if tyres.has("rear_size") else tyres.size
        return {FRONT: front, REAR: constant(tyre_size(text=rear).rim_code * INCH)}
    usual = np.round(wheels.diameter / INCH) * INCH
    return {FRONT: usual, REAR: usual}


@quantity("m", "Width of the rim", per="axle", source="the-build-file", shown="in")
def wheel_width(wheels: Wheels) -> Labelled:
    """Between the flanges."""
    return both_axles(wheels, "width")


@quantity("m", "Offset of the wheel", per="axle", source="the-build-file", shown="mm")
def wheel_offset(wheel_width: Labelled, wheels: Wheels) -> Labelled:
    """From the rim's middle to the hub's face, spacers taken off; positive outboard."""
    offset = _own_offset(wheel_width, wheels)
    front = wheels.spacer if wheels.has("spacer") else constant(0.0)
    rear = wheels.rear_spacer if wheels.has("rear_spacer") else constant(0.0)
    return {FRONT: offset[FRONT] - front, REAR: offset[REAR] - rear}


@quantity("m", "Backspacing of the wheel", per="axle", source="common-practice", shown="mm")
def backspacing(wheel_width: Labelled, wheels: Wheels) -> Labelled:
    """From the wheel's mounting face to its inner edge."""
    offset = _own_offset(wheel_width, wheels)
    return each_axle(
        lambda axle: physics.backspacing(
            rim_width=wheel_width[axle],
            offset=offset[axle],
            flange_thickness=physics.FLANGE_THICKNESS,
        )
    )


@step("What stood in the arches when they were measured", source="the-build-file")
def measured_fit(
    arches: Arches,
    wheels: Wheels,
    tyres: Tyres,
    wheel_width: Labelled,
    wheel_offset: Labelled,
    tyre_section_width: Labelled,
    tyre_outside_diameter: Labelled,
) -> MeasuredFit:
    """As given; the car's own wheels and tyres, where those stay on; else usual ones."""

    def stood(name: str, fitted: Labelled) -> Labelled:
        if tyres.unknown or (tyres.as_is and not arches.has(name)):
            return fitted
        usual: Values = getattr(arches, name)
        return {FRONT: usual, REAR: usual}

    return MeasuredFit(
        offset=_measured_offset(arches, wheels, wheel_width, wheel_offset),
        section_width=stood("section_width", tyre_section_width),
        outside_diameter=stood("outside_diameter", tyre_outside_diameter),
    )


@quantity("m", "Change of track", per="axle", source="definition", shown="mm")
def track_change(
    wheel_width: Labelled, wheel_offset: Labelled, arches: Arches, wheels: Wheels
) -> Labelled:
    """Against the wheels that the car stood on when its tracks were measured."""
    measured = _measured_offset(arches, wheels, wheel_width, wheel_offset)
    return each_axle(
        lambda axle: physics.track_change(
            old_offset=measured[axle],
            new_offset=wheel_offset[axle],
            spacer=0.0,
        )
    )


@quantity("m", "Gap on the tyre's inner side", per="axle", source="definition", shown="mm")
def wheel_inner_clearance(
    tyre_section_width: Labelled, wheel_offset: Labelled, measured_fit: MeasuredFit, arches: Arches
) -> Labelled:
    """Keep what is left of the measured gap to suspension and body, through the travel."""
    moves = _lip_moves(physics.inner_lip_move, measured_fit, tyre_section_width, wheel_offset)
    measured = _measured(arches, "inner_clearance")
    return each_axle(lambda axle: measured[axle] - moves[axle])


@quantity("m", "Gap on the tyre's outer side", per="axle", source="definition", shown="mm")
def wheel_outer_clearance(
    tyre_section_width: Labelled, wheel_offset: Labelled, measured_fit: MeasuredFit, arches: Arches
) -> Labelled:
    """Keep what is left of the measured gap to the wing, through bump and lock."""
    moves = _lip_moves(physics.outer_lip_move, measured_fit, tyre_section_width, wheel_offset)
    measured = _measured(arches, "outer_clearance")
    return each_axle(lambda axle: measured[axle] - moves[axle])


@quantity("m", "Gap above the tyre at full bump", per="axle", source="definition", shown="mm")
def wheel_radial_clearance(
    tyre_outside_diameter: Labelled, measured_fit: MeasuredFit, arches: Arches
) -> Labelled:
    """Keep what is left of the gap; the bump stop leaves the wheel's centre where it was."""
    measured = _measured(arches, "radial_clearance")
    return each_axle(
        lambda axle: (
            measured[axle]
            - (tyre_outside_diameter[axle] - measured_fit.outside_diameter[axle]) / 2.0
        )
    )


@quantity("m", "Diameter of the bead seat", per="axle", source="iso-4000-2", shown="mm")
def bead_seat_diameter(wheel_diameter: Labelled) -> Labelled:
    """Of a 5 degree drop-centre rim."""
    return each_axle(lambda axle: _by_code(wheel_diameter[axle], tables.bead_seat_diameter))


@quantity("m", "Largest disc inside the wheel", per="axle", source="common-practice", shown="mm")
def largest_rotor_inside_wheel(
    bead_seat_diameter: Labelled, wheels: Wheels, front_brakes: FrontBrakes, rear_brakes: RearBrakes
) -> Labelled:
    """By the drop centre and the caliper's bridge, with 3 mm of air."""
    brakes = {FRONT: front_brakes, REAR: rear_brakes}
    return each_axle(
        lambda axle: physics.largest_rotor_in_barrel(
            bead_seat_diameter=bead_seat_diameter[axle],
            well_depth=wheels.well_depth,
            wall_thickness=wheels.wall_thickness,
            caliper_bridge=brakes[axle].caliper_bridge,
            clearance=LEAST_ROTOR_CLEARANCE,
        )
    )


@quantity(
    "m", "Largest disc by practice, thin caliper", per="axle", source="common-practice", shown="mm"
)
def largest_rotor_in_practice(wheel_diameter: Labelled) -> Labelled:
    """Look up what the trade gets inside such a wheel: 330 to 345 mm in 17 in."""
    return each_axle(
        lambda axle: _by_code(
            wheel_diameter[axle], lambda code: tables.largest_rotor_in_practice(code)[1]
        )
    )


@quantity("m", "Gap between brake and wheel", per="axle", source="definition", shown="mm")
def rotor_clearance(
    bead_seat_diameter: Labelled, wheels: Wheels, front_brakes: FrontBrakes, rear_brakes: RearBrakes
) -> Labelled:
    """Take the measured outlines, else the least radius, else the drop centre; try a real wheel."""
    given, why = wheels.has("barrel_radius"), "the wheels turn over their brakes as they did"
    ask_where_changed(wheels, front_brakes, rear_brakes, given=given, why=why)
    brakes = {FRONT: front_brakes, REAR: rear_brakes}

    def gap(axle: str) -> Values:
        one = brakes[axle]
        if wheels.has("barrel") and one.has("caliper_outline"):
            return _by_outlines(wheels, one, axle)
        beyond = one.caliper_bridge if one.kind == "disc" else one.drum_wall
        if wheels.has("barrel_radius"):
            known = one.has("outer_radius")
            return wheels.barrel_radius - (
                one.outer_radius if known else one.rotor_diameter / 2.0 + beyond
            )
        return physics.radial_rotor_clearance(
            bead_seat_diameter=bead_seat_diameter[axle],
            well_depth=wheels.well_depth,
            wall_thickness=wheels.wall_thickness,
            caliper_bridge=beyond,
            rotor_diameter=one.rotor_diameter,
        )

    return each_axle(gap)


@quantity(
    "m", "Air that measured outlines find over the drop-centre rule", per="axle",
    source="definition", shown="mm",
)  # fmt: skip
def rotor_outline_gain(
    rotor_clearance: Labelled,
    bead_seat_diameter: Labelled,
    wheels: Wheels,
    front_brakes: FrontBrakes,
    rear_brakes: RearBrakes,
) -> Labelled:
    """Subtract what the rule of thumb gives: the drop centre taken to lie over the caliper."""
    brakes = {FRONT: front_brakes, REAR: rear_brakes}
    known = [
        axle
        for axle in (FRONT, REAR)
        if wheels.has("barrel") and brakes[axle].has("caliper_outline")
    ]
    if not known:
        raise DoesNotApply(wheels.path_of("barrel"), "no outlines are measured")
    return {
        axle: rotor_clearance[axle]
        - physics.radial_rotor_clearance(
            bead_seat_diameter=bead_seat_diameter[axle],
            well_depth=wheels.well_depth,
            wall_thickness=wheels.wall_thickness,
            caliper_bridge=brakes[axle].caliper_bridge,
            rotor_diameter=brakes[axle].rotor_diameter,
        )
        for axle in known
    }


@quantity("m", "Least wheel for the front brakes", source="the-build-file", shown="in")
def least_wheel_diameter_front_brakes(front_brakes: FrontBrakes) -> Values:
    """Nominal diameter that the option asks for; nothing when it states nothing."""
    return _least_wheel(front_brakes)


@quantity("m", "Least wheel for the rear brakes", source="the-build-file", shown="in")
def least_wheel_diameter_rear_brakes(rear_brakes: RearBrakes) -> Values:
    """Nominal diameter that the option asks for; nothing when it states nothing."""
    return _least_wheel(rear_brakes)


@quantity("m", "Least wheel for the front suspension", source="the-build-file", shown="in")
def least_wheel_diameter_front_suspension(front_suspension: FrontSuspension) -> Values:
    """Nominal diameter that the option asks for; nothing when it states nothing."""
    return _least_wheel(front_suspension)


@quantity("m", "Least wheel for the rear suspension", source="the-build-file", shown="in")
def least_wheel_diameter_rear_suspension(rear_suspension: RearSuspension) -> Values:
    """Nominal diameter that the option asks for; nothing when it states nothing."""
    return _least_wheel(rear_suspension)


@quantity("N·m", "Torque of the wheel fasteners", source="wheel-torque-trade-tables")
def wheel_fastener_torque(wheels: Wheels) -> Values:
    """As given, else the middle of the trade's range for the thread; the handbook comes first."""
    if wheels.has("fastener_torque"):
        return wheels.fastener_torque
    thread = tables.fastener_thread(wheels.fastener)
    return constant((thread.least_torque + thread.largest_torque) / 2.0)


@quantity("N", "Clamping force of one wheel fastener", source="shigley", shown="kN")
def wheel_fastener_preload(wheel_fastener_torque: Values, wheels: Wheels) -> Values:
    """Dry threads; oil raises it by a third at the same torque."""
    return physics.fastener_preload(
        torque=wheel_fastener_torque,
        torque_coefficient=wheels.fastener_friction,
        diameter=tables.fastener_thread(wheels.fastener).diameter,
    )


@quantity("-", "Share of the fastener's proof load", source="iso-898-1", shown="%")
def wheel_fastener_proof_share(wheel_fastener_preload: Values, wheels: Wheels) -> Values:
    """How much of what the stud bears without stretching its clamping force takes."""
    thread = tables.fastener_thread(wheels.fastener)
    area = physics.unified_stress_area if thread.unified else thread_stress_area
    return physics.proof_share(
        preload=wheel_fastener_preload,
        stress_area=np.asarray(area(diameter=thread.diameter, pitch=thread.pitch)),
        proof_stress=tables.proof_stress(wheels.fastener_grade),
    )


@quantity("-", "Turns of thread the fastener takes hold of", source="wheel-torque-trade-tables")
def wheel_fastener_turns(wheels: Wheels) -> Values:
    """Length of engagement over pitch."""
    given = wheels.has("fastener_engagement") or wheels.has("spacer") or wheels.has("rear_spacer")
    ask_where_changed(wheels, given=given, why="the wheels stay on their fasteners")
    return wheels.fastener_engagement / tables.fastener_thread(wheels.fastener).pitch


@quantity("-", "Least turns of thread for the fastener", source="wheel-torque-trade-tables")
def least_fastener_turns(wheels: Wheels) -> Values:
    """As the trade tables print for the thread."""
    least = tables.fastener_thread(wheels.fastener).least_turns
    if least is None:
        why = f"the trade tables name no least number of turns for {wheels.fastener}"
        raise MissingInput(wheels.path_of("fastener"), why)
    return constant(least)


@quantity("kg", "Wheel's rated load to spare, laden", per="axle", source="the-build-file")
def wheel_load_margin(wheels: Wheels, laden_axle_load: Labelled) -> Labelled:
    """Rated load of one wheel less half the axle's load."""
    return each_axle(lambda axle: wheels.load_rating - laden_axle_load[axle] / 2.0)


def _by_outlines(wheels: Wheels, brakes: AxleBrakes, axle: str) -> Values:
    """Return the least gap between barrel and caliper; a spacer takes the wheel outward."""
    barrel, caliper = wheels.barrel, brakes.caliper_outline
    name = "spacer" if axle == FRONT else "rear_spacer"
    apart = getattr(wheels, name) if wheels.has(name) else 0.0
    return barrel_gap(
        barrel_place=barrel.place,
        barrel_radius=barrel.length,
        caliper_place=caliper.place + apart,
        caliper_radius=caliper.length,
    )


def _least_wheel(option: Option) -> Values:
    stated = option.has("least_wheel_diameter")
    return option.least_wheel_diameter if stated else constant(0.0)


def _lip_moves(
    move: Callable[..., Values], fit: MeasuredFit, width: Labelled, offset: Labelled
) -> Labelled:
    """Return how far one edge of each tyre moves towards what it may touch."""
    return each_axle(
        lambda axle: move(
            old_width=fit.section_width[axle],
            old_offset=fit.offset[axle],
            new_width=width[axle],
            new_offset=offset[axle],
        )
    )


def _measured(arches: Arches, name: str) -> Labelled:
    return {FRONT: getattr(arches, f"front_{name}"), REAR: getattr(arches, f"rear_{name}")}


def _measured_offset(arches: Arches, wheels: Wheels, width: Labelled, fitted: Labelled) -> Labelled:
    """Return the offset at measuring; that of the picked wheels where neither is known."""
    front = wheels.has("offset") or wheels.has("backspacing")
    rear = front or wheels.has("rear_offset") or wheels.has("rear_backspacing")
    if wheels.as_is and not (rear and arches.has("offset")):
        return fitted
    if arches.has("offset"):
        return {FRONT: arches.offset, REAR: arches.offset}
    own = _own_offset(width, wheels)
    return {
        FRONT: arches.offset if front else own[FRONT],
        REAR: arches.offset if rear else own[REAR],
    }


def _own_offset(width: Labelled, wheels: Wheels) -> Labelled:
    """Return the offset as given, or from the backspacing."""
    if wheels.has("offset") or not wheels.has("backspacing"):
        return both_axles(wheels, "offset")
    back = both_axles(wheels, "backspacing")
    return each_axle(
        lambda axle: physics.offset_from_backspacing(
            rim_width=width[axle],
            backspacing=back[axle],
            flange_thickness=physics.FLANGE_THICKNESS,
        )
    )


def _by_code(diameter: Values, table: Callable[[float], float]) -> Values:
    """Look each sample up by its rim code; nan where the table has none, but for the nominal."""
    table(round(float(diameter[0]) / INCH, 1))
    codes, places = np.unique(np.round(diameter / INCH, 1), return_inverse=True)
    return np.array([_or_nan(table, float(code)) for code in codes])[places]


def _or_nan(table: Callable[[float], float], code: float) -> float:
    try:
        return table(code)
    except TableError:
        return float("nan")
