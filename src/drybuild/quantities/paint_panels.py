"""Gaps and steps of the panels as measured, against what a good car has."""

from __future__ import annotations

import numpy as np

from drybuild.errors import DoesNotApply
from drybuild.project.paint import PanelJoint, Panels
from drybuild.quantities.quantity import Labelled, quantity
from drybuild.tables.paint_shop import Joint, joints


def joint_of(name: str) -> Joint:
    """Return the row of a joint, whatever side is told behind its name."""
    kind = max((one for one in joints() if name.startswith(one)), key=len)
    return joints()[kind]


@quantity(
    "m", "Room of a gap to the nearer end of its band", source="common-practice", per="joint",
    shown="mm",
)  # fmt: skip
def panel_gap_room(panels: Panels) -> Labelled:
    """Return it for the worse end; below nought the gap is too tight or too wide."""
    found = {}
    for name, one in _given(panels, "start").items():
        low, _, high = joint_of(name).gap
        ends = [one.start, *([one.end] if one.has("end") else [])]
        found[name] = np.minimum.reduce([np.minimum(end - low, high - end) for end in ends])
    return found


@quantity(
    "m", "Room of a gap's taper to what is allowed", source="common-practice", per="joint",
    shown="mm",
)  # fmt: skip
def panel_taper_room(panels: Panels) -> Labelled:
    """Return what is allowed less the difference between both ends."""
    found = {
        name: joint_of(name).taper - np.abs(one.start - one.end)
        for name, one in _given(panels, "start").items()
        if one.has("end")
    }
    if not found:
        raise DoesNotApply(panels.path_of("joints"), "no gap is measured at both ends")
    return found


@quantity(
    "m", "Room of a step to the nearer end of its band", source="common-practice", per="joint",
    shown="mm",
)  # fmt: skip
def panel_step_room(panels: Panels) -> Labelled:
    """Below nought the first panel stands too proud of the second, or too far below."""
    found = {}
    for name, one in _given(panels, "step").items():
        low, high = joint_of(name).flush
        found[name] = np.minimum(one.step - low, high - one.step)
    return found


def _given(panels: Panels, entry: str) -> dict[str, PanelJoint]:
    found = {name: one for name, one in panels.joints.items() if one.has(entry)}
    if not found:
        raise DoesNotApply(panels.path_of("joints"), "nobody has measured gaps and steps")
    return found
