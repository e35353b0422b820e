"""The widest tyre that clears: every size on every rim and offset, tried against the room."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from drybuild.errors import require
from drybuild.physics.envelope.nearest import nearby, outline_distance
from drybuild.physics.envelope.rim import Pieces
from drybuild.physics.envelope.room import Room

Array = npt.NDArray[np.float64]
Places = npt.NDArray[np.intp]

ASIDE = 0.05
"""A contact that pushes along the axle less than this is not mended by another offset. [-]"""


@dataclass(frozen=True, kw_only=True)
class Air:
    """The air that the trade keeps."""

    aside: float
    """Beside the tyre. [m]"""
    above: float
    """Over the tread. [m]"""


@dataclass(frozen=True, kw_only=True)
class Choice:
    """A tyre of some size on some rim."""

    size: str
    section_width: float
    """Nominal, as marked: what the search is for. [m]"""
    fitted_width: float
    """On this rim. [m]"""
    outside_diameter: float
    """[m]"""
    capacity: float
    """Load that one tyre is rated for. [kg]"""
    rim_code: float
    """[in]"""
    rim_width: float
    """[m]"""
    outline: Array
    barrel: Pieces = ()
    """What the rim has inside its seats. [m]"""


@dataclass(frozen=True, kw_only=True)
class Clear:
    """A choice that clears, where it does so best."""

    choice: Choice
    shift: float
    """Of the rim's middle outward from the measured wheels'. [m]"""
    spare: float
    """Least gap beyond the trade's air. [m]"""


def wanted_air(*, normal: Array, air: Air) -> Array:
    """Return the air that a contact should keep, by the way that it faces.

    Parameters
    ----------
    normal : array
        From the tyre to the obstacle, along and out from the axle, (..., 2). [-]
    air : Air
        Air beside and above. [m]

    Returns
    -------
    array
        Air, (...). [m]

    Notes
    -----
    m = sqrt((a n_s)^2 + (b n_rho)^2): a beside, b above, an ellipse between.

    References
    ----------
    .. [1] 6 to 10 mm beside and 10 to 15 mm above are common practice, no source.

    """
    return np.hypot(air.aside * normal[..., 0], air.above * normal[..., 1])


def spare_air(
    *, room: Room, outline: Array, barrel: Pieces, shift: float, air: Air
) -> tuple[float, int]:
    """Return the least gap beyond the air to be kept, and which way another offset would help.

    Parameters
    ----------
    room : Room
        What stands around. [m]
    outline : array
        Of the tyre on its seats, (corners, 2). [m]
    barrel : tuple of array
        What the rim has inside its seats. [m]
    shift : float
        Of the rim's middle outward. [m]
    air : Air
        Air to be kept. [m]

    Returns
    -------
    tuple of float and int
        Spare air [m]; 1 outward, -1 inward, 0 neither or both.

    Notes
    -----
    A gap to a convex section is convex in the shift, so a place that is too near from outside is
    mended by going inward alone; too near on both sides is mended by no offset.

    References
    ----------
    .. [1] Geometry of convex sets.

    """
    found = _spares(room.points, room.roundness, outline, barrel, shift, air)
    return found.least, found.way


def best_shift(
    *, room: Room, outline: Array, barrel: Pieces, shifts: Array, air: Air
) -> tuple[float, float]:
    """Return the offset step at which an outline has most spare air.

    Parameters
    ----------
    room : Room
        What stands around. [m]
    outline : array
        Of the tyre on its seats. [m]
    barrel : tuple of array
        What the rim has inside its seats. [m]
    shifts : array
        Steps of the rim's middle outward, rising. [m]
    air : Air
        Air to be kept. [m]

    Returns
    -------
    tuple of float
        Shift and spare air; spare is less than zero where no step clears. [m]

    Notes
    -----
    Halve the steps until one clears, then climb from there; spare air rises and falls once.

    References
    ----------
    .. [1] Bisection.

    """
    return _best_shift(
        shifts,
        lambda shift, _: spare_air(room=room, outline=outline, barrel=barrel, shift=shift, air=air),
    )


def _best_shift(
    shifts: Array, work: Callable[[float, float], tuple[float, int]]
) -> tuple[float, float]:
    """Return it by a function of a shift, and of the spare air that it must beat to count."""
    require(shifts.size > 0, "shifts", shifts.size, "-", "one or more")
    low, high = 0, shifts.size - 1
    tried: dict[int, float] = {}
    while low <= high:
        place = (low + high) // 2
        tried[place], way = work(float(shifts[place]), 0.0)
        if tried[place] >= 0.0 or way == 0:
            break
        low, high = (place + 1, high) if way > 0 else (low, place - 1)
    best = max(tried, key=lambda one: tried[one])
    if tried[best] < 0.0:
        return float(shifts[best]), tried[best]
    for step in (-1, 1):
        while 0 <= best + step < shifts.size:
            spare, _ = work(float(shifts[best + step]), tried[best])
            if spare <= tried[best]:
                break
            best += step
            tried[best] = spare
    return float(shifts[best]), tried[best]


