"""How far ball joints, bushes and half-shafts bend over the travel; not asked without points."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from drybuild.errors import DoesNotApply
from drybuild.project.samples import Values
from drybuild.project.steering import Steering
from drybuild.project.suspension import FrontSuspension, RearSuspension, Suspension
from drybuild.quantities.axles import FRONT, REAR
from drybuild.quantities.quantity import Labelled, quantity, step
from drybuild.quantities.wheels_links import STEERS, TRAVELS, guided, travels

if TYPE_CHECKING:
    from drybuild.physics.linkage.layouts import Swept

Linkages = dict[str, "Swept"]
"""By axle; empty where no points are given."""
KINDS = {"ball": "ball_joint_cone", "bush": "bush_cone"}


@step("Front linkage at bump, droop and full lock", source="dixon-suspension")
def front_at_lock(front_suspension: FrontSuspension, steering: Steering) -> Labelled:
    """Return the greatest tilt of every joint at full lock, at bump, standing and at droop."""
    found = guided(
        suspension=front_suspension,
        camber=front_suspension.camber,
        toe_in=front_suspension.toe_in / 2.0,
        travel=travels(front_suspension.droop_travel, front_suspension.bump_travel),
        lock=float(steering.inner_lock[0]),
        steers=STEERS,
        roll=np.zeros(1),
    )
    if found is None or found.swept.motion.steer.size == 1:
        return {}
    from drybuild.physics.linkage.joint_angles import joint_tilts  # noqa: PLC0415  kept for need

    rows = np.array([0, TRAVELS // 2, TRAVELS - 1]) * STEERS
    places = np.concatenate((rows, rows + STEERS - 1))
    tilts: Labelled = {}
    for joint in joint_tilts(motion=found.swept.motion, places=places):
        slopes = np.nan_to_num(joint.tilt[:, 1:] - joint.tilt[:, :1])
        values = np.abs(joint.tilt[:, :1] + slopes @ found.errors)
        if np.isfinite(values[:, 0]).any():
            tilts[joint.name] = np.nanmax(values, axis=0)
    return tilts


@quantity("-", "Tilt of a joint over what it may", per="axle and joint", source="reimpell-steering",
          shown="%")  # fmt: skip
def joint_tilt(
    front_linkage: Linkages,
    rear_linkage: Linkages,
    front_at_lock: Labelled,
    front_suspension: FrontSuspension,
    rear_suspension: RearSuspension,
) -> Labelled:
    """Return the greatest tilt of every ball and bush over its allowance.

    At full bump or droop, and in front at full lock as well. Where lock brings more, the spread
    is that of the points' slopes.
    """
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
            tilt = joint.tilt.max(axis=0)
            if axle == FRONT and joint.name in front_at_lock:
                tilt = np.maximum(tilt, front_at_lock[joint.name])
            found[f"{axle} {joint.name}"] = tilt / allowed
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
