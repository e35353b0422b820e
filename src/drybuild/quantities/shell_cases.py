"""Stress in the body case by case, how its hardpoints give way, and what belts would pull at."""

from __future__ import annotations

import numpy as np

from drybuild.errors import DoesNotApply
from drybuild.project.body import Body
from drybuild.project.cabin import Belts, Seats
from drybuild.project.samples import Values
from drybuild.project.shell import Shell
from drybuild.quantities.quantity import Labelled, quantity, step
from drybuild.quantities.shell import bolts_in_shear, weld_sheet_strength, weld_strength
from drybuild.quantities.shell_loads import (
    belt_loads,
    engine_torque_loads,
    road_cases,
    scaled,
    seat_loads,
    standing,
    wheel_loads,
)
from drybuild.quantities.shell_model import Addition, ShellModel
from drybuild.quantities.shell_points import (
    Car,
    Loads,
    Pulled,
    pulled_body,
    stress_by_case,
    stress_under,
)
from drybuild.tables.shell import fatigue_class

YIELD = 180e6  # [Pa], mild body sheet, from memory
PEAK_SHARE = 1.5  # [-], yield over the stress allowed at a peak load, common practice
COMMON_RANGE = 1.5  # [-], ± 0.75 g about standing, comes again and again; common practice
DETAIL = "transverse attachment"
PUSH = 1000.0  # [N], what camber and toe are told for


@step("The nominal car round its frame", source="definition")
def frame_car(kerb_mass: Values, front_axle_share: Values, cg_height: Values, body: Body) -> Car:
    """Gather what the loads on the body go by."""
    return Car(
        mass=float(kerb_mass[0]),
        front_share=float(front_axle_share[0]),
        cg_over_road=float(cg_height[0]),
        wheelbase=float(body.wheelbase[0]),
        tracks=(float(body.front_track[0]), float(body.rear_track[0])),
        ride_height=float(body.ride_height[0]),
    )


@step("The free body under unit pulls at its hardpoints", source="inertia-relief")
def pulled_frame(
    shell_model: ShellModel, frame_work: dict[str, Addition], frame_car: Car
) -> Pulled:
    """After the picked work; the car's own mass holds it, no support does."""
    return pulled_body(shell_model, frame_car, tuple(frame_work.values()))


@step("The free body under unit pulls before any work", source="inertia-relief")
def pulled_original(shell_model: ShellModel, frame_car: Car) -> Pulled:
    """As the car stands, for comparing."""
    return pulled_body(shell_model, frame_car)


@quantity(
    "Pa",
    "Greatest stress in the body's members by load case, with the part it is in",
    source="vehicle-structure-notes",
    per="case",
    shown="MPa",
)
def shell_case_stress(
    shell_model: ShellModel, pulled_frame: Pulled, frame_car: Car, kerb_mass: Values
) -> Labelled:
    """Peak loads at the hardpoints against the car's inertia; plain beams of nominal sections.

    A bump of three times the static load, one wheel on a bump, braking, cornering, a pot-hole, a
    kerb, a tow rope, a jack. Goes with the mass of the car.
    """
    return {
        _told(name, stress): scaled(max(stress.values()), kerb_mass)
        for name, stress in _by_case(shell_model, pulled_frame, frame_car).items()
    }


@quantity(
    "-",
    "Greatest stress by load case after the work over the original's",
    source="vehicle-structure-notes",
    per="case",
)
def shell_case_stress_ratio(
    shell_model: ShellModel,
    pulled_frame: Pulled,
    pulled_original: Pulled,
    frame_car: Car,
    frame_work: dict[str, Addition],
    shell: Shell,
) -> Labelled:
    """Compare like with like: surer than any stress on its own."""
    if not frame_work:
        raise DoesNotApply(shell.path_of("measures"), "no work is left to the frame model")
    before = _by_case(shell_model, pulled_original, frame_car)
    after = _by_case(shell_model, pulled_frame, frame_car)
    size = np.ones_like(shell_model.joint_rate)
    return {
        _told(name, stress): max(stress.values()) / max(before[name].values()) * size
        for name, stress in after.items()
    }


