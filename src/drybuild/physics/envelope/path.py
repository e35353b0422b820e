"""How a wheel moves against the body: over travel, steer and roll, from whatever is known."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal

import numpy as np
import numpy.typing as npt

from drybuild.errors import require_positive

if TYPE_CHECKING:
    from drybuild.physics.linkage.wheels import WheelMotion

Array = npt.NDArray[np.float64]


@dataclass(frozen=True, kw_only=True)
class WheelPath:
    """Positions of a wheel, flat: travel first, then steer or roll."""

    travel: Array
    """Rise of the wheel's centre, (positions,). [m]"""
    steer: Array
    """Angle to the left, (positions,). [rad]"""
    roll: Array
    """Of an axle against the body, (positions,). [rad]"""
    centre: Array
    """Middle of the wheel, (3, positions). [m]"""
    spin: Array
    """Its axle, outward, (3, positions). [-]"""
    carrier: Array
    """Middle of the wheel at the same travel, straight ahead: what the upright carries. [m]"""
    shape: tuple[int, int, int]
    """Positions over travel, steer and roll."""

    @property
    def each(self) -> int:
        """Positions at one travel."""
        return self.shape[1] * self.shape[2]

    def rates(self, values: Array, along: int) -> tuple[Array, Array]:
        """Return how centre and spin move per unit of travel (along 0) or steer (along 1)."""
        if self.shape[along] == 1:
            return np.zeros_like(self.centre), np.zeros_like(self.spin)
        grid = np.moveaxis(values.reshape(self.shape), along, 0)
        way = grid[:, 0, 0]
        found = []
        for array in (self.centre, self.spin):
            places = array.reshape(3, *self.shape)
            found.append(slope_along(values=places, way=way, axis=along + 1).reshape(3, -1))
        return found[0], found[1]


@dataclass(frozen=True, kw_only=True)
class SteeringAxis:
    """A steering axis by what catalogues tell, in the signs of the trade."""

    caster: float
    """[rad]"""
    inclination: float
    """[rad]"""
    scrub: float
    """[m]"""
    trail: float
    """[m]"""


def guided_path(
    *,
    half_track: float,
    radius: float,
    standing: float,
    bump: float,
    droop: float,
    camber: float,
    camber_gain: float,
    roll_centre_height: float,
    places: int,
) -> WheelPath:
    """Return the path of an independently guided wheel from catalogue figures, straight ahead.

    Parameters
    ----------
    half_track : float
        From the car's middle plane to the wheel's middle, standing. [m]
    radius : float
        From the wheel's centre to the road. [m]
    standing : float
        Where the wheel's centre stands now above where it stood at measuring. [m]
    bump : float
        Travel up from standing. [m]
    droop : float
        Travel down from standing. [m]
    camber : float
        Standing camber, top outward. [rad]
    camber_gain : float
        Camber that it gains inward per bump. [rad/m]
    roll_centre_height : float
        Over the road. [m]
    places : int
        Positions over the travel. [-]

    Returns
    -------
    WheelPath
        Over the travel. Roll of the body is travel of each wheel, so there is none of it beside.

    Notes
    -----
    The contact goes outward by h/(t/2) per rise (roll centre height over half the track) and the
    wheel leans in by the camber gain, so that its centre moves sideways by both. First order in
    travel: the arc of the arms is left out, which pulls a wheel on 0.3 m arms inward by 2 mm at
    30 mm and by 6 to 8 mm at 60 mm of travel (see the tests). Hardpoints tell it.

    References
    ----------
    .. [1] J. C. Dixon, "Suspension Geometry and Computation", 2009, ch. 7 to 9 (coefficients of
       bump camber and bump scrub).

    """
    require_positive(half_track=(half_track, "m"), radius=(radius, "m"))
    rise = _through(droop, bump, places)
    lean = camber - camber_gain * rise
    scrub = roll_centre_height / half_track * rise
    side = half_track + scrub + radius * (np.sin(lean) - np.sin(camber))
    centre = np.stack((0.0 * rise, side, standing + rise))
    return WheelPath(
        travel=rise,
        steer=0.0 * rise,
        roll=0.0 * rise,
        centre=centre,
        spin=np.stack((0.0 * rise, np.cos(lean), -np.sin(lean))),
        carrier=centre,
        shape=(rise.size, 1, 1),
    )


