"""The body in each state: rusty as found, cut, after the work; and what the work asks for."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np

from drybuild.errors import DoesNotApply, TableError
from drybuild.physics.condition import Belief
from drybuild.physics.frame.assembly import Factors
from drybuild.physics.frame.modes import free_modes, lumped_mass
from drybuild.planning.estimates import ThreePoint
from drybuild.planning.sampling import sample
from drybuild.project.samples import Values
from drybuild.project.shell import Shell
from drybuild.project.work import Work
from drybuild.quantities.quantity import Labelled, quantity, step
from drybuild.quantities.shell_model import Addition, ShellModel, rust_left
from drybuild.tables.frame import changes

CUTS = {"cut towers": "towers out", "cut tunnel": "tunnel cut", "cut floor": "floor cut"}
"""Cuts that the frame knows, and what they are called in the states."""


@dataclass(frozen=True, kw_only=True)
class BodyState:
    """What is done to the body, and what rust leaves of its parts where that is asked."""

    work: tuple[Addition, ...] = ()
    left: Mapping[str, Values] | None = None


@step("The states of the body that are looked at", source="definition")
def frame_states(
    shell_model: ShellModel,
    frame_work: dict[str, Addition],
    drawn_grades: dict[str, Values],
    body_belief: Belief,
) -> dict[str, BodyState]:
    """Name the original, the body as found, cut in each way, and each of these with the work."""
    work = tuple(frame_work.values())
    left = rust_left(shell_model, drawn_grades, body_belief.odds)
    found = {"original": BodyState(), "as found": BodyState(left=left)}
    cuts = {told: cut for kind, told in CUTS.items() if (cut := _cut(kind, shell_model.template))}
    for told, cut in cuts.items():
        found[told] = BodyState(work=(cut,))
    if work:
        found["after the work"] = BodyState(work=work)
        for told, cut in cuts.items():
            if cut.name not in [one.name for one in work]:
                found[f"{told}, with the work"] = BodyState(work=(*work, cut))
    return found


@quantity(
    "-",
    "Torsional stiffness in each state over the original's",
    source="beam-frame-theory",
    per="state",
)
def shell_state_torsion(shell_model: ShellModel, frame_states: dict[str, BodyState]) -> Labelled:
    """Solve each state anew: as found by what rust is believed to leave, cut, after the work."""
    return _over_original(shell_model, frame_states, "torsion")


@quantity(
    "-",
    "Bending stiffness in each state over the original's",
    source="beam-frame-theory",
    per="state",
)
def shell_state_bending(shell_model: ShellModel, frame_states: dict[str, BodyState]) -> Labelled:
    """Solve each state anew, held over the axles and loaded between them."""
    return _over_original(shell_model, frame_states, "bending")


@quantity(
    "Hz",
    "First mode of the bare body in each state, hanging free",
    source="beam-frame-theory",
    per="state",
)
def shell_state_mode(
    shell_model: ShellModel, frame_states: dict[str, BodyState], shell_state_torsion: Labelled
) -> Labelled:
    """Solve the nominal body; samples go with the root of their torsional stiffness."""
    base = shell_model.sampled("torsion").stiffness
    found = {}
    for name, state in frame_states.items():
        stiffness = base * shell_state_torsion[name]
        found[name] = _first_mode(shell_model, state) * np.sqrt(stiffness / stiffness[0])
    return found


@quantity(
    "-",
    "Torsional stiffness with the spring towers cut out and the work done, over the original's",
    source="beam-frame-theory",
)
def shell_towers_out(
    shell_model: ShellModel, frame_work: dict[str, Addition], shell: Shell
) -> Values:
    """Say whether an option makes good what cutting the towers takes."""
    cut, work = _cut("cut towers", shell_model.template), tuple(frame_work.values())
    if cut is None:
        raise DoesNotApply(shell.path, f"a {shell_model.template} frame has no spring towers")
    if not work and (shell.has("gain") or shell.measures):
        raise DoesNotApply(shell.path, "the work's gain is given, so that the frame has not got it")
    if any(change in cut.changes for one in work for change in one.changes):
        after = shell_model.sampled("torsion", work)
    else:
        after = shell_model.sampled("torsion", (*work, cut))
    return np.asarray(after.stiffness / shell_model.sampled("torsion").stiffness)


@quantity("money", "Price of the work on the body", source="the-build-file")
def shell_work_price(shell: Shell) -> Values:
    """Return what the option says; nothing where the body stays as it is."""
    if shell.as_is and not shell.has("price"):
        raise DoesNotApply(shell.path_of("price"), "the body stays as it is")
    return shell.price


@quantity("s", "Waiting for the work on the body", source="the-build-file", shown="week")
def shell_work_wait(shell: Shell) -> Values:
    """Return the time from order to delivery."""
    if shell.as_is and not shell.has("lead_time"):
        raise DoesNotApply(shell.path_of("lead_time"), "the body stays as it is")
    return shell.lead_time


@quantity(
    "s", "Working weeks that the work on the body takes", source="the-build-file", shown="week"
)
def shell_work_weeks(shell: Shell, work: Work) -> Values:
    """Hours of fitting over the hours that the owner has in a usual week."""
    if shell.as_is and not shell.has("fitting"):
        raise DoesNotApply(shell.path_of("fitting"), "the body stays as it is")
    weekly = work.hours_a_week
    three = shell.fitting
    figure = ThreePoint(three.least, three.likely, three.most)
    hours = sample(figure, shell.path, {}, len(weekly) - 1)
    return np.asarray(hours / weekly * 7.0 * 86400.0)


def _over_original(
    model: ShellModel, states: Mapping[str, BodyState], case: str
) -> dict[str, Values]:
    original = model.sampled(case).stiffness
    return {
        name: np.ones_like(original)
        if name == "original"
        else model.sampled(case, state.work, left=state.left).stiffness / original
        for name, state in states.items()
    }


def _first_mode(model: ShellModel, state: BodyState) -> float:
    built = model.built(state.work)
    factors = model.nominal(state.work)
    mass = lumped_mass(elements=built.elements, factors=factors)  # rust softens more than it weighs
    mass = np.maximum(mass, 1e-3 * mass.max())
    if state.left is not None:
        names = [*(bar.name for bar in built.bars), *(one.name for one in built.sheets)]
        kept = np.array([float(state.left.get(name, np.ones(1))[0]) for name in names])
        count = len(built.bars)
        factors = Factors(
            member=factors.member * kept[:count],
            joint=factors.joint,
            panel=factors.panel * kept[count:] if len(built.sheets) else factors.panel,
        )
    modes = free_modes(elements=built.elements, factors=factors, mass=mass, count=1)
    return float(modes.frequency[0])


def _cut(kind: str, template: str) -> Addition | None:
    try:
        return Addition(name=kind, changes=changes(kind, template))
    except TableError:
        return None  # the template has no such place
