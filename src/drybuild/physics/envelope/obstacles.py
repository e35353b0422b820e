"""What stands around a wheel: arch and guard by stations, boxes, rods, a scan's points.

Each is points with the readings that place them, so that their spread can be followed.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

import numpy as np
import numpy.typing as npt

from drybuild.errors import require
from drybuild.keeping import Known, content_name

Array = npt.NDArray[np.float64]
Places = npt.NDArray[np.intp]

EDGE = 0.005
"""Distance between points of an edge: they miss less than 0.2 mm of a gap of 15 mm. [m]"""
FACE = 0.012
"""Distance between points of a surface. [m]"""
WITH_BODY, WITH_WHEEL, HALF_WAY = 0.0, 1.0, 0.5
"""How much of the wheel's travel an obstacle takes part in."""


_FORMS: Known[Form] = Known(32)
"""Options and samples share what the nominal readings make of them."""


@dataclass(frozen=True, kw_only=True)
class Form:
    """Points of one thing and how its readings place them: the same in every sample."""

    content: bytes
    """A name of all that makes it."""
    base: Array
    """(3, points), nominal; (3, points, positions) if it moves by itself. [m]"""
    rows: Places
    """Readings of each point, (terms, points)."""
    ways: Array
    """How far a point goes with each, (terms, 3, points). [-]"""
    roundness: float
    """Radius round every point: of a rod. [m]"""
    follows: float = WITH_BODY

    def place(self, points: Places, positions: Places) -> Array:
        """Return where points are at positions of the path, each one's own, (3, points)."""
        if self.base.ndim == 2:
            return self.base[:, points]
        return self.base[:, points, positions]

    def rates(self, points: Places, positions: Places, way: Array, readings: int) -> Array:
        """Return how far points go along a way of their own per reading, (readings, points)."""
        del positions
        found = np.zeros((readings, points.size))
        line = np.arange(points.size)
        for row, ways in zip(self.rows, self.ways, strict=True):
            found[row[points], line] += (ways[:, points] * way).sum(axis=0)
        return found


@dataclass(frozen=True, kw_only=True)
class Obstacle:
    """One thing that the wheel must clear."""

    name: str
    form: Form
    readings: Array
    """What places it, (readings, samples): lengths, less their nominal values. [m]"""

    @cached_property
    def spread(self) -> Array:
        """Standard deviation of each reading."""
        return np.asarray(self.readings.std(axis=-1))


def polar_sheet(
    *, name: str, angles: Array, inner: tuple[Array, Array], outer: tuple[Array, Array]
) -> Obstacle:
    """Return a surface between two edges that are known by stations round the wheel's centre.

    Parameters
    ----------
    name : str
        What it is. [-]
    angles : array
        Of the stations, rising: 0 ahead, 90 deg above, (stations,). [rad]
    inner : pair of array
        Distance from the wheel's centre in side view, and distance from the car's middle plane,
        of one edge, each (stations, samples). [m]
    outer : pair of array
        The same of the other edge; equal to `inner` for a bare edge. [m]

    Returns
    -------
    Obstacle
        Points between the first and the last station.

    Notes
    -----
    Between stations both lengths go in proportion to the angle: an arch is rounder than straight.

    References
    ----------
    .. [1] Geometry; a tape measure's stations are common practice, no source.

    """
    require(np.diff(angles) > 0.0, "angles", angles, "rad", "rising")
    readings = np.concatenate((inner[0], inner[1], outer[0], outer[1]))
    nominal = readings[:, 0]
    content = content_name("sheet", angles, nominal)
    form = _FORMS.of(content, lambda: _sheet(content, angles, nominal))
    return Obstacle(name=name, form=form, readings=readings - readings[:, :1])


