"""What the hardpoints of a suspension make of it; open, or not asked, where none are given.

The solver is imported only when there are points to solve for: a build without them starts fast.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

import numpy as np

from drybuild.errors import DoesNotApply, InputError
from drybuild.physics import anti_geometry as physics
from drybuild.project.linkage import Hardpoints
from drybuild.project.samples import Values
from drybuild.project.suspension import FrontSuspension, RearSuspension, Suspension
from drybuild.quantities.axles import FRONT, REAR, constant
from drybuild.quantities.quantity import Labelled, quantity, step
from drybuild.quantities.suspension_alignment import rear_camber, rear_toe_in
from drybuild.tables.suspension import Layout

if TYPE_CHECKING:
    from drybuild.physics.linkage.layouts import Linkage, Swept
    from drybuild.physics.linkage.vectors import Array

PLACES = 4
"""Positions on each side of the standing one."""
UNKNOWN = 1e-9
"""The solver closes every joint to less than this. [m]"""
ANY_RADIUS = 0.3
BEND_ROLL = np.radians(3.0)
"""Roll of the body in a brisk bend. [rad]"""
Linkages = dict[str, "Swept"]
"""By axle; empty where no points are given."""


@step("Front linkage over its travel", source="dixon-suspension")
def front_linkage(front_suspension: FrontSuspension) -> Linkages:
    """Move the front wheels from droop to bump, if their hardpoints are given."""
    camber, toe_in = front_suspension.camber, front_suspension.toe_in
    return _linkage(FRONT, front_suspension, camber, toe_in / 2.0)


@step("Rear linkage over its travel", source="dixon-suspension")
def rear_linkage(rear_suspension: RearSuspension) -> Linkages:
    """Move the rear wheels from droop to bump, if their hardpoints are given."""
    camber, toe_in = rear_camber(rear_suspension), rear_toe_in(rear_suspension)
    return _linkage(REAR, rear_suspension, camber, toe_in / 2.0)


@step("Front linkage on its wheels", source="dixon-suspension")
def front_rolling(front_linkage: Linkages, static_radius: Labelled) -> Linkages:
    """Put the tyres' radius to the motion: where the road is."""
    return {axle: one.rolling(static_radius[axle]) for axle, one in front_linkage.items()}


@step("Rear linkage on its wheels", source="dixon-suspension")
def rear_rolling(rear_linkage: Linkages, static_radius: Labelled) -> Linkages:
    """Put the tyres' radius to the motion: where the road is."""
    return {axle: one.rolling(static_radius[axle]) for axle, one in rear_linkage.items()}


@quantity("-", "Travel that the links follow, of what is wanted", per="axle",
          source="dixon-suspension", shown="%")  # fmt: skip
def linkage_travel(front_linkage: Linkages, rear_linkage: Linkages) -> Labelled:
    """Return the part of bump and droop, whichever is worse, before a link stops the wheel."""
    return _each(front_linkage, rear_linkage, _followed)


@quantity("rad/m", "Camber that a wheel gains inward per bump", per="axle",
          source="dixon-suspension", shown="deg/m")  # fmt: skip
def camber_gain(front_linkage: Linkages, rear_linkage: Linkages) -> Labelled:
    """Return the slope at standing height; a rigid axle has none while it stays level."""
    return _each(front_linkage, rear_linkage, lambda one: -_standing(one.standing.left.camber_rate))


@quantity("rad", "Camber at full bump, to the body", per="axle", source="dixon-suspension",
          shown="deg")  # fmt: skip
def camber_at_bump(front_linkage: Linkages, rear_linkage: Linkages) -> Labelled:
    """Return it with the top outward positive."""
    return _each(front_linkage, rear_linkage, lambda one: _whole(one).left.camber[-1, 0, 0])


@quantity("rad", "Camber to the road in about 3 deg of roll", per="axle and wheel",
          source="milliken", shown="deg")  # fmt: skip