@quantity(
    "N",
    "Greatest force at an end of what the work adds",
    source="vehicle-structure-notes",
    per="part",
    shown="kN",
)
def shell_work_force(
    shell_model: ShellModel,
    pulled_frame: Pulled,
    frame_car: Car,
    frame_work: dict[str, Addition],
    kerb_mass: Values,
    shell: Shell,
) -> Labelled:
    """Take the worst load case, along and across together: what bolts or welds have to carry."""
    added = {bar.name for one in frame_work.values() for bar in one.bars}
    if not added:
        raise DoesNotApply(shell.path_of("measures"), "the work adds no member to the frame")
    greatest: dict[str, float] = {}
    cases = road_cases(pulled_frame, frame_car)
    for name, force in zip(cases, pulled_frame.end_forces(*cases.values()), strict=True):
        for bar, ends in zip(pulled_frame.built.bars, force, strict=True):
            if bar.name in added:
                worst = max(float(np.linalg.norm(end)) for end in (ends[:3], ends[6:9]))
                greatest[f"{bar.family}, {name}"] = worst
    part = max(greatest, key=lambda one: greatest[one])
    return {part: scaled(greatest[part], kerb_mass)}


@quantity(
    "-",
    "Use of the work's bolts and welds by the force that the frame brings to them",
    source="en-1993-1-8",
    per="joint",
    shown="%",
)
def shell_work_joint_use(shell_work_force: Labelled, shell: Shell) -> Labelled:
    """Asked where the option names its bolts or weld and not the force across them."""
    (force,) = shell_work_force.values()
    found: Labelled = {}
    if shell.has("bolts") and not shell.has("joint_force"):
        found["bolts"] = force / bolts_in_shear(shell)
    if shell.has("weld_length") and not shell.has("weld_force"):
        found["weld"] = force / weld_strength(shell)
        found["sheet beside the weld"] = force / weld_sheet_strength(shell)
    if not found:
        raise DoesNotApply(shell.path_of("bolts"), "it names no joint, or the force across it")
    return found


@quantity(
    "Pa",
    "Greatest stress in the body's members with the engine's torque on its mounts",
    source="vehicle-structure-notes",
    per="part",
    shown="MPa",
)
def shell_torque_stress(
    shell_model: ShellModel,
    pulled_frame: Pulled,
    frame_car: Car,
    peak_torque: Values,
    gearbox_ratios: Values,
) -> Labelled:
    """Peak torque in first gear about the car's length, the rear axle leaning against it."""
    torque = float(peak_torque[0] * np.max(gearbox_ratios[..., 0]))
    loads = engine_torque_loads(pulled_frame, frame_car, torque)
    stress = stress_under(shell_model, pulled_frame, loads)
    part = max(stress, key=lambda one: stress[one])
    return {part: stress[part] * peak_torque / peak_torque[0]}


@quantity(
    "-",
    "Use of the body's welds by what the road does again and again",
    source="iiw-1823-07",
    per="part",
    shown="%",
)
def shell_weld_fatigue_use(
    shell_model: ShellModel, pulled_frame: Pulled, frame_car: Car, kerb_mass: Values
) -> Labelled:
    """Stress range of ± 0.75 g over what a welded-on part bears two million times.

    The class is not calibrated for sheet under about 5 mm: a gauge for comparing, no life.
    """
    loads = wheel_loads(pulled_frame, frame_car, standing(frame_car, COMMON_RANGE))
    stress = stress_under(shell_model, pulled_frame, loads)
    part = max(stress, key=lambda one: stress[one])
    return {part: scaled(stress[part], kerb_mass) / fatigue_class(DETAIL)}


@quantity(
    "N/m",
    "Stiffness of the body where the suspension pulls at it",
    source="inertia-relief",
    per="hardpoint",
    shown="N/mm",
)
def shell_hardpoint_stiffness(shell_model: ShellModel, pulled_frame: Pulled) -> Labelled:
    """One side pulled alone, against the mass of the whole body; joints give most of the spread."""
    ways = {"sideways": "y", "upright": "z", "fore and aft": "x"}
    softer = _joints_over_nominal(shell_model)
    return {
        f"{point} {way}": softer / pulled_frame.compliance(pulled_frame.nodes_of(point)[0], axis)
        for point in ("front high", "front low", "rear high", "rear low")
        for way, axis in ways.items()
        if pulled_frame.has(point)
    }


