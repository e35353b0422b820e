"""The measured body judged: lozenge, sideways bend, twist, sag, openings, and readings that lie."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise

import numpy as np

from drybuild.errors import DoesNotApply, MissingInput
from drybuild.physics.datum import Adjustment, adjusted, fitted_twist, loose_freedoms, odds_outside
from drybuild.physics.datum import sag as sag_of
from drybuild.project.body import Body
from drybuild.project.datum import Datum
from drybuild.project.readings import Reading
from drybuild.project.samples import HALF_BAND, Values
from drybuild.quantities.quantity import Labelled, quantity, step
from drybuild.tables.datum import SIDES, PointPair, allowed, length_ends, point_pairs

FRONT_SHARE = 0.44
"""Of what stands out over the wheel centres; only where the solution starts from."""
LEAST = 1e-4
"""Least standard deviation of a reading. [m]"""
ENDS = 2


@dataclass(frozen=True, kw_only=True)
class Network:
    """The points in place: forward from the rearmost pair's middle, and to the left."""

    pairs: tuple[PointPair, ...]
    """Pairs with both points in place, front to rear."""
    forward: dict[str, Values]
    left: dict[str, Values]
    lengths: tuple[str, ...]
    fit: Adjustment

    def gap(self, first: str, second: str) -> Values:
        """Return the adjusted distance between two points."""
        return np.hypot(
            self.forward[first] - self.forward[second], self.left[first] - self.left[second]
        )


@step("Datum points put in place by the measured lengths", source="adjustment-computations")
def datum_network(datum: Datum, body: Body) -> Network:
    """Adjust all lengths together; each sample draws its own readings and gets its own places."""
    lengths = datum.lengths
    if not lengths:
        raise DoesNotApply(datum.path_of("lengths"), "nobody has measured the datum points")
    names = _held_together(tuple(lengths))
    start = about(body)
    points = list(dict.fromkeys(end for name in names for end in _ends(name)))
    links = [(points.index(a), points.index(b)) for a, b in map(_ends, names)]
    where = np.array([start[point] for point in points]).reshape(-1, 2)
    if not names or loose_freedoms(start=where, pairs=links):
        why = "too few lengths hold the points together; measure sides, widths and both diagonals"
        raise MissingInput(datum.path_of("lengths"), why)
    given = Datum.lengths.given(datum)
    fit = adjusted(
        start=where,
        held=np.zeros(len(points), dtype=bool),
        pairs=links,
        lengths=[lengths[name][0] for name in names],
        spreads=[_deviation(given[name]) for name in names],
    )
    moved = np.array([lengths[name] - lengths[name][0] for name in names])
    places = fit.places.reshape(-1, 1) + fit.gain @ moved
    drawn = dict(zip(points, places.reshape(len(points), 2, -1), strict=True))
    pairs = tuple(
        one
        for one in point_pairs(body.kind)
        if {f"{one.number} left", f"{one.number} right"} <= set(points)
    )
    if len(pairs) < ENDS:
        why = "two pairs of points, left and right, are needed for a centre line"
        raise MissingInput(datum.path_of("lengths"), why)
    forward, left = _in_line(drawn, pairs)
    return Network(pairs=pairs, forward=forward, left=left, lengths=names, fit=fit)


@quantity(
    "m", "Left point ahead of the right one", source="adjustment-computations", per="pair",
    shown="mm",
)  # fmt: skip
def datum_square(datum_network: Network) -> Labelled:
    """Square to the centre line of the first and the last pair: a lozenge shows here."""
    ahead = datum_network.forward
    return {
        f"pair {one.number}": ahead[f"{one.number} left"] - ahead[f"{one.number} right"]
        for one in datum_network.pairs
    }


@quantity(
    "m", "Middle of a pair to the left of the centre line", source="adjustment-computations",
    per="pair", shown="mm",
)  # fmt: skip
def datum_sideways(datum_network: Network, datum: Datum) -> Labelled:
    """Return how far each pair between the ends lies off the line of the ends."""
    inner = datum_network.pairs[1:-1]
    if not inner:
        raise MissingInput(datum.path_of("lengths"), "only two pairs are in place")
    off = datum_network.left
    return {
        f"pair {one.number}": (off[f"{one.number} left"] + off[f"{one.number} right"]) / 2.0
        for one in inner
    }


