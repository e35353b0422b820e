"""Stiffness of the body, what reinforcement adds and weighs, and its bolted and welded joints."""

from __future__ import annotations

import numpy as np

from drybuild.errors import DoesNotApply, MissingInput
from drybuild.physics.fastenings import (
    bolt_shear_resistance,
    fatigue_life_iiw,
    fillet_effective_length,
    fillet_shear_strength,
    fillet_throat,
    thread_stress_area,
    welding_current,
)
from drybuild.physics.sections import Section as BeamSection
from drybuild.physics.sections import closed_rectangle, open_torsion_constant
from drybuild.physics.shell import (
    bonded_panel_share,
    closed_box_torsional_stiffness,
    first_torsion_mode,
    kerb_strike_force,
    ladder_torsional_stiffness,
    midspan_bending_stiffness,
    parallel_torsional_stiffness,
    slab_roll_inertia,
    torsional_stiffness_from_corner_load,
)
from drybuild.project.body import Body
from drybuild.project.option import ask_where_changed
from drybuild.project.samples import Values
from drybuild.project.shell import Frame, Glass, Measure, Shell, Structure
from drybuild.quantities.quantity import Labelled, quantity
from drybuild.tables.shell import bolt_class, bolt_thread, fatigue_class, load_cases, weld_steel
from drybuild.units import STANDARD_GRAVITY

STEEL = 207e9  # [Pa], Young's modulus of steel, usual text value
STEEL_SHEAR = STEEL / 2.6  # [Pa], Poisson's ratio 0.30
GLASS_SHEAR = 29e9  # [Pa], soda-lime glass, usual text value
GLASS_DENSITY = 2500.0  # [kg/m³], likewise
BEAD_SHEAR = {"rubber": 1e6, "urethane": 2e6}  # [Pa], order of size, from memory
PARTIAL_FACTOR = 1.25  # γ_M2, EN 1993-1-8 table 2.1
OPEN_SHAPES = ("convertible", "roadster")


@quantity(
    "N·m/rad",
    "Torsional stiffness of the body before",
    source="common-practice",
    shown="N·m/deg",
)
def shell_original_stiffness(structure: Structure, body: Body) -> Values:
    """From a three-stand test, else as given, else typical of its kind (less where it is open)."""
    if structure.has("corner_load") and structure.has("corner_deflection"):
        return torsional_stiffness_from_corner_load(
            load=structure.corner_load,
            track=structure.corner_track if structure.has("corner_track") else body.rear_track,
            deflection=structure.corner_deflection,
        )
    stiffness = structure.torsional_stiffness
    unmeasured = not structure.has("torsional_stiffness")
    if unmeasured and body.kind == "unitary" and body.has("shape") and body.shape in OPEN_SHAPES:
        return stiffness * structure.open_share
    return stiffness


@quantity(
    "N·m/rad",
    "Torsional stiffness that each reinforcement adds",
    source="common-practice",
    per="measure",
    shown="N·m/deg",
)
def reinforcement_stiffness(
    shell_original_stiffness: Values, frame_gains: dict[str, Values], shell: Shell
) -> Labelled:
    """As given; else by the frame model, each measure solved on top of those before it."""
    original = shell_original_stiffness
    if shell.measures:
        return {
            name: _added(one, original, frame_gains.get(name))
            for name, one in shell.measures.items()
        }
    if shell.has("gain") or shell.has("added_stiffness") or "all" in frame_gains:
        return {"all": _added(shell, original, frame_gains.get("all"))}
    if shell.as_is or shell.work == "none":
        return {"none": np.zeros_like(shell_original_stiffness)}
    raise MissingInput(shell.path_of("gain"), "how much stiffness it adds is not given")


@quantity("N·m/rad", "Torsional stiffness of the body", source="common-practice", shown="N·m/deg")
def shell_torsional_stiffness(
    shell_original_stiffness: Values, reinforcement_stiffness: Labelled
) -> Values:
    """Parallel springs: measures that complete each other give more, rivals give less."""
    return parallel_torsional_stiffness(
        original=shell_original_stiffness, added=list(reinforcement_stiffness.values())
    )