def axle_path(
    *,
    half_track: float,
    radius: float,
    standing: float,
    bump: float,
    droop: float,
    camber: float,
    roll_centre_height: float,
    places: int,
    rolls: int,
) -> WheelPath:
    """Return the path of a wheel on a rigid axle from catalogue figures, straight ahead.

    Parameters
    ----------
    half_track : float
        From the car's middle plane to the wheel's middle plane. [m]
    radius : float
        From the wheel's centre to the road. [m]
    standing : float
        Where the wheel's centre stands now above where it stood at measuring. [m]
    bump : float
        Travel up from standing. [m]
    droop : float
        Travel down from standing. [m]
    camber : float
        Standing camber, top outward. [rad]
    roll_centre_height : float
        Over the road. [m]
    places : int
        Positions over the travel. [-]
    rolls : int
        Positions over the other wheel's travel. [-]

    Returns
    -------
    WheelPath
        Travel of this wheel by what the other wheel does, told as roll: this one up is positive.

    Notes
    -----
    Each wheel goes from droop to bump while the other is anywhere between: sin(roll) is their
    difference over the track. The axle swings about the roll centre, so this wheel goes inward by
    the axle's height over that centre times the sine, when it is the upper one.

    References
    ----------
    .. [1] J. C. Dixon, "Suspension Geometry and Computation", 2009, ch. 11 (rigid axles).

    """
    require_positive(half_track=(half_track, "m"), radius=(radius, "m"))
    rise = _through(droop, bump, places)[:, np.newaxis]
    share = np.linspace(-1.0, 1.0, rolls)
    other = rise + np.where(share > 0.0, share * (bump - rise), share * (rise + droop))
    roll = np.arcsin((rise - other) / (2.0 * half_track))
    side = half_track * np.cos(roll) - (radius - roll_centre_height) * np.sin(roll)
    lean = camber - roll
    grid = np.broadcast_to(rise, roll.shape)
    centre = np.stack((0.0 * grid, side, standing + grid)).reshape(3, -1)
    return WheelPath(
        travel=grid.ravel(),
        steer=0.0 * grid.ravel(),
        roll=roll.ravel(),
        centre=centre,
        spin=np.stack((0.0 * grid, np.cos(lean), -np.sin(lean))).reshape(3, -1),
        carrier=centre,
        shape=(rise.size, 1, share.size),
    )


def steered_path(
    *, path: WheelPath, radius: float, camber: float, axis: SteeringAxis, steer: Array
) -> WheelPath:
    """Return a path whose every position is steered as well.

    Parameters
    ----------
    path : WheelPath
        Straight ahead. [m]
    radius : float
        From the wheel's centre to the road, where scrub and trail were measured. [m]
    camber : float
        Standing camber, top outward. [rad]
    axis : SteeringAxis
        The steering axis, standing. [-]
    steer : array
        Angles to the left about the axis, rising. [rad]

    Returns
    -------
    WheelPath
        Travel by steer by roll.

    Notes
    -----
    The axis goes through the road at trail ahead of, and scrub inside, the contact's centre; it
    is carried and leaned by the upright, and the wheel turns about it by Rodrigues' formula.

    References
    ----------
    .. [1] J. C. Dixon, "Suspension Geometry and Computation", 2009, ch. 5 (steering axis).

    """
    lean = -np.arcsin(path.spin[2]) - camber
    foot = np.array([axis.trail, -axis.scrub - radius * np.sin(camber), -radius * np.cos(camber)])
    way = np.array([-np.tan(axis.caster), -np.tan(axis.inclination), 1.0])
    arm = -_leaned(foot, lean)[:, :, np.newaxis]
    line = _leaned(way / np.linalg.norm(way), lean)[:, :, np.newaxis]
    pivot = path.centre[:, :, np.newaxis] - arm
    places, _, rolls = path.shape
    order = (places, rolls, steer.size)

    def grid(values: Array) -> Array:
        return np.asarray(values.reshape(-1, *order).swapaxes(2, 3).reshape(values.shape[0], -1))

    def spread(values: Array) -> Array:
        return np.broadcast_to(values[:, :, np.newaxis], (*values.shape, steer.size))

    flat = np.broadcast_to(steer, (1, path.travel.size, steer.size))
    return WheelPath(
        travel=grid(spread(path.travel[np.newaxis]))[0],
        steer=grid(flat)[0],
        roll=grid(spread(path.roll[np.newaxis]))[0],
        centre=grid(pivot + _turned(arm, line, steer)),
        spin=grid(_turned(path.spin[:, :, np.newaxis], line, steer)),
        carrier=grid(spread(path.carrier)),
        shape=(places, steer.size, rolls),
    )