def camber_in_roll(front_rolling: Linkages, rear_rolling: Linkages) -> Labelled:
    """Let the outer wheel rise, and the inner one fall, by what 3 deg asks of the half track."""
    both = _some(front_rolling, rear_rolling)
    from drybuild.physics.linkage.body_roll import rolled  # noqa: PLC0415  kept for need

    found: Labelled = {}
    for axle, one in both.items():
        half = float(np.ravel(one.linkage.mechanism.wheels[0].centre[1])[0])
        wheels = rolled(linkage=one.linkage, travel=np.array([half * np.tan(BEND_ROLL)]))
        found[f"{axle} outer"] = wheels.outer_camber[0]
        found[f"{axle} inner"] = wheels.inner_camber[0]
    return found


@quantity("rad/m", "Toe-in of a wheel per bump: bump steer", per="axle",
          source="dixon-suspension", shown="deg/m")  # fmt: skip
def bump_steer(front_linkage: Linkages, rear_linkage: Linkages) -> Labelled:
    """Return the slope at standing height, front edge inward positive."""
    return _each(front_linkage, rear_linkage, lambda one: _standing(one.standing.left.toe_in_rate))


@quantity("rad", "Greatest toe change over the travel", per="axle", source="dixon-suspension",
          shown="deg")  # fmt: skip
def toe_change(front_linkage: Linkages, rear_linkage: Linkages) -> Labelled:
    """Return the greatest difference from standing, of one wheel."""

    def change(one: Swept) -> Values:
        toe = _whole(one).left.toe_in[:, 0, 0]
        return np.asarray(np.abs(toe - toe[PLACES]).max(axis=0))

    return _each(front_linkage, rear_linkage, change)


@quantity("rad/m", "Caster that the axis gains per bump", per="axle", source="dixon-suspension",
          shown="deg/m")  # fmt: skip
def caster_change(front_linkage: Linkages, rear_linkage: Linkages) -> Labelled:
    """Return the turn of the wheel's carrier seen from the side, top rearward positive."""
    return _each(front_linkage, rear_linkage, lambda one: _standing(one.standing.left.caster_rate))


@quantity("m", "Greatest sideways scrub of the contact over the travel", per="axle",
          source="dixon-suspension", shown="mm")  # fmt: skip
def contact_scrub(front_rolling: Linkages, rear_rolling: Linkages) -> Labelled:
    """Return how far the contact of one wheel leaves its standing place: half the track change."""

    def scrub(one: Swept) -> Values:
        offset = _whole(one).left.contact_offset[:, 0, 0]
        return np.asarray(np.abs(offset - offset[PLACES]).max(axis=0))

    return _each(front_rolling, rear_rolling, scrub)


@quantity("m", "Greatest fore-and-aft travel of the wheel's centre", per="axle",
          source="dixon-suspension", shown="mm")  # fmt: skip
def wheel_recession(front_linkage: Linkages, rear_linkage: Linkages) -> Labelled:
    """Return how far the wheel's centre leaves its standing place: the wheelbase change."""

    def recession(one: Swept) -> Values:
        return np.asarray(np.abs(_whole(one).left.wheelbase_change[:, 0, 0]).max(axis=0))

    return _each(front_linkage, rear_linkage, recession)


@quantity("m", "Roll centre over the road from the hardpoints", per="axle",
          source="dixon-suspension", shown="mm")  # fmt: skip
def linkage_roll_centre(front_rolling: Linkages, rear_rolling: Linkages) -> Labelled:
    """Return the height standing; of an axle, where its roll axis passes its middle."""
    return _each(
        front_rolling, rear_rolling, lambda one: _standing(one.standing.left.roll_centre_height)
    )


@quantity("m", "Roll centre over the road at full bump", per="axle", source="dixon-suspension",
          shown="mm")  # fmt: skip
def roll_centre_at_bump(front_rolling: Linkages, rear_rolling: Linkages) -> Labelled:
    """Return the height at the end of the bump travel."""
    return _each(
        front_rolling, rear_rolling, lambda one: _whole(one).left.roll_centre_height[-1, 0, 0]
    )


@quantity("m", "Instantaneous centre seen from the front", per="axle and direction",
          source="dixon-suspension", shown="mm")  # fmt: skip
def front_view_centre(front_rolling: Linkages, rear_rolling: Linkages) -> Labelled:
    """Return y outward on the wheel's side and z over the road; far away for parallel links."""
    return _centres(front_rolling, rear_rolling, "y", lambda one: one.left.front_view_centre)