@quantity("-", "Torsional stiffness over the original's", source="common-practice")
def shell_stiffness_ratio(
    shell_torsional_stiffness: Values, shell_original_stiffness: Values
) -> Values:
    """Compare with the original: more telling than any absolute figure."""
    return shell_torsional_stiffness / shell_original_stiffness


@quantity("kg", "Mass that the reinforcement adds", source="the-build-file")
def reinforcement_mass(shell: Shell) -> Values:
    """Return the mass as given, else of its measures, else typical of its kind."""
    return shell.mass


@quantity(
    "N·m/(rad·kg)",
    "Stiffness gained for each kilogram of reinforcement",
    source="definition",
    shown="N·m/(deg·kg)",
)
def reinforcement_yield(
    reinforcement_mass: Values, reinforcement_stiffness: Labelled, shell: Shell
) -> Values:
    """Return all that is added over the mass that adds it."""
    if not np.all(reinforcement_mass > 0.0):
        raise DoesNotApply(shell.path, "nothing is added to the shell")
    return sum(reinforcement_stiffness.values(), start=0.0 * reinforcement_mass) / (
        reinforcement_mass
    )


@quantity("kg·m²", "Roll inertia of each half of the body", source="two-inertia-model", per="half")
def shell_half_inertia(
    kerb_mass: Values, front_axle_share: Values, body: Body, structure: Structure
) -> Labelled:
    """Each axle's share of what turns with the shell, spread over its width and height."""
    turning = kerb_mass * structure.turning_share
    height = body.height - body.ground_clearance
    return {
        half: slab_roll_inertia(mass=turning * share, width=body.width, height=height)
        for half, share in (("front", front_axle_share), ("rear", 1.0 - front_axle_share))
    }


@quantity("Hz", "First torsion mode of the body, estimate", source="two-inertia-model")
def shell_first_mode(shell_torsional_stiffness: Values, shell_half_inertia: Labelled) -> Values:
    """Two halves on one spring: crude and low; good for comparing options, not for absolute use."""
    known = np.isfinite(shell_torsional_stiffness)  # no joint rate reaches some samples
    mode = first_torsion_mode(
        stiffness=np.where(known, shell_torsional_stiffness, 1.0),
        front_inertia=shell_half_inertia["front"],
        rear_inertia=shell_half_inertia["rear"],
    )
    return np.where(known, mode, np.nan)


@quantity(
    "rad",
    "Twist of the body with one front wheel on a bump",
    source="vehicle-structure-notes",
    shown="deg",
)
def shell_twist_over_bump(
    shell_torsional_stiffness: Values, kerb_mass: Values, front_axle_share: Values, body: Body
) -> Values:
    """One front wheel takes 1.3 times its static load, the other gives it up."""
    extra = (load_cases()["bump one side"].value - 1.0) * kerb_mass * front_axle_share / 2.0
    return extra * STANDARD_GRAVITY * body.front_track / shell_torsional_stiffness


@quantity("N", "Load on the body in each load case", source="brown-robertson-serpento", per="case")
def body_load(kerb_mass: Values, cg_height: Values, body: Body) -> Labelled:
    """Usual factor times the weight; a kerb strike after Garrett. Never for approval."""
    found: Labelled = {}
    for name, case in load_cases().items():
        if name == "kerb strike":
            found[name] = kerb_strike_force(
                mass=kerb_mass,
                factor=case.value,
                track=body.front_track,
                cg_height=cg_height,
                gravity=STANDARD_GRAVITY,
            )
        else:
            found[name] = case.value * kerb_mass * STANDARD_GRAVITY
    return found


@quantity(
    "N·m/rad",
    "Torsional stiffness of the ladder frame alone, warping left out: a lower bound",
    source="brown-robertson-serpento",
    shown="N·m/deg",
)
def frame_torsional_stiffness(structure: Structure, body: Body) -> Values:
    """Rails and end cross-members only: closed form for rigid joints without warping."""
    frame = _frame(structure, body)
    return ladder_torsional_stiffness(
        length=frame.length,
        width=frame.width,
        rail=_beam(frame.rail_width, frame.rail_height, frame.rail_wall, frame.open_rails),
        cross_member=_beam(
            frame.cross_width, frame.cross_height, frame.cross_wall, frame.open_cross_members
        ),
        elastic_modulus=STEEL,
        shear_modulus=STEEL_SHEAR,
    )