@quantity(
    "m", "Diagonals of a field against each other", source="adjustment-computations",
    per="field", shown="mm",
)  # fmt: skip
def datum_diagonals(datum_network: Network) -> Labelled:
    """From front left to rear right less from front right to rear left, as adjusted."""
    numbers = [one.number for one in datum_network.pairs]
    fields = list(pairwise(numbers))
    if len(numbers) > ENDS:
        fields.append((numbers[0], numbers[-1]))
    return {
        f"{a} to {b}": datum_network.gap(f"{a} left", f"{b} right")
        - datum_network.gap(f"{a} right", f"{b} left")
        for a, b in fields
    }


@dataclass(frozen=True, kw_only=True)
class Levels:
    """The twist fitted to the heights, and what each pair is off it."""

    twist: Values
    """Over the track, left front up. [m]"""
    odd: Labelled


@step("Heights of the pairs put together", source="definition")
def datum_levels(datum: Datum, body: Body) -> Levels:
    """Fit one twist to all pairs whose two heights are given, whatever the stand's slope."""
    heights = datum.heights
    pairs = [
        one
        for one in point_pairs(body.kind)
        if {f"{one.number} left", f"{one.number} right"} <= set(heights)
    ]
    if not heights:
        raise DoesNotApply(datum.path_of("heights"), "nobody has levelled the datum points")
    if len(pairs) < ENDS:
        raise MissingInput(datum.path_of("heights"), "both points of two pairs are needed")
    start, given = about(body), Datum.heights.given(datum)
    across = np.array([2.0 * start[f"{one.number} left"][1] for one in pairs])
    drop = np.array(
        [heights[f"{one.number} left"] - heights[f"{one.number} right"] for one in pairs]
    )
    sides = [[_deviation(given[f"{one.number} {side}"]) for side in SIDES] for one in pairs]
    spreads = np.sqrt((np.array(sides) ** 2).sum(axis=1))
    along = np.array([start[f"{one.number} left"][0] for one in pairs])
    twist, odd = fitted_twist(
        along=along[::-1], across=across[::-1], drop=drop[::-1], spreads=spreads[::-1]
    )
    off = {
        f"pair {one.number}": row
        for one, row in zip(pairs[::-1], odd * across[::-1, None], strict=True)
    }
    return Levels(twist=twist * across.mean(), odd=off)


@quantity("m", "Twist over the track, left front up", source="definition", shown="mm")
def datum_twist(datum_levels: Levels) -> Values:
    """Return how far a corner stands above the plane of the other three."""
    return datum_levels.twist


@quantity("m", "Height of a pair off the fitted twist", source="definition", per="pair", shown="mm")
def datum_height_odd(datum_levels: Levels) -> Labelled:
    """Tell a single pair that is bent, or misread."""
    return datum_levels.odd


@quantity("m", "Sag of the sill line in its middle", source="definition", per="side", shown="mm")
def datum_sag(datum: Datum, body: Body) -> Labelled:
    """Return how far the middle lies below the line of the ends, down positive."""
    heights, seam = datum.heights, [one for one in point_pairs(body.kind) if one.seam]
    if not heights:
        raise DoesNotApply(datum.path_of("heights"), "nobody has levelled the datum points")
    start = about(body)
    found = {}
    for side in SIDES:
        names = [f"{one.number} {side}" for one in seam]
        if set(names) <= set(heights):
            front, middle, rear = (heights[name] for name in names)
            along = [start[name][0] for name in names]
            found[side] = sag_of(along=along, front=front, middle=middle, rear=rear)
    if not found:
        numbers = ", ".join(one.number for one in seam)
        raise MissingInput(datum.path_of("heights"), f"heights of points {numbers} are needed")
    return found