def _sheet(content: bytes, angles: Array, nominal: Array) -> Form:
    inner, outer = nominal.reshape(2, 2, -1)
    arc = float(np.ptp(angles) * max(inner[0].max(), outer[0].max()))
    deep = float(np.abs(outer - inner).max())
    bare = deep == 0.0
    along = np.linspace(angles[0], angles[-1], 2 + int(arc / (EDGE if bare else FACE)))
    between = np.zeros(1) if bare else np.linspace(0.0, 1.0, 2 + int(deep / FACE))
    turn, part = (one.ravel() for one in np.meshgrid(along, between, indexing="ij"))
    before = np.clip(np.searchsorted(angles, turn, side="right") - 1, 0, angles.size - 2)
    after = before + 1 if angles.size > 1 else before
    share = (turn - angles[before]) / (angles[after] - angles[before])
    size = angles.size
    out = np.stack((np.cos(turn), np.zeros_like(turn), np.sin(turn)))
    aside = np.array([0.0, 1.0, 0.0])[:, np.newaxis] + 0.0 * out
    rows, ways = [], []
    for edge, weight in ((0, 1.0 - part), (2, part)):
        for length, way in ((0, out), (1, aside)):
            for station, near in ((before, 1.0 - share), (after, share)):
                rows.append(station + (edge + length) * size)
                ways.append(way * weight * near)
    return _placed(
        content=content, nominal=nominal, rows=np.array(rows), ways=np.array(ways), rounding=0.0
    )


def rod(*, name: str, start: Array, end: Array, radius: float, follows: float) -> Obstacle:
    """Return a round bar between two points: a rail, a spring, a strut, a link.

    Parameters
    ----------
    name : str
        What it is. [-]
    start : array
        One end, (3, samples). [m]
    end : array
        The other end, (3, samples). [m]
    radius : float
        Of the bar. [m]
    follows : float
        Share of the wheel's travel that it takes part in. [-]

    Returns
    -------
    Obstacle
        Points along its axis.

    Notes
    -----
    Round ends: a little more than is there.

    References
    ----------
    .. [1] Geometry.

    """
    length = float(np.linalg.norm(end[:, 0] - start[:, 0]))
    part = np.linspace(0.0, 1.0, 2 + int(length / EDGE))
    return _between(name, part[np.newaxis], np.concatenate((start, end)), radius, follows)


def block(*, name: str, low: Array, high: Array, follows: float) -> Obstacle:
    """Return a box with faces along the axes.

    Parameters
    ----------
    name : str
        What it is. [-]
    low : array
        Its rear, inner and lower sides, (3, samples). [m]
    high : array
        Its front, outer and upper sides, (3, samples). [m]
    follows : float
        Share of the wheel's travel that it takes part in. [-]

    Returns
    -------
    Obstacle
        Points of its faces.

    Notes
    -----
    A grid over every face, edges and corners included.

    References
    ----------
    .. [1] Geometry.

    """
    require(high[:, 0] >= low[:, 0], "high", high[:, 0], "m", "not less than low")
    spans = high[:, 0] - low[:, 0]
    steps = [np.linspace(0.0, 1.0, 2 + int(span / FACE)) for span in spans]
    grid = np.stack([one.ravel() for one in np.meshgrid(*steps, indexing="ij")])
    shell = grid[:, ((grid == 0.0) | (grid == 1.0)).any(axis=0)]
    return _between(name, shell, np.concatenate((low, high)), 0.0, follows)


def cloud(*, name: str, points: Array, error: Array) -> Obstacle:
    """Return the points of a scan.

    Parameters
    ----------
    name : str
        What it is. [-]
    points : array
        (3, points). [m]
    error : array
        How far all of it may stand aside, outward, (samples,). [m]

    Returns
    -------
    Obstacle
        The points; their error moves all of them across the car together.

    Notes
    -----
    A scan is an open sheet without inside or outside: its points alone are taken.

    References
    ----------
    .. [1] Common practice, no source: 5 to 10 mm of error for a telephone's scan.

    """
    content = content_name("cloud", points)
    form = _FORMS.of(content, lambda: _scanned(content, points))
    return Obstacle(name=name, form=form, readings=(error - error[:1])[np.newaxis])


