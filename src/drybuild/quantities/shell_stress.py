"""Stress in members by their end forces: the worst corner of the section at either end."""

from __future__ import annotations

from collections.abc import Mapping

import numpy as np

from drybuild.physics.frame.assembly import Factors
from drybuild.physics.frame.solve import end_forces, solve
from drybuild.project.samples import Values
from drybuild.quantities.shell_model import Built, ShellModel
from drybuild.quantities.shell_sections import fibres
from drybuild.tables.frame import SectionSize


def member_stress(built: Built, sizes: Mapping[str, SectionSize], force: Values) -> Values:
    """Return the greatest stress in every member.

    Axial and both bending stresses, added as the worst corner takes them; torsion's shear is left
    out, and rubber has none.

    Parameters
    ----------
    built : Built
        The frame.
    sizes : mapping
        Sections by name.
    force : array
        Forces and moments at members' ends in their own axes, (..., members, 12). [N, N·m]

    """
    members = built.frame.members
    reach = {name: fibres(sizes[name]) for name in {bar.section for bar in built.bars}}
    far = np.array([reach[bar.section] for bar in built.bars])
    rubber = np.array([sizes[bar.section].shape == "mount" for bar in built.bars])
    by_end = [
        np.abs(force[..., first]) / members.area
        + np.abs(force[..., first + 5]) * far[:, 0] / members.second_moment_upright
        + np.abs(force[..., first + 4]) * far[:, 1] / members.second_moment_sideways
        for first in (0, 6)
    ]
    return np.where(rubber, 0.0, np.maximum(*by_end))


def own_forces(built: Built, factors: Factors, motion: Values) -> Values:
    """Return members' end forces as a wall of nominal thickness would feel them."""
    force = end_forces(elements=built.elements, factors=factors, motion=motion)
    return force / factors.member[..., :, None]


def greatest_by_family(built: Built, stress: Values) -> dict[str, Values]:
    """Return the greatest stress in each family of members; stress is (..., members)."""
    found: dict[str, Values] = {}
    for number, bar in enumerate(built.bars):
        one = stress[..., number]
        found[bar.family] = np.maximum(found[bar.family], one) if bar.family in found else one
    return found


def family_stress(model: ShellModel) -> tuple[dict[str, float], dict[str, float]]:
    """Return the greatest stress in each family, per torque and per load between the axles."""
    return model.once(("stress",), lambda: _family_stress(model))


def _family_stress(model: ShellModel) -> tuple[dict[str, float], dict[str, float]]:
    built, factors = model.built(), model.nominal()
    found = []
    for case in (built.torsion, built.bending):
        motion = solve(elements=built.elements, factors=factors, case=case).motion
        stress = member_stress(built, model.sizes, own_forces(built, factors, motion))
        greatest = greatest_by_family(built, stress)
        found.append({family: float(one) for family, one in greatest.items()})
    return found[0], found[1]