@quantity(
    "N/m",
    "Bending stiffness of the frame's rails at mid-wheelbase",
    source="thin-section-theory",
    shown="N/mm",
)
def frame_bending_stiffness(structure: Structure, body: Body) -> Values:
    """Return two rails on the axle lines with the load between them."""
    frame = _frame(structure, body)
    rail = _beam(frame.rail_width, frame.rail_height, frame.rail_wall, frame.open_rails)
    return midspan_bending_stiffness(
        length=body.wheelbase,
        second_moment=2.0 * rail.second_moment_upright,
        elastic_modulus=STEEL,
    )


@quantity("-", "Torsion constant of a closed rail over a slit one", source="thin-section-theory")
def rail_closing_gain(structure: Structure, body: Body) -> Values:
    """Show what a seam rusted or ground open along a rail takes away."""
    frame = _frame(structure, body)
    closed = _beam(frame.rail_width, frame.rail_height, frame.rail_wall, False)
    slit = open_torsion_constant(
        developed_length=2.0 * (frame.rail_width + frame.rail_height), thickness=frame.rail_wall
    )
    return closed.torsion_constant / slit


@quantity(
    "N·m/rad",
    "Torsional stiffness of a closed passenger cell, upper bound",
    source="brown-robertson-serpento",
    shown="N·m/deg",
)
def cell_box_stiffness(structure: Structure, body: Body) -> Values:
    """Six full panels without a window or door: no body reaches it; nought for an open one."""
    if body.has("shape") and body.shape in OPEN_SHAPES:
        return 0.0 * structure.panel_thickness
    sheet = structure.panel_thickness * structure.joint_share
    return closed_box_torsional_stiffness(
        length=structure.cell_length,
        width=body.width,
        height=structure.cell_height,
        shear_modulus=STEEL_SHEAR,
        thicknesses=[sheet] * 6,
    )


@quantity(
    "-",
    "Share of the windscreen's shear stiffness that its bead lets through",
    source="definition",
    shown="%",
)
def glass_stiffness_share(glass: Glass) -> Values:
    """Return the bead's share in series with the pane: rubber lets nothing through."""
    return bonded_panel_share(
        width=glass.pane_width,
        height=glass.pane_height,
        bead_shear_modulus=BEAD_SHEAR[glass.bead],
        bead_width=glass.bead_width,
        bead_gap=glass.bead_gap,
        panel_shear_modulus=GLASS_SHEAR,
        panel_thickness=glass.pane_thickness,
    )


@quantity("kg", "Mass of the windscreen", source="definition")
def windscreen_mass(glass: Glass) -> Values:
    """Return area, thickness and density of glass."""
    return glass.pane_width * glass.pane_height * glass.pane_thickness * GLASS_DENSITY


@quantity("-", "Light that the windscreen lets through", source="the-build-file", shown="%")
def windscreen_light(glass: Glass) -> Values:
    """Return the share as given or marked on the pane."""
    given = glass.has("light_transmission")
    ask_where_changed(glass, given=given, why="the glass stays as it is")
    return glass.light_transmission


@quantity("-", "Use of the reinforcement's bolted joint in shear", source="en-1993-1-8", shown="%")
def shell_bolt_use(shell: Shell) -> Values:
    """Force over the bolts' design shear resistance, thread in the plane; 1 is the limit."""
    _with_force(shell, "bolts", "joint_force")
    return shell.joint_force / bolts_in_shear(shell)


@quantity("-", "Use of the reinforcement's fillet weld", source="en-1993-1-8", shown="%")
def shell_weld_use(shell: Shell) -> Values:
    """Force over the weld's design resistance; the code starts at 3 mm, below it only indicates."""
    _with_force(shell, "weld_length", "weld_force")
    return shell.weld_force / weld_strength(shell)