def widest(
    *, room: Room, choices: Iterable[Choice], shifts: dict[float, Array], air: Air, enough: int
) -> tuple[Clear, ...]:
    """Return the widest tyres that clear, widest first.

    Parameters
    ----------
    room : Room
        What stands around. [m]
    choices : iterable of Choice
        Tyres on rims, the widest first. [-]
    shifts : dict
        Steps of the rim's middle outward, rising, by rim width. [m]
    air : Air
        Air to be kept. [m]
    enough : int
        Sizes after which the search ends. [-]

    Returns
    -------
    tuple of Clear
        The best rim and offset of each size that clears.

    Notes
    -----
    Every choice before the last one returned was tried, so the first is the widest there is.

    References
    ----------
    .. [1] Exhaustive search in falling order.

    """
    found: dict[str, Clear] = {}
    walls = _Walls(room)
    for choice in choices:
        if choice.size not in found and len(found) >= enough:
            break
        shift, spare = _best_shift(shifts[choice.rim_width], walls.spare_of(choice, air))
        known = found.get(choice.size)
        if spare >= 0.0 and (known is None or spare > known.spare):
            found[choice.size] = Clear(choice=choice, shift=shift, spare=spare)
    return tuple(found.values())


@dataclass(frozen=True, kw_only=True)
class _Spares:
    """Spare air at the points that come near, and which way each stands from the tyre."""

    spare: Array
    normal: Array
    place: Places
    """Which point."""

    @property
    def least(self) -> float:
        """Of all points."""
        return float(self.spare.min())

    @property
    def way(self) -> int:
        """Which way another offset would help: 1 outward, -1 inward, 0 neither or both."""
        near = self.spare < 0.0
        outside = bool((near & (self.normal[:, 0] > ASIDE)).any())
        inboard = bool((near & (self.normal[:, 0] < -ASIDE)).any())
        return int(inboard) - int(outside)

    @property
    def tightest(self) -> set[int]:
        """Points with the least spare air: of all, outside and inboard."""
        sides = (self.normal[:, 0] > ASIDE, self.normal[:, 0] < -ASIDE)
        ranks = [self.spare, *(np.where(side, self.spare, np.inf) for side in sides)]
        return {int(self.place[one.argmin()]) for one in ranks}


def _spares(
    points: Array, roundness: Array, outline: Array, barrel: Pieces, shift: float, air: Air
) -> _Spares:
    points = points - np.array([shift, 0.0])
    kept = nearby(
        outline=outline,
        points=points,
        roundness=roundness,
        beyond=max(air.aside, air.above),
        starts=np.zeros(1, dtype=np.intp),
    )
    inside = np.flatnonzero(points[:, 1] < outline[:, 1].min())
    pieces = [(outline, kept), *((one, inside) for one in barrel if inside.size)]
    spares, normals = [], []
    for piece, places in pieces:
        distance, normal = outline_distance(outline=piece, points=points[places])
        spares.append(distance - roundness[places] - wanted_air(normal=normal, air=air))
        normals.append(normal)
    return _Spares(
        spare=np.concatenate(spares),
        normal=np.concatenate(normals),
        place=np.concatenate([places for _, places in pieces]),
    )


class _Walls:
    """A room's points, and those that were tightest so far: they stop most other tyres as well."""

    def __init__(self, room: Room) -> None:
        self.points, self.roundness = room.points, room.roundness
        self._tight: set[int] = set()

    def spare_of(self, choice: Choice, air: Air) -> Callable[[float, float], tuple[float, int]]:
        """Return a function for a choice's spare air at a shift, as far as it beats a value.

        The spare air of some of the points is no less than that of all of them.
        """

        def at(places: Places | slice, shift: float) -> _Spares:
            points, roundness = self.points[places], self.roundness[places]
            return _spares(points, roundness, choice.outline, choice.barrel, shift, air)

        def spare(shift: float, beaten: float) -> tuple[float, int]:
            if self._tight:
                found = at(np.array(sorted(self._tight)), shift)
                if found.least < beaten:
                    return found.least, found.way
            found = at(slice(None), shift)
            self._tight |= found.tightest
            return found.least, found.way

        return spare


def both_clear(*, front: Sequence[Clear], rear: Sequence[Clear]) -> tuple[Clear, Clear] | None:
    """Return the widest size that clears on both axles.

    Parameters
    ----------
    front : sequence of Clear
        What clears in front, widest first. [-]
    rear : sequence of Clear
        What clears behind. [-]

    Returns
    -------
    pair of Clear or None
        The same size in front and behind; rims and offsets are each axle's own.

    Notes
    -----
    The order of the front's list decides.

    References
    ----------
    .. [1] Definition.

    """
    behind = {one.choice.size: one for one in rear}
    for one in front:
        if one.choice.size in behind:
            return one, behind[one.choice.size]
    return None