def _scanned(content: bytes, points: Array) -> Form:
    count = points.shape[1]
    way = np.zeros((1, 3, count))
    way[:, 1] = 1.0
    rows = np.zeros((1, count), dtype=np.intp)
    return Form(content=content, base=points, rows=rows, ways=way, roundness=0.0)


@dataclass(frozen=True, kw_only=True)
class Bars(Form):
    """Bars that a linkage moves; what places them are the linkage's own points."""

    bar: Places
    """Which bar each point is of."""
    part: Array
    """How far along it."""
    starts: Array
    """How far one end goes per reading, (bars, 3, positions, readings). [-]"""
    ends: Array
    """The same of the other end."""

    def rates(self, points: Places, positions: Places, way: Array, readings: int) -> Array:
        """Return how far points go along a way of their own per reading, (readings, points)."""
        del readings
        bar, part = self.bar[points], self.part[points][:, np.newaxis, np.newaxis]
        moved = (1.0 - part) * self.starts[bar, :, positions]
        moved = moved + part * self.ends[bar, :, positions]
        return np.asarray(np.einsum("pik,ip->kp", moved, way))


def moving_rods(*, content: bytes, starts: Array, ends: Array, radius: float) -> Bars:
    """Return the bars of a linkage, each where it stands at every position of the wheel.

    Parameters
    ----------
    content : bytes
        A name of all that makes them. [-]
    starts : array
        One end of each bar, (bars, 3, positions, 1 + readings): nominal, and with each reading of
        the linkage larger by one unit. [m]
    ends : array
        The other ends. [m]
    radius : float
        Of the bars. [m]

    Returns
    -------
    Bars
        Points along them.

    Notes
    -----
    First order in the readings. A reading that would stop the linkage just there adds no spread.

    References
    ----------
    .. [1] Geometry.

    """
    apart = np.linalg.norm(ends[..., 0] - starts[..., 0], axis=1)
    counts = 2 + (np.nanmax(apart, axis=1) / EDGE).astype(np.intp)
    part = np.concatenate([np.linspace(0.0, 1.0, count) for count in counts])
    bar = np.repeat(np.arange(counts.size), counts)
    along = part[:, np.newaxis, np.newaxis]
    base = starts[bar, ..., 0] * (1.0 - along) + ends[bar, ..., 0] * along
    moved = [np.nan_to_num(one[..., 1:] - one[..., :1]) for one in (starts, ends)]
    return Bars(
        content=content,
        base=np.ascontiguousarray(base.swapaxes(0, 1)),
        rows=np.zeros((0, part.size), dtype=np.intp),
        ways=np.zeros((0, 3, part.size)),
        roundness=radius,
        bar=bar,
        part=part,
        starts=moved[0],
        ends=moved[1],
    )


def _between(name: str, part: Array, readings: Array, radius: float, follows: float) -> Obstacle:
    """Return points between two corners, or along the line between them, by their shares."""
    rows = np.array([np.full(part.shape[1], one) for one in range(6)])
    axes = np.eye(3)[:, :, np.newaxis]
    ways = np.concatenate((axes * (1.0 - part), axes * part))
    nominal = readings[:, 0]
    form = _placed(
        content=content_name("between", part, nominal, radius, follows),
        nominal=nominal,
        rows=rows,
        ways=ways,
        rounding=radius,
        follows=follows,
    )
    return Obstacle(name=name, form=form, readings=readings - readings[:, :1])


def _placed(
    *,
    content: bytes,
    nominal: Array,
    rows: Array,
    ways: Array,
    rounding: float,
    follows: float = WITH_BODY,
) -> Form:
    places = rows.astype(np.intp)
    base = (ways * nominal[places][:, np.newaxis]).sum(axis=0)
    return Form(
        content=content,
        base=base,
        rows=places,
        ways=ways,
        roundness=rounding,
        follows=follows,
    )
