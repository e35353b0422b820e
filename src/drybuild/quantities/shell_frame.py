"""The body as a frame: stiffness before and after, modes, where the strain is, what rust costs."""

from __future__ import annotations

import numpy as np

from drybuild.errors import DoesNotApply, InputError, MissingInput, TableError
from drybuild.physics.condition import Belief
from drybuild.project.body import Body
from drybuild.project.samples import Values
from drybuild.project.shell import Measure, Shell, Structure
from drybuild.quantities.quantity import Labelled, quantity, step
from drybuild.quantities.shell_families import added_mass, mode_frequencies
from drybuild.quantities.shell_model import (
    Addition,
    ShellModel,
    rust_left,
    template_bars,
    template_sheets,
)
from drybuild.quantities.shell_template import (
    addition_of,
    body_on_mounts,
    known_stiffness,
    left_out,
    own_bars,
    own_places,
    section_sizes,
    tape_measures,
    template_of,
)


@step("The body as a frame of beams and panels", source="beam-frame-theory")
def shell_model(structure: Structure, body: Body) -> ShellModel:
    """Put a template of this kind of body to this car's size; what is known sets its joints."""
    frame = structure.frame_model
    template = template_of(frame, body)
    sizes, walls = section_sizes(frame, structure, template, body)
    known, path = known_stiffness(structure, body)
    without = left_out(frame, template)
    places, own = own_places(frame, template)
    return ShellModel(
        template=template,
        tape={**tape_measures(structure, body, template), **own},
        sizes=sizes,
        walls=walls,
        joint_rate=frame.joint_rate,
        warping_held=frame.warping_held,
        places=places,
        panel_thickness=structure.panel_thickness,
        panel_share=structure.joint_share,
        bars=(*template_bars(template, without), *own_bars(frame, places)),
        sheets=template_sheets(template, without),
        known=known,
        known_path=path,
    )


@step("What the picked work does to the frame", source="beam-frame-theory")
def frame_work(shell_model: ShellModel, shell: Shell) -> dict[str, Addition]:
    """Each measure that the frame knows and that gives no gain of its own; none is no fault."""
    found: dict[str, Addition] = {}
    parts: dict[str, Measure | Shell] = {**shell.measures} or {"all": shell}
    for name, one in parts.items():
        if one.has("gain") or one.has("added_stiffness"):
            continue
        addition = addition_of(name, one, shell_model)
        if addition is not None:
            found[name] = addition
    return found


@step("Stiffness that the frame model gives each measure, as a share", source="beam-frame-theory")
def frame_gains(
    shell_model: ShellModel, frame_work: dict[str, Addition], shell: Shell
) -> dict[str, Values]:
    """Each measure on top of those before it, solved again: gains of frames do not add up."""
    if not frame_work:
        return {}
    try:
        before = original = shell_model.sampled("torsion").stiffness
        found: dict[str, Values] = {}
        done: tuple[Addition, ...] = ()
        for name, one in frame_work.items():
            done = (*done, one)
            after = shell_model.sampled("torsion", done).stiffness
            found[name] = (after - before) / original
            before = after
    except (InputError, TableError) as fault:
        raise MissingInput(shell.path_of("gain"), f"the frame model: {fault}") from fault
    return found


@quantity(
    "N·m/rad",
    "Torsional stiffness of the bare body by the frame model",
    source="beam-frame-theory",
    per="state",
    shown="N·m/deg",
)
def shell_frame_torsion(
    shell_model: ShellModel,
    frame_work: dict[str, Addition],
    glass_stiffness_share: Values,
) -> Labelled:
    """Read between the mounts of the axles; with and without panes, before and after the work.

    A frame with a body of its own is read with that body on its rubber mounts, panes and all.
    """
    size = shell_model.size_effect() if shell_model.known is None else 1.0
    work = tuple(frame_work.values())
    mounted = body_on_mounts(shell_model.template)
    body, more = ((mounted,), "with its body on its mounts") if mounted else ((), "with its panes")
    found = {
        "original": shell_model.sampled("torsion").stiffness,
        f"original {more}": shell_model.sampled(
            "torsion", body, panes=glass_stiffness_share
        ).stiffness,
    }
    if work:
        found["after the work"] = shell_model.sampled("torsion", work).stiffness
        found[f"after the work {more}"] = shell_model.sampled(
            "torsion", (*work, *body), panes=glass_stiffness_share
        ).stiffness
    return {state: size * stiffness for state, stiffness in found.items()}


@quantity(
    "N/m",
    "Bending stiffness of the bare body by the frame model",
    source="beam-frame-theory",
    per="state",
    shown="N/mm",
)
def shell_frame_bending(shell_model: ShellModel, frame_work: dict[str, Addition]) -> Labelled:
    """Held over both axles, loaded between them."""
    found = {"original": shell_model.sampled("bending").stiffness}
    if frame_work:
        work = tuple(frame_work.values())
        found["after the work"] = shell_model.sampled("bending", work).stiffness
    return found


