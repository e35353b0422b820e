"""The list of layouts, and a motion asked for by the name of a layout."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from functools import cached_property
from types import MappingProxyType

import numpy as np

from drybuild.errors import InputError
from drybuild.physics.linkage import (
    double_wishbone,
    five_link,
    hinged_arm,
    leaf_axle,
    link_axle,
    sliding_pillar,
    strut,
    torque_arm,
    torque_tube,
    twin_beam,
    twist_beam,
)
from drybuild.physics.linkage.joints import Link, Rack
from drybuild.physics.linkage.layout import Layout, Points, Setting, shaped
from drybuild.physics.linkage.mechanism import Mechanism
from drybuild.physics.linkage.motion import Motion
from drybuild.physics.linkage.rods import Rod, moving_links, rods_at
from drybuild.physics.linkage.solver import sweep
from drybuild.physics.linkage.springs import BarEnd, Rocker, Strut
from drybuild.physics.linkage.vectors import Array
from drybuild.physics.linkage.wheels import WheelMotion

LAYOUTS: Mapping[str, Layout] = MappingProxyType(
    {
        one.name: one
        for one in (
            double_wishbone.LAYOUT,
            strut.LAYOUT,
            *hinged_arm.LAYOUTS,
            five_link.LAYOUT,
            *link_axle.LAYOUTS,
            *leaf_axle.LAYOUTS,
            torque_tube.LAYOUT,
            torque_arm.LAYOUT,
            twin_beam.LAYOUT,
            twist_beam.LAYOUT,
            sliding_pillar.LAYOUT,
        )
    }
)
"""Every layout by the name that the build file has for it."""


@dataclass(frozen=True, kw_only=True)
class Linkage:
    """One end's suspension, ready to be moved."""

    mechanism: Mechanism
    points: Mapping[str, Array]
    spring_arm: str
    """The arm that spring and damper stand on; empty for the wheel's carrier or the axle."""

    @property
    def steered(self) -> str:
        """What the steering gear moves: a ``rack``, the ``arm`` of a box, or nothing."""
        for one in self.mechanism.constraints:
            if isinstance(one, Link) and one.drive is not None:
                return "rack" if isinstance(one.drive, Rack) else "arm"
        return ""

    def motion(self, *, travel: Array, steer: Array, roll: Array) -> Swept:
        """Move it over a grid."""
        swept = sweep(mechanism=self.mechanism, travel=travel, steer=steer, roll=roll)
        return Swept(linkage=self, motion=swept)


