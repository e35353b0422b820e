"""The body as it is drawn: a plain outline of its kind and shape, in the car's own size.

Places on it are told in stations and heights, as in `drybuild.tables.body_place`; the outlines
are drawn from memory of what such shapes look like and stand for no car.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

import numpy as np

from drybuild.present.drawing import Point
from drybuild.project.build import Build
from drybuild.project.readings import Reading
from drybuild.tables.typical import typical_range

FRONT_SHARE = 0.44
"""Of what stands out over the wheel centres at both ends."""
WHEEL = 0.30
"""Radius of a wheel as drawn. [m]"""
USUAL = {"unitary": "saloon", "ladder": "pick-up", "backbone": "roadster"}
OUTLINES: dict[str, tuple[Point, ...]] = {
    "saloon": ((1.15, 0.55), (1.42, 0.96), (1.6, 1.0), (1.9, 0.97), (2.2, 0.58), (2.95, 0.52)),
    "coupe": ((1.17, 0.54), (1.47, 0.96), (1.64, 1.0), (1.84, 0.95), (2.36, 0.57), (2.95, 0.5)),
    "hatchback": ((1.15, 0.55), (1.42, 0.96), (1.6, 1.0), (2.1, 0.95), (2.76, 0.56), (2.97, 0.46)),
    "estate": ((1.15, 0.55), (1.42, 0.96), (1.6, 1.0), (2.62, 0.97), (2.88, 0.58), (2.98, 0.5)),
    "convertible": ((1.16, 0.56), (1.4, 0.95), (1.6, 1.0), (1.9, 0.93), (2.12, 0.57), (2.95, 0.5)),
    "roadster": ((1.2, 0.6), (1.36, 0.96), (1.39, 0.95), (1.33, 0.6), (1.9, 0.57), (2.92, 0.46)),
    "pick-up": ((1.15, 0.57), (1.36, 0.96), (1.5, 1.0), (1.74, 0.97), (1.8, 0.52), (2.98, 0.52)),
    "van": ((0.5, 0.58), (0.95, 0.94), (1.2, 1.0), (2.0, 1.0), (2.9, 0.99), (2.97, 0.9)),
    "utility": ((1.1, 0.57), (1.24, 0.97), (1.36, 1.0), (2.2, 1.0), (2.84, 0.98), (2.97, 0.6)),
}
"""Upper edge behind the bonnet, front to rear; what lies before and behind is common to all."""
BELT = 0.57
"""Lower edge of the side windows."""
SLANTING = ("saloon", "coupe", "hatchback", "convertible")
NOSE: tuple[Point, ...] = ((0.06, -0.04), (0.0, 0.06), (0.0, 0.38), (0.12, 0.47))
TAIL: tuple[Point, ...] = ((3.0, 0.42), (3.0, 0.06), (2.95, -0.04))
ROOFS: dict[str, tuple[float, float]] = {
    "saloon": (1.95, 2.2),
    "coupe": (1.88, 2.32),
    "hatchback": (2.1, 2.56),
    "estate": (2.5, 2.64),
    "convertible": (1.92, 2.14),
    "roadster": (1.75, 1.9),
    "pick-up": (1.75, 1.86),
    "van": (2.54, 2.66),
    "utility": (2.52, 2.66),
}
"""Where the roof and the rear window end, seen from above."""
TOP_STATIONS = (0.0, 1.42, 1.95, 2.2, 2.8, 3.2)
"""Stations of the table that follow the roof: the ends of the saloon that it tells of."""


@dataclass(frozen=True, kw_only=True)
class BodyShape:
    """A body to draw; lengths in metres."""

    shape: str
    length: float
    wheelbase: float
    width: float
    height: float
    ride_height: float
    ground_clearance: float
    front_track: float
    rear_track: float

    @property
    def overhang(self) -> tuple[float, float]:
        """How far it stands out over the wheel centres, front and rear."""
        rest = max(self.length - self.wheelbase, 0.5)
        return FRONT_SHARE * rest, (1.0 - FRONT_SHARE) * rest

    def along(self, station: float) -> float:
        """Return how far behind the front end a station is. [m]."""
        front, rear = self.overhang
        ends = (0.0, front, front + self.wheelbase, front + self.wheelbase + rear)
        if station < 0.0:
            return station * front
        if station > 3.0:
            return ends[3] + (station - 3.0) * rear
        return float(np.interp(station, (0.0, 1.0, 2.0, 3.0), ends))

    def up(self, share: float) -> float:
        """Return the height over the road of a share of the body over its sill seam. [m]."""
        return self.ride_height + share * (self.height - self.ride_height)

    def behind_roof(self, station: float) -> float:
        """Return where a station of the saloon lies on this shape, seen from above."""
        roof, window = ROOFS[self.shape]
        lid = max(2.8, window + 0.18)
        return float(np.interp(station, TOP_STATIONS, (0.0, 1.42, roof, window, lid, 3.2)))

    def outline(self) -> Sequence[Point]:
        """Return the upper edge seen from the side, front to rear. [m]."""
        return self._softened((*NOSE, *OUTLINES[self.shape], *TAIL))

    def glass(self) -> Sequence[Point]:
        """Return the edge of the side windows. [m]."""
        upper = [one for one in OUTLINES[self.shape] if one[1] > BELT + 0.03]
        low, high = upper[0][0], upper[-1][0]
        roof = [(station, 0.93 * share) for station, share in upper]
        ends = ((high + 0.12 if self.shape in SLANTING else high, BELT), (low - 0.16, BELT))
        return self._softened((*roof[:1], *roof[1:], *ends), closed=True)

    def _softened(self, edge: Sequence[Point], *, closed: bool = False) -> Sequence[Point]:
        """Return stations and shares as metres, corners rounded off.

        Notes
        -----
        Chaikin's corner cutting, twice (Chaikin, Computer Graphics and Image Processing 3, 1974,
        from memory).

        """
        points = [(self.along(station), self.up(share)) for station, share in edge]
        for _ in range(2):
            ring = [*points, points[0]] if closed else points
            cut = [
                (near * x1 + (1.0 - near) * x2, near * y1 + (1.0 - near) * y2)
                for (x1, y1), (x2, y2) in pairwise(ring)
                for near in (0.82, 0.18)
            ]
            points = cut if closed else [points[0], *cut, points[-1]]
        return points


def body_shape(build: Build) -> BodyShape:
    """Return the body of a build; what is not given is typical of its kind."""
    given = build.car["body"].given
    named = given.get("shape")
    shape = named if isinstance(named, str) and named in OUTLINES else USUAL[build.kind]

    def size(name: str) -> float:
        found = given.get(name)
        if isinstance(found, Reading):
            return found.value
        usual = typical_range(f"car.body.{name}", build.kind)
        assert usual is not None  # every measure below has a range for each kind
        return usual.value

    return BodyShape(
        shape=shape,
        length=size("length"),
        wheelbase=size("wheelbase"),
        width=size("width"),
        height=size("height"),
        ride_height=size("ride_height"),
        ground_clearance=size("ground_clearance"),
        front_track=size("front_track"),
        rear_track=size("rear_track"),
    )