@quantity("m", "Instantaneous centre seen from the side", per="axle and direction",
          source="dixon-suspension", shown="mm")  # fmt: skip
def side_view_centre(front_rolling: Linkages, rear_rolling: Linkages) -> Labelled:
    """Return x ahead of the hardpoints' datum and z over the road."""
    return _centres(front_rolling, rear_rolling, "x", lambda one: one.left.side_view_centre)


@quantity("-", "Dive of the front under brakes that the geometry takes", source="gillespie-ride",
          shown="%")  # fmt: skip
def anti_dive(
    front_rolling: Linkages, front_brake_share: Values, wheelbase: Values, cg_height: Values
) -> Values:
    """Take the contact's path with the brakes at the wheels."""
    slope = _standing(_given(front_rolling, FRONT).standing.left.contact_path_slope)
    return np.asarray(
        physics.anti_dive(
            path_slope=slope, brake_share=front_brake_share, wheelbase=wheelbase,
            cg_height=cg_height,
        )
    )  # fmt: skip


@quantity("-", "Lift of the rear under brakes that the geometry takes", source="gillespie-ride",
          shown="%")  # fmt: skip
def anti_lift(
    rear_rolling: Linkages, front_brake_share: Values, wheelbase: Values, cg_height: Values
) -> Values:
    """Take the contact's path with the brakes at the wheels."""
    slope = _standing(_given(rear_rolling, REAR).standing.left.contact_path_slope)
    return np.asarray(
        physics.anti_lift(
            path_slope=slope, brake_share=1.0 - front_brake_share, wheelbase=wheelbase,
            cg_height=cg_height,
        )
    )  # fmt: skip


@quantity("-", "Squat of the driven rear that the geometry takes", source="gillespie-ride",
          shown="%")  # fmt: skip
def anti_squat(
    rear_rolling: Linkages,
    suspension_layouts: dict[str, Layout],
    wheelbase: Values,
    cg_height: Values,
) -> Values:
    """Take the contact's path where the final drive rides on the axle, else the wheel centre's."""
    wheel = _given(rear_rolling, REAR).standing.left
    on_axle = suspension_layouts[REAR].carries_final_drive
    slope = _standing(wheel.contact_path_slope if on_axle else wheel.centre_path_slope)
    return np.asarray(
        physics.anti_squat(path_slope=slope, wheelbase=wheelbase, cg_height=cg_height)
    )


@step("Motion ratios from the hardpoints", source="milliken")
def linkage_ratios(front_linkage: Linkages, rear_linkage: Linkages) -> dict[str, Labelled]:
    """Return travel over wheel travel of each axle's spring, damper and bar, as far as given."""
    found: dict[str, Labelled] = {"spring": {}, "damper": {}, "bar": {}, "spring slope": {}}
    for axle, one in {**front_linkage, **rear_linkage}.items():
        near = one.near_standing
        spring, damper, bar = near.strut("spring"), near.strut("damper"), near.bar
        if spring is not None:
            ratio = np.abs(spring.motion_ratio)
            found["spring"][axle] = _standing(ratio)
            found["spring slope"][axle] = _slope(near, ratio)
        if damper is not None:
            found["damper"][axle] = _standing(np.abs(damper.motion_ratio))
        if bar is not None:
            found["bar"][axle] = _standing(bar.motion_ratio)
    return found


def spring_ratio_of(found: Linkages, axle: str) -> Values | None:
    """Return the spring's travel over wheel travel by an axle's hardpoints; None without them."""
    strut = found[axle].standing.strut("spring") if axle in found else None
    return None if strut is None else _standing(np.abs(strut.motion_ratio))