@quantity("-", "Use of the sheet beside the weld, in shear", source="en-1993-1-8", shown="%")
def shell_weld_sheet_use(shell: Shell) -> Values:
    """Force over t l f_u/(√3 γ_M2): in body sheet the parent metal gives way first."""
    _with_force(shell, "weld_length", "weld_force")
    return shell.weld_force / weld_sheet_strength(shell)


@quantity("-", "Load cycles that the weld bears", source="iiw-1823-07")
def shell_weld_life(shell: Shell) -> Values:
    """Constant range, 97.7 % survival; not calibrated for sheet under about 5 mm."""
    _named(shell, "weld_length", "weld_force", "stress_range")
    return fatigue_life_iiw(
        fatigue_class=fatigue_class(shell.weld_detail), stress_range=shell.stress_range
    )


@quantity("A", "Welding current for the sheet", source="wire-welder-manual")
def shell_welding_current(shell: Shell) -> Values:
    """Return 1 A for each thousandth of an inch of sheet."""
    return welding_current(thickness=shell.sheet_thickness)


def bolts_in_shear(shell: Shell) -> Values:
    """Return the shear force that an option's bolts bear together."""
    diameter, pitch = bolt_thread(shell.bolt_thread)
    grade = bolt_class(shell.bolt_class)
    each = bolt_shear_resistance(
        stress_area=thread_stress_area(diameter=diameter, pitch=pitch),
        tensile_strength=grade.ultimate,
        shear_factor=grade.shear_factor,
        partial_factor=PARTIAL_FACTOR,
    )
    return np.asarray(shell.bolts * each)


def weld_strength(shell: Shell) -> Values:
    """Return the force that an option's fillet weld bears along it."""
    ultimate, correlation = weld_steel(shell.weld_steel)
    throat = fillet_throat(leg=shell.weld_leg)
    strength = fillet_shear_strength(
        tensile_strength=ultimate, correlation_factor=correlation, partial_factor=PARTIAL_FACTOR
    )
    length = fillet_effective_length(length=shell.weld_length, throat=throat)
    return np.asarray(strength * throat * length)


def weld_sheet_strength(shell: Shell) -> Values:
    """Return the force that the sheet beside an option's weld bears in shear."""
    ultimate, _ = weld_steel(shell.weld_steel)
    strength = float(ultimate / (np.sqrt(3.0) * PARTIAL_FACTOR))
    return np.asarray(strength * shell.sheet_thickness * shell.weld_length)


def _added(one: Measure | Shell, original: Values, share: Values | None) -> Values:
    if one.has("added_stiffness"):
        return one.added_stiffness
    if one.has("gain") or share is None:
        return one.gain * original
    return share * original


def _with_force(shell: Shell, joint: str, force: str) -> None:
    """Ask with the force that is given; without it the frame model brings one."""
    _named(shell, joint, force)
    if not shell.has(force):
        raise DoesNotApply(shell.path_of(force), "the frame model says what force comes to it")


def _named(shell: Shell, *entries: str) -> None:
    """Ask of a joint only where the option names one."""
    if not any(shell.has(entry) for entry in entries):
        raise DoesNotApply(shell.path_of(entries[0]), "it names no such joint")


def _frame(structure: Structure, body: Body) -> Frame:
    if body.kind != "ladder" and not structure.has("frame"):
        raise DoesNotApply(structure.path_of("frame"), f"a {body.kind} body has no ladder frame")
    return structure.frame


def _beam(width: Values, height: Values, wall: Values, channel: bool) -> BeamSection:
    closed = closed_rectangle(width=width, height=height, thickness=wall)
    if not channel:
        return closed
    # A channel: one upright wall less, its bending stiffness by two flanges and one web.
    return BeamSection(
        area=wall * (2.0 * width + height),
        second_moment_upright=wall * height**3 / 12.0 + width * wall * height**2 / 2.0,
        second_moment_sideways=closed.second_moment_sideways,
        torsion_constant=open_torsion_constant(
            developed_length=2.0 * width + height, thickness=wall
        ),
    )