@dataclass(frozen=True, kw_only=True)
class Swept:
    """A linkage over a grid of travel, steer and roll."""

    linkage: Linkage
    motion: Motion

    def rolling(self, radius: Array) -> Swept:
        """Return the same motion on wheels of this radius, which moves no joint [m]."""
        found = self.linkage.mechanism
        size = np.asarray(radius, dtype=np.float64).reshape(1, -1)
        wheels = tuple(replace(wheel, radius=size) for wheel in found.wheels)
        mechanism = replace(found, wheels=wheels)
        return replace(
            self,
            linkage=replace(self.linkage, mechanism=mechanism),
            motion=replace(self.motion, mechanism=mechanism),
        )

    @cached_property
    def standing(self) -> Swept:
        """Itself at the travel nearest to none alone."""
        return self._around(0)

    @cached_property
    def near_standing(self) -> Swept:
        """Itself there and one position to each side, which slopes are taken over."""
        return self._around(1)

    def _around(self, places: int) -> Swept:
        middle = int(np.argmin(np.abs(self.motion.travel)))
        return replace(self, motion=self.motion.at(middle + np.arange(-places, places + 1)))

    @cached_property
    def left(self) -> WheelMotion:
        """The left wheel."""
        return WheelMotion(motion=self.motion, wheel=self.linkage.mechanism.wheels[0])

    @cached_property
    def right(self) -> WheelMotion | None:
        """The right wheel, where both are on one axle."""
        wheels = self.linkage.mechanism.wheels
        return WheelMotion(motion=self.motion, wheel=wheels[1]) if len(wheels) > 1 else None

    def rods(self, place: int) -> tuple[Rod, ...]:
        """Return every rod, arm and strut at a position, nominal."""
        return rods_at(motion=self.motion, place=place)

    def links(self) -> tuple[Rod, ...]:
        """Return every rod and arm at every position and of every sample, steered as they are."""
        return moving_links(motion=self.motion)

    def placed(self, kind: str) -> bool:
        """Say whether the ends of the ``spring`` or ``damper`` are points of their own."""
        return all(f"{kind}_{end}" in self.linkage.points for end in ("top", "bottom"))

    def strut(self, kind: str) -> Strut | None:
        """Return the ``spring``, the ``damper`` or the bar's ``bar`` link; None if not given."""
        points = self.linkage.points
        names = {"bar": ("bar_end", "bar_link")}.get(kind, (f"{kind}_top", f"{kind}_bottom"))
        if not all(name in points for name in names):
            ends = LAYOUTS[self.linkage.mechanism.layout].spring_ends
            if kind == "bar" or ends is None:
                return None
            names = ends
        top, bottom = (points[name] for name in names)
        return self._strut(kind, top, bottom)

    def tube(self) -> Strut | None:
        """Return the damper that guides the wheel, by the points of its own axis, if given."""
        names = LAYOUTS[self.linkage.mechanism.layout].tube
        points = self.linkage.points
        if names is None or not all(name in points for name in names):
            return None
        return replace(self._strut("tube", *(points[name] for name in names)), arm=None)

    def _strut(self, kind: str, top: Array, bottom: Array) -> Strut:
        points = self.linkage.points
        arm = self.linkage.mechanism.arms.get(self.linkage.spring_arm)
        rates = self.motion.drive_rates()
        return Strut(
            motion=self.motion,
            top=top,
            bottom=bottom,
            arm=arm,
            rates=rates.sum(axis=1),
            rocker=_rocker(points) if kind in ("spring", "damper") else None,
        )

    @property
    def bar(self) -> BarEnd | None:
        """The anti-roll bar's end on this side; None if not given."""
        link = self.strut("bar")
        if link is None or "bar_axis" not in self.linkage.points:
            return None
        return BarEnd(strut=link, axis_point=self.linkage.points["bar_axis"])


def _rocker(points: Mapping[str, Array]) -> Rocker | None:
    if "rocker_pivot" not in points:
        return None
    names = ("rocker_axis", "pushrod_rocker", "pushrod_wheel")
    if missing := [name for name in names if name not in points]:
        raise InputError(f"rocker: {', '.join(missing)} not given among its points")
    pivot = points["rocker_pivot"]
    return Rocker(
        pivot=pivot,
        axis=points["rocker_axis"] - pivot,
        end=points["pushrod_rocker"],
        foot=points["pushrod_wheel"],
    )


def linkage(*, layout: str, points: Points, setting: Setting, spring_arm: str) -> Linkage:
    """Return a suspension of a layout with these points.

    Parameters
    ----------
    layout : str
        Name of the layout. [-]
    points : mapping
        Points by name, left side, (3,) or (3, samples). [m]
    setting : Setting
        How the wheel stands. [rad], [m]
    spring_arm : str
        The arm that spring and damper stand on; empty for the wheel's carrier. [-]

    Returns
    -------
    Linkage
        Ready to be moved.

    Raises
    ------
    InputError
        The layout has no such arm, or points are missing.

    Notes
    -----
    x forward, y left, z up; y = 0 is the car's centre plane.

    References
    ----------
    .. [1] ISO 8855:2011, axes.

    """
    if layout not in LAYOUTS:
        raise InputError(f'"{layout}" has no links that could be followed')
    found = LAYOUTS[layout]
    if missing := found.missing(points):
        raise InputError(f"{layout}: {', '.join(missing)} not given among its points")
    if spring_arm and spring_arm not in found.arms:
        raise InputError(f'{layout}: no "{spring_arm}" that a spring could stand on')
    return Linkage(
        mechanism=found.build(points, setting),
        points=shaped(points=points),
        spring_arm=spring_arm,
    )