@step("Roll geometry from the hardpoints", source="gillespie-handling")
def linkage_roll(
    front_rolling: Linkages, rear_rolling: Linkages, track: Labelled
) -> dict[str, Labelled]:
    """Return roll centre, lean of the wheels and roll steer of each axle that has points.

    A single wheel on the outside of the bend goes up by half the track per roll. An axle steers
    by the slope of its roll axis. Positive steer is to understeer: out of the bend in front, into
    it at the rear.
    """
    found: dict[str, Labelled] = {"centre": {}, "lean": {}, "steer": {}}
    for axle, one in {**front_rolling, **rear_rolling}.items():
        wheel, sense = one.standing.left, -1.0 if axle == FRONT else 1.0
        found["centre"][axle] = _standing(wheel.roll_centre_height)
        if one.motion.mechanism.drives > 1 and not one.motion.mechanism.twisting:
            found["steer"][axle] = -sense * _standing(wheel.roll_axis_slope)
            continue
        half, wheel = track[axle] / 2.0, wheel.in_roll
        found["lean"][axle] = np.asarray(1.0 + _standing(wheel.camber_rate) * half)
        found["steer"][axle] = np.asarray(sense * _standing(wheel.toe_in_rate) * half)
    return found


@step("Steering axis of the front wheels", source="dixon-suspension")
def steering_axis(front_suspension: FrontSuspension, front_rolling: Linkages) -> Labelled:
    """Return caster, inclination, scrub radius and trail: of the hardpoints, else as given."""
    if FRONT not in front_rolling or not front_rolling[FRONT].linkage.steered:
        return {
            "caster": front_suspension.caster,
            "inclination": front_suspension.kingpin_inclination,
            "scrub": front_suspension.scrub_radius,
            "trail": front_suspension.mechanical_trail,
        }
    wheel = front_rolling[FRONT].standing.left
    return {
        "caster": _standing(wheel.caster),
        "inclination": _standing(wheel.kingpin_inclination),
        "scrub": _standing(wheel.scrub_radius),
        "trail": _standing(wheel.trail),
    }


@quantity("rad", "Lean of the steering axis", per="direction", source="dixon-suspension",
          shown="deg")  # fmt: skip
def steering_axis_lean(steering_axis: Labelled) -> Labelled:
    """Return caster, top rearward, and kingpin inclination, top inboard."""
    return {
        "caster": steering_axis["caster"],
        "kingpin inclination": steering_axis["inclination"],
    }


@quantity("m", "Trail of the steering axis on the road", source="dixon-suspension", shown="mm")
def mechanical_trail(steering_axis: Labelled) -> Values:
    """Return how far ahead of the contact the axis meets the road."""
    return steering_axis["trail"]


@quantity("m", "Lowest usual roll centre of the layout", per="axle", source="reimpell-steering",
          shown="mm")  # fmt: skip
def usual_roll_centre_low(suspension_layouts: dict[str, Layout]) -> Labelled:
    """Return the lower end of the layout's usual range."""
    return {axle: constant(one.roll_centre.low) for axle, one in suspension_layouts.items()}


@quantity("m", "Highest usual roll centre of the layout", per="axle", source="reimpell-steering",
          shown="mm")  # fmt: skip
def usual_roll_centre_high(suspension_layouts: dict[str, Layout]) -> Labelled:
    """Return the upper end of the layout's usual range."""
    return {axle: constant(one.roll_centre.high) for axle, one in suspension_layouts.items()}


def _linkage(axle: str, suspension: Suspension, camber: Values, toe_in: Values) -> Linkages:
    made = linkage_of(suspension, camber, toe_in)
    if made is None:
        return {}
    bump, droop = float(suspension.bump_travel[0]), float(suspension.droop_travel[0])
    travel = np.concatenate(
        (np.linspace(-droop, 0.0, PLACES + 1), np.linspace(0.0, bump, PLACES + 1)[1:])
    )
    return {axle: made.motion(travel=travel, steer=np.zeros(1), roll=np.zeros(1))}