def linkage_path(*, wheel: WheelMotion, half_track: float, standing: float) -> WheelPath:
    """Return the path of a wheel whose linkage was moved.

    Parameters
    ----------
    wheel : WheelMotion
        The left wheel over travel by steer by roll. [m]
    half_track : float
        From the car's middle plane to the wheel's middle plane, standing. [m]
    standing : float
        Where the wheel's centre stands now above where it stood at measuring. [m]

    Returns
    -------
    WheelPath
        The positions that the links can take; the others are left out.

    Notes
    -----
    The hardpoints say how the wheel moves, the car's own measures where it stands.

    References
    ----------
    .. [1] ISO 8855:2011, axes.

    """
    motion = wheel.motion
    pose, frame = motion.pose, wheel.wheel.frame
    places = pose.place(frame, wheel.wheel.centre)[..., 0]
    spin = np.asarray(pose.aim(frame, wheel.wheel.spin) + 0.0 * motion.residual)[..., 0]
    design = np.asarray(wheel.wheel.centre)[:, 0, 0]
    home = np.array([0.0, half_track, standing])
    centre = places - design[:, np.newaxis] + home[:, np.newaxis]
    shape = motion.shape[:3]
    middle = int(np.argmin(np.abs(motion.steer)))
    level = int(np.argmin(np.abs(motion.roll)))
    ahead = centre.reshape(3, *shape)[:, :, middle : middle + 1, level : level + 1]
    carrier = np.broadcast_to(ahead, (3, *shape)).reshape(3, -1)
    grids = np.meshgrid(motion.travel, motion.steer, motion.roll, indexing="ij")
    angle = np.asarray(wheel.steer_angle)[..., 0].reshape(-1)
    travel, _, roll = (one.ravel() for one in grids)
    return WheelPath(
        travel=travel,
        steer=angle,
        roll=roll,
        centre=centre,
        spin=spin,
        carrier=carrier,
        shape=(shape[0], shape[1], shape[2]),
    )


def linkage_columns(*, wheel: WheelMotion) -> tuple[Array, Array]:
    """Return a wheel's middle and axle over a motion, of every sample.

    Parameters
    ----------
    wheel : WheelMotion
        The left wheel. [m]

    Returns
    -------
    pair of array
        The middle less its design position [m], and the axle [-], each (3, positions, samples).

    Notes
    -----
    Where the wheel stands is measured apart, so its centre as drawn is taken off.

    References
    ----------
    .. [1] ISO 8855:2011, axes.

    """
    motion = wheel.motion
    pose, frame = motion.pose, wheel.wheel.frame
    centre = pose.place(frame, wheel.wheel.centre) - wheel.wheel.centre
    return centre, np.asarray(pose.aim(frame, wheel.wheel.spin) + 0.0 * motion.residual)


def slope_along(*, values: Array, way: Array, axis: int) -> Array:
    """Return the slope of values along an axis.

    Parameters
    ----------
    values : array
        With nan where a position is lost. [m]
    way : array
        Places along the axis, rising or falling. [m]
    axis : int
        The axis. [-]

    Returns
    -------
    array
        Of both neighbours; of the one that is known where the other is not; zero without any. [-]

    Notes
    -----
    Second-order differences, first-order beside what is lost. A position without neighbours is
    lost itself, or the only one: nothing asks for its slope.

    References
    ----------
    .. [1] Finite differences.

    """
    moved = np.moveaxis(values, axis, -1)
    steps = np.diff(moved, axis=-1) / np.diff(way)
    lost = np.full((*moved.shape[:-1], 1), np.nan)
    before = np.concatenate((lost, steps), axis=-1)
    after = np.concatenate((steps, lost), axis=-1)
    order: Literal[1, 2] = 2 if way.size > 2 else 1
    found = np.asarray(np.gradient(moved, way, axis=-1, edge_order=order), dtype=np.float64)
    for other in (after, before):
        found = np.where(np.isfinite(found), found, other)
    return np.moveaxis(np.where(np.isfinite(found), found, 0.0), -1, axis)


def _through(droop: float, bump: float, places: int) -> Array:
    """Return positions from droop to bump with the standing one among them."""
    half = places // 2
    down, up = np.linspace(-droop, 0.0, half + 1), np.linspace(0.0, bump, half + 1)
    return np.concatenate((down, up[1:]))


def _leaned(vector: Array, lean: Array) -> Array:
    """Turn a vector of the carrier by its lean, top outward, (3, positions)."""
    cosine, sine = np.cos(lean), np.sin(lean)
    x, y, z = vector
    return np.stack((x + 0.0 * lean, y * cosine + z * sine, z * cosine - y * sine))


def _turned(vector: Array, axis: Array, angle: Array) -> Array:
    """Turn vectors about unit axes, after Rodrigues."""
    cosine, sine = np.cos(angle), np.sin(angle)
    along = (vector * axis).sum(axis=0)
    across = np.cross(axis, vector, axis=0)
    return np.asarray(vector * cosine + across * sine + axis * along * (1.0 - cosine))