@quantity(
    "rad",
    "Camber that the body gives away for 1 kN at the wheel's foot",
    source="inertia-relief",
    per="axle",
    shown="deg",
)
def shell_camber_given(shell_model: ShellModel, pulled_frame: Pulled, frame_car: Car) -> Labelled:
    """Motion of the upper joint against the lower one; of axles led by arms."""
    found = {}
    for axle in ("front", "rear"):
        if pulled_frame.points[f"{axle} high"].wheel == "arms":
            high, low = (pulled_frame.nodes_of(f"{axle} {end}")[0] for end in ("high", "low"))
            motion = pulled_frame.under(_pushed(pulled_frame, frame_car, axle, (0.0, PUSH)))
            apart = float(pulled_frame.place(high)[2] - pulled_frame.place(low)[2])
            sideways = [pulled_frame.moved(motion, one, "y") for one in (high, low)]
            turn = abs(sideways[0] - sideways[1]) / apart
            found[axle] = turn / _joints_over_nominal(shell_model)
    if not found:
        raise DoesNotApply("car.structure.frame_model.template", "both axles are beams")
    return found


@quantity(
    "rad",
    "Toe that the body gives away for 1 kN at the wheel's foot",
    source="inertia-relief",
    per="case",
    shown="deg",
)
def shell_toe_given(shell_model: ShellModel, pulled_frame: Pulled, frame_car: Car) -> Labelled:
    """Turn of the body's metal about the upright axis where the lower arm or hanger sits."""
    found = {}
    for axle in ("front", "rear"):
        low = pulled_frame.nodes_of(f"{axle} low")[0]
        for way, push in (("sideways", (0.0, PUSH)), ("braking", (-PUSH, 0.0))):
            motion = pulled_frame.under(_pushed(pulled_frame, frame_car, axle, push))
            turn = abs(pulled_frame.moved(motion, low, "turn z"))
            found[f"{axle}, {way}"] = turn / _joints_over_nominal(shell_model)
    return found


@quantity(
    "Pa",
    "Greatest stress in the body with belts and seats pulled as in approval tests",
    source="un-r14",
    per="test",
    shown="MPa",
)
def shell_belt_stress(
    shell_model: ShellModel,
    pulled_frame: Pulled,
    belt_test_force: Labelled,
    seat_mount_force: Values,
    belts: Belts,
    seats: Seats,
) -> Labelled:
    """Pull both front places at once, against the car's inertia.

    The plate, nut and sheet at the anchorage itself decide first, and are no part of this. A test
    lets metal yield as long as the belt holds; licensed practice judges that.
    """
    _whole(pulled_frame, belts, seats)
    lap = float(belt_test_force.get("lap", np.zeros(1))[0])
    shoulder = float(belt_test_force.get("shoulder", np.zeros(1))[0])
    size = np.ones_like(shell_model.joint_rate)
    tests: dict[str, Loads] = {
        "belts": belt_loads(pulled_frame, lap, shoulder),
        "seats": seat_loads(pulled_frame, float(seat_mount_force[0])),
    }
    found = {}
    for name, loads in tests.items():
        stress = stress_under(shell_model, pulled_frame, loads)
        found[_told(name, stress)] = max(stress.values()) * size
    return found


def _by_case(model: ShellModel, pulled: Pulled, car: Car) -> dict[str, dict[str, float]]:
    return stress_by_case(model, pulled, road_cases(pulled, car))


def _told(case: str, stress: dict[str, float]) -> str:
    return f"{case}: {max(stress, key=lambda one: stress[one])}"


def _joints_over_nominal(model: ShellModel) -> Values:
    """Return how much stiffer than the nominal body a sample is, by its torsion."""
    stiffness = model.sampled("torsion").stiffness
    return np.asarray(stiffness / stiffness[0])


def _pushed(pulled: Pulled, car: Car, axle: str, push: tuple[float, float]) -> Loads:
    return wheel_loads(pulled, car, {(axle, 1): (*push, 0.0)})


def _whole(pulled: Pulled, belts: Belts, seats: Seats) -> None:
    needed: tuple[str, ...] = ("belt outer", "belt inner", "seat")
    needed += () if belts.kind == "lap" else ("belt shoulder",)
    if not all(pulled.has(point) for point in needed):
        raise DoesNotApply(
            belts.path_of("kind"), "the frame model has no place for belts: its body is apart"
        )
    if belts.as_is and seats.as_is:
        raise DoesNotApply(belts.path, "belts and seats stay as they are")
