"""Where the body carries its load: energy, worth, loss and stress by part, and what would help."""

from __future__ import annotations

import numpy as np

from drybuild.errors import TableError
from drybuild.project.body import Body
from drybuild.project.samples import Values
from drybuild.quantities.quantity import Labelled, quantity, step
from drybuild.quantities.shell_families import (
    PartLine,
    added_mass,
    by_family,
    family_losses,
    family_mass,
    part_lines,
)
from drybuild.quantities.shell_model import Addition, ShellModel
from drybuild.quantities.shell_sets import Sets
from drybuild.quantities.shell_stress import family_stress
from drybuild.tables.frame import added_bars, changes, measures
from drybuild.tables.shell import load_cases

GRAVITY = 9.80665  # [m/s²], standard
LIMITS = (5.0, 15.0, 30.0)
"""Steel that a set of measures may add. [kg]"""
UNSURE = ("stitched seams", "foam")
"""Measures whose effect on joints is assumed."""
CUTS = ("cut towers", "cut tunnel", "cut floor")


@quantity(
    "-",
    "Share of the strain energy in each part of the body in torsion",
    source="beam-frame-theory",
    per="part",
    shown="%",
)
def shell_frame_energy(shell_model: ShellModel) -> Labelled:
    """Metal of members and panels, both sides together, and all joints; they sum to one."""
    solved = shell_model.sampled("torsion")
    found = by_family(shell_model, solved)
    found["joints"] = np.asarray(solved.joint_share.sum(axis=0))
    return found


@quantity(
    "N·m/(rad·kg)",
    "Torsional stiffness for each kilogram put into the walls of a part",
    source="beam-frame-theory",
    per="part",
    shown="N·m/(deg·kg)",
)
def shell_frame_worth(shell_model: ShellModel) -> Labelled:
    """Exact for a little metal; much of it is worth less, and a part without strain may matter."""
    solved, mass = shell_model.sampled("torsion"), family_mass(shell_model)
    shares = by_family(shell_model, solved)
    return {
        name: solved.stiffness * share / mass[name]
        for name, share in shares.items()
        if name in mass
    }


@quantity(
    "-",
    "Torsional stiffness lost when a part of the body is cut out",
    source="beam-frame-theory",
    per="part",
    shown="%",
)
def shell_frame_loss(shell_model: ShellModel) -> Labelled:
    """Both sides cut and the nominal body solved again; panels and members alike."""
    size = len(shell_model.joint_rate)
    return {name: np.full(size, lost) for name, lost in family_losses(shell_model).items()}


@quantity(
    "Pa",
    "Greatest stress in the members of a part, one wheel on a bump",
    source="vehicle-structure-notes",
    per="part",
    shown="MPa",
)
def shell_frame_bump_stress(
    shell_model: ShellModel, kerb_mass: Values, front_axle_share: Values, body: Body
) -> Labelled:
    """Twist by 1.3 times the static load of a front wheel, and the body's weight in bending.

    The weight between the axles counts as half of it at mid-wheelbase, which bends as much as the
    whole of it spread evenly. Beam stress at the ends of members, by nominal sections: no holes,
    spot welds or dents, where it is several times more.
    """
    case = load_cases()["bump one side"]
    torque = (case.value - 1.0) * kerb_mass * front_axle_share / 2.0 * GRAVITY * body.front_track
    weight = 0.5 * kerb_mass * GRAVITY
    by_torque, by_weight = family_stress(shell_model)
    return {name: torque * by_torque[name] + weight * by_weight[name] for name in by_torque}


@step("Every measure that this body could be given, each alone", source="beam-frame-theory")
def frame_candidates(shell_model: ShellModel) -> dict[str, Addition]:
    """Measures whose places this body has; cuts are left out."""
    found = {}
    for kind in measures():
        try:
            found[kind] = Addition(
                name=kind,
                bars=added_bars(kind, shell_model.template),
                changes=changes(kind, shell_model.template),
            )
        except TableError:
            continue  # the template has no such place
    return {kind: one for kind, one in found.items() if kind not in CUTS}


@quantity(
    "-",
    "Torsional stiffness that each usual measure would give alone",
    source="beam-frame-theory",
    per="measure",
    shown="%",
)
def shell_frame_candidate_gain(
    shell_model: ShellModel, frame_candidates: dict[str, Addition]
) -> Labelled:
    """Each solved again on the body as it is; together they give less or more, never the sum."""
    original = shell_model.sampled("torsion").stiffness
    return {
        kind: shell_model.sampled("torsion", (one,)).stiffness / original - 1.0
        for kind, one in frame_candidates.items()
    }


@quantity(
    "N·m/(rad·kg)",
    "Torsional stiffness for each kilogram that each usual measure would give alone",
    source="beam-frame-theory",
    per="measure",
    shown="N·m/(deg·kg)",
)
def shell_frame_candidate_yield(
    shell_model: ShellModel,
    frame_candidates: dict[str, Addition],
    shell_frame_candidate_gain: Labelled,
    shell_original_stiffness: Values,
) -> Labelled:
    """Gain over the steel that is modelled; measures that add no steel are left out."""
    masses = {kind: added_mass(shell_model, one) for kind, one in frame_candidates.items()}
    return {
        kind: shell_frame_candidate_gain[kind] * shell_original_stiffness / mass
        for kind, mass in masses.items()
        if mass > 0.1
    }


@step("Measures of which each may be taken or not", source="beam-frame-theory")
def frame_sets(shell_model: ShellModel, frame_candidates: dict[str, Addition]) -> Sets:
    """Those whose gain is sure; stitched seams and foam are left out: no rate is known."""
    sure = {kind: one for kind, one in frame_candidates.items() if kind not in UNSURE}
    return Sets(shell_model, sure)


@quantity(
    "-",
    "Torsional stiffness that the best set of usual measures gives, by the steel it may add",
    source="beam-frame-theory",
    per="limit",
    shown="%",
)
def shell_frame_best_set(shell_model: ShellModel, frame_sets: Sets) -> Labelled:
    """Prove it the best of all sets of sure measures, each solved anew on the nominal body."""
    size = len(shell_model.joint_rate)
    found = {}
    for limit in LIMITS:
        best = frame_sets.best(mass=limit)
        if best.names:
            found[f"{limit:g} kg: {' + '.join(best.names)}"] = np.full(size, best.gain)
    return found


@step("Lines of the body's frame, each with its share of the strain energy", source="definition")
def shell_picture(shell_model: ShellModel, frame_work: dict[str, Addition]) -> tuple[PartLine, ...]:
    """Members and panels with their places, for a drawing; after the picked work."""
    return part_lines(shell_model, tuple(frame_work.values()))