def linkage_of(
    suspension: Suspension,
    camber: Values,
    toe_in: Values,
    *,
    nominal: bool = False,
    other_side: bool = False,
    points: dict[str, Values] | None = None,
) -> Linkage | None:
    """Return the linkage that an option's points describe; None where it gives none.

    `other_side` gives the right wheel in the mirror: the steering box then stands over there.
    `points` are taken instead of the option's own.
    """
    values = hardpoints_of(suspension) if points is None else points
    if values is None:
        return None
    from drybuild.physics.linkage.layout import Setting, box_mirrored  # noqa: PLC0415  for need
    from drybuild.physics.linkage.layouts import LAYOUTS, linkage  # noqa: PLC0415  likewise

    if nominal:
        values = {one: point[:, :1] for one, point in values.items()}
    if other_side:
        values = box_mirrored(points=values)
    arm = LAYOUTS[suspension.layout].springs_on
    if suspension.has("spring_on"):
        arm = "" if suspension.spring_on == "carrier" else suspension.spring_on
    # The radius moves no joint; the tyres put theirs in later, so that these poses do not ask them.
    setting = Setting(camber=camber, toe_in=toe_in, radius=constant(ANY_RADIUS))
    return linkage(layout=suspension.layout, points=values, setting=setting, spring_arm=arm)


def hardpoints_of(suspension: Suspension) -> dict[str, Values] | None:
    """Return the points that an option gives and its layout can use; None where it gives none."""
    if not suspension.has("points"):
        return None
    from drybuild.physics.linkage.layout import SPRINGS  # noqa: PLC0415  kept for need
    from drybuild.physics.linkage.layouts import LAYOUTS  # noqa: PLC0415  likewise

    layout, points = LAYOUTS[suspension.layout], suspension.points
    values = {one: _point(points, one) for one in layout.points}
    for one in (*layout.optional, *SPRINGS):
        if points.has(one):
            values[one] = _point(points, one)
    return values


def _point(points: Hardpoints, name: str) -> Values:
    value: Values = getattr(points, name)
    return value


def _each(front: Linkages, rear: Linkages, work: Callable[[Swept], Values]) -> Labelled:
    both = _some(front, rear)
    return {axle: known(work(one)) for axle, one in both.items()}


def known(values: Values) -> Values:
    """Return values without what lies below the gaps that the solver leaves: it is no motion."""
    found = np.asarray(values, dtype=np.float64)
    return np.where(np.abs(found) < UNKNOWN, 0.0, found)


def _some(front: Linkages, rear: Linkages) -> Linkages:
    both = {**front, **rear}
    if not both:
        raise DoesNotApply("options.front_suspension.points", "no hardpoints are given")
    return both


def _given(found: Linkages, axle: str) -> Swept:
    if axle not in found:
        raise DoesNotApply(f"options.{axle}_suspension.points", "no hardpoints are given")
    return found[axle]


def _standing(values: Array) -> Values:
    """Return what is known at the middle of a few travels."""
    return known(values[values.shape[0] // 2, 0, 0])


def _slope(near: Swept, values: Array) -> Values:
    """Return the slope over bump at standing height: of both neighbours, or of the one reached."""
    before, now, after = (values[place, 0, 0] for place in range(3))
    down, up = np.diff(near.motion.travel)
    slopes = ((after - before) / (up + down), (after - now) / up, (now - before) / down)
    found = slopes[0]
    for other in slopes[1:]:
        found = np.where(np.isfinite(found), found, other)
    return np.asarray(found)


def _whole(swept: Swept) -> Swept:
    """Return a linkage that can take its whole travel, or say which link cannot and where."""
    if swept.motion.stop is not None:
        raise InputError(f"{swept.linkage.mechanism.layout}: {swept.motion.stop}")
    return swept


def _followed(swept: Swept) -> Values:
    """Return the worse side's last position that closes, as a part of the side's travel."""
    good = np.isfinite(swept.motion.grid(swept.motion.residual)[:, 0, 0])
    bump = np.cumprod(good[PLACES:], axis=0).sum(axis=0) - 1
    droop = np.cumprod(good[PLACES::-1], axis=0).sum(axis=0) - 1
    return np.asarray(np.minimum(bump, droop) / PLACES)


def _centres(
    front: Linkages, rear: Linkages, across: str, work: Callable[[Swept], Array]
) -> Labelled:
    both = _some(front, rear)
    found: Labelled = {}
    for axle, one in both.items():
        centre = work(one.standing)[:, 0, 0, 0]
        found[f"{axle} {across}"] = np.asarray(centre[0])
        found[f"{axle} z"] = np.asarray(centre[1] - one.standing.left.contact_height[0, 0, 0])
    return found
