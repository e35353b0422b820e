"""Parts of the body as a person names them: both sides of a member or panel taken together."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from drybuild.physics.frame.assembly import Factors
from drybuild.physics.frame.modes import free_modes, lumped_mass
from drybuild.physics.frame.reduced import Sampled
from drybuild.physics.frame.solve import knock_out
from drybuild.project.samples import Values
from drybuild.quantities.shell_model import Addition, ShellModel
from drybuild.tables.frame import Bar, Sheet

MODES = ("first", "second", "third")
SOLVED = 5
"""Samples whose modes are solved in full."""
GONE = 1e-6
"""What is left of a part that is cut out, so that a loose end does not make a mechanism."""


def by_family(model: ShellModel, solved: Sampled) -> dict[str, Values]:
    """Return the share of the strain energy in the metal of each family of parts."""
    built = model.built()
    parts: tuple[Bar | Sheet, ...] = (*built.bars, *built.sheets)
    found: dict[str, Values] = {}
    for one, share in zip(parts, (*solved.member_share, *solved.panel_share), strict=True):
        found[one.family] = found.get(one.family, 0.0) + share
    return found


def family_mass(model: ShellModel) -> dict[str, float]:
    """Return the metal of each family of parts; panes are left out."""
    built = model.built()
    masses = (*built.elements.member_mass, *built.elements.panel_mass)
    found: dict[str, float] = {}
    for one, mass in zip(_steel(built.bars, built.sheets), masses, strict=True):
        if one is not None:
            found[one.family] = found.get(one.family, 0.0) + float(mass)
    return found


def family_losses(model: ShellModel) -> dict[str, float]:
    """Return the share of torsional stiffness that goes with each family, solved again."""
    built, factors = model.built(), _row(model.factors(), 0)
    parts: dict[str, list[str]] = {}
    for one in _steel(built.bars, built.sheets):
        if one is not None:
            parts.setdefault(one.family, []).append(one.name)

    def left(names: tuple[str, ...]) -> float:
        return knock_out(
            elements=built.elements, factors=factors, case=built.torsion, members=names, left=GONE
        )

    whole = left(())
    return {family: 1.0 - left(tuple(names)) / whole for family, names in parts.items()}


def added_mass(model: ShellModel, one: Addition) -> float:
    """Return the steel that a measure adds: members, and walls or sheets made thicker."""
    before, after = model.built(), model.built((one,))
    mass = float(after.elements.member_mass.sum() - before.elements.member_mass.sum())
    families = family_mass(model)
    return mass + sum(
        (change.share - 1.0) * families[change.target]
        for change in one.changes
        if change.action in ("wall", "sheet")
    )


def mode_frequencies(model: ShellModel) -> dict[str, Values]:
    """Return the first modes: some samples in full, the rest by a power of their stiffness."""
    built, factors = model.built(), model.factors()
    stiffness = model.sampled("torsion").stiffness
    order = np.argsort(stiffness)[: int(np.isfinite(stiffness).sum())]
    some = order[np.linspace(0, len(order) - 1, SOLVED - 1).round().astype(np.int64)]
    places = np.concatenate([[0], some])
    solved = []
    for place in places:
        row = _row(factors, int(place))
        mass = lumped_mass(elements=built.elements, factors=row)
        mass = np.maximum(mass, 1e-3 * mass.max())
        modes = free_modes(elements=built.elements, factors=row, mass=mass, count=len(MODES))
        solved.append(modes.frequency)
    logs = np.log(np.array(solved))
    along = np.log(stiffness / stiffness[0])
    found = {}
    for number, name in enumerate(MODES):
        far = along[places[1:]]
        power = (
            float(far @ (logs[1:, number] - logs[0, number]) / (far @ far)) if far.any() else 0.0
        )
        found[name] = np.exp(logs[0, number] + power * along)
    return found


@dataclass(frozen=True, kw_only=True)
class PartLine:
    """A member or panel as a drawing shows it."""

    name: str
    corners: tuple[tuple[float, float, float], ...]
    """Two ends of a member, four corners of a panel. [m]"""
    share: float
    """Share of the strain energy in torsion, a member's joints counted in."""
    added: bool
    """Whether the picked work brings it."""
    family: str = ""
    """Its name without the side."""
    section: str = ""
    """What its section is called; empty for a panel."""


def part_lines(model: ShellModel, work: tuple[Addition, ...]) -> tuple[PartLine, ...]:
    """Return every member and panel with its places and its share of the strain energy."""
    built, solved = model.built(work), model.sampled("torsion", work)
    places, frame = built.frame.places, built.frame
    ends = np.stack([frame.members.start, frame.members.end], axis=1)
    before = {bar.name for bar in model.bars}
    shares = (*(solved.member_share + solved.joint_share)[:, 0], *solved.panel_share[:, 0])
    parts: tuple[Bar | Sheet, ...] = (*built.bars, *built.sheets)
    corners = (*ends, *frame.panels.corners)
    return tuple(
        PartLine(
            name=one.name,
            corners=tuple((float(x), float(y), float(z)) for x, y, z in places[nodes]),
            share=float(share),
            added=isinstance(one, Bar) and one.name not in before,
            family=one.family,
            section=one.section if isinstance(one, Bar) else "",
        )
        for one, nodes, share in zip(parts, corners, shares, strict=True)
    )


def _steel(bars: tuple[Bar, ...], sheets: tuple[Sheet, ...]) -> tuple[Bar | Sheet | None, ...]:
    """Return members and panels, with nothing in the place of a pane."""
    return (*bars, *(one if one.metal != "glass" else None for one in sheets))


def _row(factors: Factors, row: int) -> Factors:
    return Factors(member=factors.member[row], joint=factors.joint[row], panel=factors.panel[row])