@quantity(
    "-",
    "Torsional stiffness that the frame model gives each measure, over the original's",
    source="beam-frame-theory",
    per="measure",
    shown="%",
)
def shell_frame_gain(frame_gains: dict[str, Values], shell: Shell) -> Labelled:
    """Each on top of those before it: the change is surer than either stiffness."""
    if not frame_gains:
        raise DoesNotApply(shell.path_of("measures"), "no measure is left to the frame model")
    return frame_gains


@quantity(
    "-",
    "Torsional stiffness after the work over the original's, by the frame model",
    source="beam-frame-theory",
)
def shell_frame_ratio(frame_gains: dict[str, Values], shell: Shell) -> Values:
    """All measures that the frame model answers for, together."""
    if not frame_gains:
        raise DoesNotApply(shell.path_of("measures"), "no measure is left to the frame model")
    return np.asarray(1.0 + sum(frame_gains.values()))


@quantity(
    "-",
    "Bending stiffness after the work over the original's, by the frame model",
    source="beam-frame-theory",
)
def shell_frame_bending_ratio(
    shell_model: ShellModel, frame_work: dict[str, Addition], shell: Shell
) -> Values:
    """Show what the work does for bending: often less than for torsion."""
    if not frame_work:
        raise DoesNotApply(shell.path_of("measures"), "no measure is left to the frame model")
    after = shell_model.sampled("bending", tuple(frame_work.values())).stiffness
    return np.asarray(after / shell_model.sampled("bending").stiffness)


@quantity("kg", "Steel that the modelled work adds", source="beam-frame-theory", per="measure")
def shell_frame_added_mass(
    shell_model: ShellModel, frame_work: dict[str, Addition], shell: Shell
) -> Labelled:
    """Members by length and section, doubled walls by the metal that is doubled; no brackets."""
    if not frame_work:
        raise DoesNotApply(shell.path_of("measures"), "no measure is left to the frame model")
    return {
        name: np.full_like(shell_model.joint_rate, added_mass(shell_model, one))
        for name, one in frame_work.items()
    }


@quantity(
    "N·m/(rad·kg)",
    "Torsional stiffness gained for each kilogram, by the frame model",
    source="beam-frame-theory",
    shown="N·m/(deg·kg)",
)
def shell_frame_gain_by_mass(
    shell_frame_ratio: Values,
    shell_original_stiffness: Values,
    reinforcement_mass: Values,
    shell: Shell,
) -> Values:
    """Gain of all measures over the mass of the option."""
    if not np.all(reinforcement_mass > 0.0):
        raise DoesNotApply(shell.path_of("mass"), "nothing is added to the shell")
    return (shell_frame_ratio - 1.0) * shell_original_stiffness / reinforcement_mass


@quantity(
    "money",
    "Price of each 100 N·m/deg gained, by the frame model",
    source="beam-frame-theory",
)
def shell_frame_price_of_gain(
    shell_frame_ratio: Values, shell_original_stiffness: Values, shell: Shell
) -> Values:
    """Price of the option over its gain; the owner's hours are not in it."""
    gained = (shell_frame_ratio - 1.0) * shell_original_stiffness * np.pi / 180.0
    return shell.price / np.where(gained > 0.0, gained, np.nan) * 100.0


@quantity(
    "N/m",
    "Stiffness of the front mounts against being pushed apart",
    source="beam-frame-theory",
    per="state",
    shown="N/mm",
)
def shell_frame_tower_spread(shell_model: ShellModel, frame_work: dict[str, Addition]) -> Labelled:
    """Left and right mount pushed outwards by one force; what a tie between them is for."""
    found = {"original": shell_model.sampled("spread").stiffness}
    if frame_work:
        work = tuple(frame_work.values())
        found["after the work"] = shell_model.sampled("spread", work).stiffness
    return found


@quantity(
    "N·m/rad", "Turning rate of a joint, as the frame model takes it", source="frame-joint-rates"
)
def shell_frame_joint_rate(shell_model: ShellModel) -> Values:
    """By its typical spread; where the body was twisted or its stiffness is known, by that."""
    return np.asarray(shell_model.joint_scale() * shell_model.joint_rate[0])


@quantity(
    "Hz", "First modes of the bare body, hanging free", source="beam-frame-theory", per="mode"
)
def shell_frame_modes(shell_model: ShellModel) -> Labelled:
    """Steel of the model only, no doors, panes, trim or engine: those bring it down by a half."""
    return mode_frequencies(shell_model)


@quantity(
    "-",
    "Torsional stiffness as the rust leaves it over the sound body's",
    source="beam-frame-theory",
)
def shell_frame_as_found(
    shell_model: ShellModel, drawn_grades: dict[str, Values], body_belief: Belief
) -> Values:
    """Every zone as believed: a patch keeps 80 %, one to replace 40 %; repaired it is one again."""
    left = rust_left(shell_model, drawn_grades, body_belief.odds)
    found = shell_model.sampled("torsion", left=left)
    return found.stiffness / shell_model.sampled("torsion").stiffness
