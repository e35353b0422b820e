"""How far ball joints, bushes and half-shafts bend over the travel; not asked without points."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from drybuild.errors import DoesNotApply
from drybuild.project.samples import Values
from drybuild.project.suspension import FrontSuspension, RearSuspension, Suspension
from drybuild.quantities.axles import FRONT, REAR
from drybuild.quantities.quantity import Labelled, quantity

if TYPE_CHECKING:
    from drybuild.physics.linkage.layouts import Swept

Linkages = dict[str, "Swept"]
"""By axle; empty where no points are given."""
KINDS = {"ball": "ball_joint_cone", "bush": "bush_cone"}


@quantity("-", "Tilt of a joint over what it may", per="axle and joint", source="reimpell-steering",
          shown="%")  # fmt: skip
def joint_tilt(
    front_linkage: Linkages,
    rear_linkage: Linkages,
    front_suspension: FrontSuspension,
    rear_suspension: RearSuspension,
) -> Labelled:
    """Return the greatest tilt at full bump or droop of every ball and bush, over its allowance."""
    both = {**front_linkage, **rear_linkage}
    if not both:
        raise DoesNotApply("options.front_suspension.points", "no hardpoints are given")
    from drybuild.physics.linkage.joint_angles import joint_tilts  # noqa: PLC0415  kept for need

    ends: dict[str, Suspension] = {FRONT: front_suspension, REAR: rear_suspension}
    found: Labelled = {}
    for axle, one in both.items():
        places = np.array([0, len(one.motion.travel) - 1])
        for joint in joint_tilts(motion=one.motion, places=places):
            allowed: Values = getattr(ends[axle], KINDS[joint.kind])
            found[f"{axle} {joint.name}"] = joint.tilt.max(axis=0) / allowed
    if not found:
        raise DoesNotApply("options.front_suspension.points", "none of its joints tilts")
    return found


@quantity("rad", "Bend of a half-shaft's joint over the travel", per="axle and joint",
          source="dixon-suspension", shown="deg")  # fmt: skip
def half_shaft_angle(front_linkage: Linkages, rear_linkage: Linkages) -> Labelled:
    """Return the greatest angle of the inner and the outer joint."""
    found: Labelled = {}
    for axle, angles in _shafts(front_linkage, rear_linkage).items():
        for name, angle in zip(("inner", "outer"), angles[:2], strict=True):
            found[f"{axle} {name}"] = angle.max(axis=0)
    return found


@quantity("rad", "Bend that a half-shaft's joint may have", per="axle and joint",
          source="common-practice", shown="deg")  # fmt: skip
def half_shaft_allowed(
    front_linkage: Linkages,
    rear_linkage: Linkages,
    front_suspension: FrontSuspension,
    rear_suspension: RearSuspension,
) -> Labelled:
    """Return what is given, else what such joints usually bear."""
    ends: dict[str, Suspension] = {FRONT: front_suspension, REAR: rear_suspension}
    return {
        f"{axle} {name}": ends[axle].shaft_joint_angle
        for axle in _shafts(front_linkage, rear_linkage)
        for name in ("inner", "outer")
    }


@quantity("m", "Plunge of a half-shaft over the travel", per="axle", source="dixon-suspension",
          shown="mm")  # fmt: skip
def half_shaft_plunge(front_linkage: Linkages, rear_linkage: Linkages) -> Labelled:
    """Return the longest less the shortest distance between its joints."""
    return {
        axle: np.asarray(np.ptp(found[2], axis=0))
        for axle, found in _shafts(front_linkage, rear_linkage).items()
    }


def _shafts(front: Linkages, rear: Linkages) -> dict[str, tuple[Values, Values, Values]]:
    found = {}
    for axle, one in {**front, **rear}.items():
        ends = [one.linkage.points.get(name) for name in ("shaft_inner", "shaft_outer")]
        if ends[0] is None or ends[1] is None:
            continue
        from drybuild.physics.linkage.joint_angles import shaft_angles  # noqa: PLC0415  for need

        places = np.arange(len(one.motion.travel))
        found[axle] = shaft_angles(motion=one.motion, inner=ends[0], outer=ends[1], places=places)
    if not found:
        raise DoesNotApply("options.rear_suspension.points", "no half-shaft's points are given")
    return found