@quantity("m", "Left wheelbase less right", source="the-build-file", shown="mm")
def datum_wheelbase(datum: Datum) -> Values:
    """Return the difference; nought for a car that tracks straight."""
    if not (datum.has("wheelbase_left") or datum.has("wheelbase_right")):
        raise DoesNotApply(datum.path_of("wheelbase_left"), "nobody has measured each side's own")
    return datum.wheelbase_left - datum.wheelbase_right


@quantity(
    "m", "Diagonals of an opening against each other", source="the-build-file", per="opening",
    shown="mm",
)  # fmt: skip
def datum_openings(datum: Datum) -> Labelled:
    """Rising less falling; a sagging shell shows in its doors first."""
    openings = datum.openings
    if not openings:
        raise DoesNotApply(datum.path_of("openings"), "nobody has measured the openings")
    return {name: one.rising - one.falling for name, one in openings.items()}


@quantity(
    "-", "Misfit of each length, in standard deviations", source="baarda-snooping", per="length"
)
def datum_misfit(datum_network: Network) -> Labelled:
    """Return what the other lengths leave over of it; those that nothing checks are left out."""
    found = {
        name: np.array([abs(one)])
        for name, one in zip(datum_network.lengths, datum_network.fit.misfit, strict=True)
        if np.isfinite(one)
    }
    if not found:
        raise MissingInput("datum.lengths", "no length is checked by others; add diagonals")
    return found


JUDGED = {
    "datum_square": "square",
    "datum_sideways": "sideways",
    "datum_diagonals": "diagonals",
    "datum_sag": "sag",
    "datum_openings": "opening",
}
"""Labelled figures with a tolerance, and its name in the table."""


def odds_of(values: Values, what: str) -> float:
    """Return how likely the true figure is out of its tolerance; its spread is the samples'."""
    spread = max(float(values[1:].std()), LEAST / 10.0) if values.size > 1 else LEAST
    return float(odds_outside(value=values[0], spread=spread, allowed=allowed(what)))


def about(body: Body) -> dict[str, tuple[float, float]]:
    """Return about where each point lies: forward of the front wheels, to the left. [m]."""
    base, rest = float(body.wheelbase[0]), float(body.length[0] - body.wheelbase[0])
    ends = (FRONT_SHARE * rest, 0.0, -base, -base - (1.0 - FRONT_SHARE) * rest)
    half = float(body.width[0]) / 2.0
    return {
        f"{one.number} {side}": (
            float(np.interp(one.station, (0.0, 1.0, 2.0, 3.0), ends)),
            way * one.across * half,
        )
        for one in point_pairs(body.kind)
        for side, way in (("left", 1.0), ("right", -1.0))
    }


def _held_together(names: tuple[str, ...]) -> tuple[str, ...]:
    """Leave out lengths to points that only one length reaches: they say nothing of the shape."""
    kept = list(names)
    while True:
        ends = [end for name in kept for end in _ends(name)]
        rest = [name for name in kept if all(ends.count(end) > 1 for end in _ends(name))]
        if len(rest) == len(kept):
            return tuple(kept)
        kept = rest


def _ends(name: str) -> tuple[str, str]:
    ends = length_ends(name)
    assert ends is not None  # the file's reader has refused any other
    return ends


def _deviation(reading: Reading) -> float:
    return max(reading.spread / HALF_BAND, LEAST)


def _in_line(
    drawn: dict[str, Values], pairs: tuple[PointPair, ...]
) -> tuple[dict[str, Values], dict[str, Values]]:
    """Turn the places into the car's own frame: its centre line runs through the end pairs."""
    front, rear = (
        (drawn[f"{one.number} left"] + drawn[f"{one.number} right"]) / 2.0
        for one in (pairs[0], pairs[-1])
    )
    ahead = (front - rear) / np.hypot(*(front - rear))
    forward, left = {}, {}
    for name, place in drawn.items():
        away = place - rear
        forward[name] = away[0] * ahead[0] + away[1] * ahead[1]
        left[name] = away[1] * ahead[0] - away[0] * ahead[1]
    return forward, left
