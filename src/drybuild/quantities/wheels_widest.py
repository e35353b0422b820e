"""The widest tyre that goes under the arches, and what each change would buy.

A long search: nothing that is checked needs it, so it is made only where somebody asks for it.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import lru_cache

import numpy as np

from drybuild.errors import MissingInput, TableError
from drybuild.physics import wheels as rims
from drybuild.physics.envelope.gaps import Fitted, Gap, least_gaps
from drybuild.physics.envelope.obstacles import cloud
from drybuild.physics.envelope.path import WheelPath
from drybuild.physics.envelope.room import Room, room
from drybuild.physics.envelope.widest import Choice, Clear, best_shift, both_clear, widest
from drybuild.physics.tyre_sizes import INCH
from drybuild.physics.tyres import section_width_on_rim
from drybuild.project.arches import Arches
from drybuild.project.body import Body
from drybuild.project.brakes import AxleBrakes, FrontBrakes, RearBrakes
from drybuild.project.brief import Brief
from drybuild.project.readings import Reading, parse_reading
from drybuild.project.samples import Values
from drybuild.project.steering import Steering
from drybuild.project.suspension import FrontSuspension, RearSuspension
from drybuild.project.tyres import Tyres
from drybuild.project.wheels import Wheels
from drybuild.quantities.axles import AXLES, FRONT, REAR, constant
from drybuild.quantities.quantity import Labelled, step
from drybuild.quantities.tyres import RIM_STEP
from drybuild.quantities.tyres_form import TyreForm, tyre_form
from drybuild.quantities.wheels import MeasuredFit
from drybuild.quantities.wheels_envelope import AIR, GROWTH_SPEED, barrel_of, outline_of
from drybuild.quantities.wheels_room import (
    AS_IT_IS,
    MIDDLE_SHARE,
    Change,
    Rooms,
    front_room,
    rear_room,
)
from drybuild.tables import wheels as wheel_tables
from drybuild.tables.tyres import metric_sizes, rim_width_range

DIAMETER_KEPT = 0.03
"""Rolling circumference may differ by this from the picked tyre's; common practice, no source."""
BUMP_STOP, LOCK_STOP = 0.010, float(np.radians(3.0))
"""What is tried: a stop 10 mm longer, 3 degrees less lock."""
FARTHEST = 0.060
"""No rim's middle goes farther from where the measured one was. [m]"""
OFFSET_STEP, BACKSPACING_STEP = 0.005, 0.25 * INCH
"""Steps of the trade's rims: offsets of 5 mm, or backspacings of a quarter inch."""
SIZES, SIZES_TRIED = 6, 3
"""Sizes listed for each axle; and with each change that is tried."""
WINGS = ("arch", "wing", "fender", "wheel arches", "quarter")
"""Words in the brief's `keep` that forbid work on the lip."""
AS_PICKED, ANY_RIM = "the picked wheels", "any rim and offset"
ROLLED, LONG_STOP, LESS_LOCK, ALL = (
    "lip rolled",
    "bump stop 10 mm longer",
    "lock limited by 3 deg",
    "all of these",
)


@dataclass(frozen=True, kw_only=True)
class Tried:
    """What clears with one change."""

    change: str
    clear: dict[str, tuple[Clear, ...]]
    """By axle, widest first."""
    same: tuple[Clear, Clear] | None
    """The widest size that clears on both axles."""
    buys: dict[str, float]
    """Width of tyre that it buys beyond any rim and offset. [m]"""
    air: dict[str, float]
    """Air that it adds round the tyre that any rim and offset would allow. [m]"""


@dataclass(frozen=True, kw_only=True)
class Widest:
    """The outcome of a search."""

    tried: tuple[Tried, ...]
    sizes: int
    """Sizes within the limits."""
    choices: int
    """Tyres on rims within the limits."""
    limits: tuple[str, ...]
    """What bounded the search, in words."""
    measured: dict[str, bool]
    """By axle: whether the arch itself was measured, or only the gaps in it."""
    old_offset: dict[str, float]
    """Of the wheels that stood there at measuring. [m]"""
    gaps: dict[str, tuple[Gap, ...]]
    """By axle: gaps round the widest tyre on any rim, with their spreads; none without an arch."""

    @property
    def plain(self) -> Tried:
        """What clears on any rim and offset, nothing changed."""
        return next(one for one in self.tried if one.change == ANY_RIM)

    def clears(self, axle: str) -> float | None:
        """Return the chance that the widest tyre touches nothing; None where it is not known."""
        if axle not in self.gaps or not self.gaps[axle]:
            return None
        least = np.min(np.broadcast_arrays(*(one.values for one in self.gaps[axle])), axis=0)
        return float(np.mean(least[1:] >= 0.0)) if least.size > 1 else float(least[0] >= 0.0)

    def row(self, change: str) -> Tried | None:
        """Return what clears with a change, if it was tried."""
        return next((one for one in self.tried if one.change == change), None)


@dataclass(frozen=True, kw_only=True)
class _Limits:
    """Bounds of the search, in SI."""

    low: dict[str, float]
    high: dict[str, float]
    load: float
    words: tuple[str, ...]

    def allow(self, name: str, value: float) -> bool:
        """Say whether a value is within the bounds."""
        near = 1e-6
        return self.low.get(name, -np.inf) - near <= value <= self.high.get(name, np.inf) + near


@step("Widest tyres that clear, and what changes buy", source="common-practice")
def widest_tyres(
    front_wheel_room: Rooms,
    rear_wheel_room: Rooms,
    front_suspension: FrontSuspension,
    rear_suspension: RearSuspension,
    steering: Steering,
    arches: Arches,
    body: Body,
    front_track: Values,
    rear_track: Values,
    front_adjusted: Values,
    rear_adjusted: Values,
    measured_fit: MeasuredFit,
    wheels: Wheels,
    tyres: Tyres,
    wheel_diameter: Labelled,
    wheel_width: Labelled,
    wheel_offset: Labelled,
    tyre_outside_diameter: Labelled,
    laden_axle_load: Labelled,
    front_brakes: FrontBrakes,
    rear_brakes: RearBrakes,
    brief: Brief,
) -> Widest:
    """Try every listed size on every rim that fits it, at every offset step, widest first."""
    limits = _limits(
        brief, tyre_outside_diameter, laden_axle_load, front_brakes, rear_brakes,
        front_suspension, rear_suspension,
    )  # fmt: skip
    growth = float(tyres.speed_growth[0]) * (float(brief.cruise_speed[0]) / GROWTH_SPEED) ** 2
    choices = tuple(_choices(limits, wheels, tyres, growth))
    offset = {axle: float(measured_fit.offset[axle][0]) for axle in AXLES}
    measured = {FRONT: FRONT in front_wheel_room, REAR: REAR in rear_wheel_room}
    shifts = {axle: _shifts(choices, wheels, offset[axle]) for axle in AXLES}
    own = tuple(
        one
        for one in choices
        if abs(one.rim_code * INCH - float(wheel_diameter[FRONT][0])) < RIM_STEP
        and abs(one.rim_width - float(wheel_width[FRONT][0])) < RIM_STEP
    )
    own_shifts = {
        axle: {one.rim_width: constant(offset[axle] - float(wheel_offset[axle][0])) for one in own}
        for axle in AXLES
    }

    def rooms(change: Change) -> dict[str, Room]:
        found = front_room(
            front_suspension, steering, arches, body, front_track, front_adjusted, change
        )
        if change == Change(lock=change.lock):
            return {**base, **{axle: one.room for axle, one in found.items()}}
        found |= rear_room(rear_suspension, arches, rear_track, rear_adjusted, change)
        return {
            axle: found[axle].room if axle in found else _taped(axle, arches, measured_fit, change)
            for axle in AXLES
        }

    taped = {
        axle: _taped(axle, arches, measured_fit, AS_IT_IS) for axle in AXLES if not measured[axle]
    }
    given = {**front_wheel_room, **rear_wheel_room}
    base = {axle: given[axle].room if axle in given else taped[axle] for axle in AXLES}
    plain = _tried(ANY_RIM, base, choices, shifts, None, base)
    tried = [_tried(AS_PICKED, base, own, own_shifts, plain, base), plain]
    for name, change in _changes(brief, given, measured).items():
        tried.append(_tried(name, rooms(change), choices, shifts, plain, base))
    return Widest(
        tried=tuple(tried),
        sizes=len({one.size for one in choices}),
        choices=len(choices),
        limits=limits.words,
        measured=measured,
        old_offset=offset,
        gaps={
            axle: least_gaps(
                room=one.room,
                fitted=_fitted(plain.clear[axle][0], tyres, measured_fit.offset[axle]),
                wander=one.wander,
            )
            for axle, one in given.items()
            if plain.clear[axle]
        },
    )


def _fitted(found: Clear, tyres: Tyres, old_offset: Values) -> Fitted:
    """Return a tyre of the search as the gaps ask for it, with what makers differ by."""
    one = found.choice
    height = (one.outside_diameter - one.rim_code * INCH) / 2.0
    width, up = tyres.width_over_size, tyres.height_over_size
    return Fitted(
        outline=one.outline,
        shift=found.shift,
        width_error=one.fitted_width * (width - width[:1]),
        radius_error=height * (up - up[:1]),
        shift_error=old_offset - old_offset[:1],
        barrel=one.barrel,
    )


def _changes(brief: Brief, given: Rooms, measured: dict[str, bool]) -> dict[str, Change]:
    """Return what may be tried: no lip is rolled that the brief keeps, or that has no fold.

    Of gaps by tape only a longer stop's gain is known: the gap above was taken at full bump.
    """
    if not given:
        return {LONG_STOP: Change(bump=BUMP_STOP)}
    kept = [word.lower() for word in brief.keep] if brief.has("keep") else []
    rolled = any(one.rolls_back > 0.0 for one in given.values()) and not any(
        part in word for word in kept for part in WINGS
    )
    found = {ROLLED: Change(rolled=True)} if rolled else {}
    found[LONG_STOP] = Change(bump=BUMP_STOP)
    if measured[FRONT]:
        found[LESS_LOCK] = Change(lock=LOCK_STOP)
    found[ALL] = Change(rolled=rolled, bump=BUMP_STOP, lock=LOCK_STOP)
    return found


def _tried(
    change: str,
    rooms: dict[str, Room],
    choices: tuple[Choice, ...],
    shifts: dict[str, dict[float, Values]],
    plain: Tried | None,
    base: dict[str, Room],
) -> Tried:
    enough = SIZES if rooms is base else SIZES_TRIED
    clear = {
        axle: widest(room=rooms[axle], choices=choices, shifts=shifts[axle], air=AIR, enough=enough)
        for axle in AXLES
    }
    buys, air = {}, {}
    for axle in AXLES:
        best = plain.clear[axle][0] if plain and plain.clear[axle] else None
        if best is None or not clear[axle]:
            continue
        buys[axle] = clear[axle][0].choice.section_width - best.choice.section_width
        if rooms[axle] is not base[axle]:
            steps = shifts[axle][best.choice.rim_width]
            _, spare = best_shift(
                room=rooms[axle],
                outline=best.choice.outline,
                barrel=best.choice.barrel,
                shifts=steps,
                air=AIR,
            )
            air[axle] = spare - best.spare
    return Tried(
        change=change,
        clear=clear,
        same=both_clear(front=clear[FRONT], rear=clear[REAR]),
        buys=buys,
        air=air,
    )


def _choices(limits: _Limits, wheels: Wheels, tyres: Tyres, growth: float) -> Iterator[Choice]:
    """Return every size on every rim within the limits, widest first."""
    wanted = (limits.low["tyre_outside_diameter"] + limits.high["tyre_outside_diameter"]) / 2.0
    forms = [one for one in _forms() if limits.allow("wheel_diameter", one.size.rim_code * INCH)]
    forms = [one for one in forms if limits.allow("tyre_outside_diameter", one.outside_diameter)]
    forms = [one for one in forms if (one.load_capacity or 0.0) >= limits.load]
    forms.sort(key=lambda one: (-one.section_width, abs(one.outside_diameter - wanted)))
    for form in forms:
        bead = wheel_tables.bead_seat_diameter(form.size.rim_code)
        for rim in _rims(form):
            width = float(
                section_width_on_rim(
                    section_width=form.section_width,
                    measuring_rim_width=form.measuring_rim_width,
                    rim_width=rim,
                )
            )
            if not limits.allow("wheel_width", rim) or not limits.allow(
                "tyre_section_width", width
            ):
                continue
            yield Choice(
                size=form.size.text,
                section_width=form.section_width,
                fitted_width=width,
                outside_diameter=form.outside_diameter,
                capacity=form.load_capacity or 0.0,
                rim_code=form.size.rim_code,
                rim_width=rim,
                outline=outline_of(
                    section_width=width,
                    outside_diameter=form.outside_diameter + 2.0 * growth,
                    bead_diameter=bead,
                    rim_width=rim,
                    wheels=wheels,
                    tyres=tyres,
                ),
                barrel=barrel_of(bead_diameter=bead, rim_width=rim, wheels=wheels),
            )


@lru_cache(maxsize=1)
def _forms() -> tuple[TyreForm, ...]:
    known = wheel_tables.rim_codes()
    found = [tyre_form(text) for text in metric_sizes()]
    return tuple(one for one in found if one.size.rim_code in known)


def _rims(form: TyreForm) -> list[float]:
    """Return the rim widths of a size in half inches, within its usual range."""
    least, largest = rim_width_range(form.aspect)
    low = np.ceil((least * form.section_width - RIM_STEP) / INCH * 2.0)
    high = np.floor((largest * form.section_width + RIM_STEP) / INCH * 2.0)
    return [float(half) / 2.0 * INCH for half in np.arange(low, high + 1.0)]


def _shifts(choices: tuple[Choice, ...], wheels: Wheels, old_offset: float) -> dict[float, Values]:
    """Return how far each rim on sale would put its middle outward, by its width."""
    offset = wheels.given.get("offset") or wheels.given.get("backspacing")
    inches = isinstance(offset, Reading) and offset.unit.startswith("in")
    found = {}
    for rim in {one.rim_width for one in choices}:
        if inches:
            back = np.arange(8.0, 32.0) * BACKSPACING_STEP
            offsets = rims.offset_from_backspacing(
                rim_width=rim, backspacing=back, flange_thickness=rims.FLANGE_THICKNESS
            )
        else:
            offsets = np.arange(-5.0, 13.0) * OFFSET_STEP
        shifts = np.sort(old_offset - offsets)
        found[rim] = shifts[np.abs(shifts) <= FARTHEST]
    return found


def _limits(
    brief: Brief,
    diameter: Labelled,
    load: Labelled,
    front_brakes: FrontBrakes,
    rear_brakes: RearBrakes,
    *suspensions: FrontSuspension | RearSuspension,
) -> _Limits:
    now = float(diameter[FRONT][0])
    need = max(float(load[axle][0]) for axle in AXLES) / 2.0
    low = {"tyre_outside_diameter": now * (1.0 - DIAMETER_KEPT)}
    high = {"tyre_outside_diameter": now * (1.0 + DIAMETER_KEPT)}
    words = [
        f"rolling circumference within {DIAMETER_KEPT:.0%} of the picked tyre's",
        f"each tyre rated for {need:.0f} kg, half of the heavier laden axle",
    ]
    least = 0.0
    for part in (front_brakes, rear_brakes, *suspensions):
        if part.has("least_wheel_diameter"):
            least = max(least, float(part.least_wheel_diameter[0]))
    for brakes in (front_brakes, rear_brakes):
        least = max(least, _least_rim(brakes))
    if least:
        low["wheel_diameter"] = least
        words.append(f"rims of {least / INCH:g} in or more, for what turns inside them")
    names = ("wheel_diameter", "wheel_width", "tyre_outside_diameter", "tyre_section_width")
    lines = brief.given.get("must")
    for line in lines if isinstance(lines, tuple) else ():
        if line.quantity not in names:
            continue
        value = parse_reading(line.limit, "m").value
        if line.at_least:
            low[line.quantity] = max(low.get(line.quantity, 0.0), value)
        else:
            high[line.quantity] = min(high.get(line.quantity, np.inf), value)
        words.append(f"the brief: {line.text}")
    return _Limits(low=low, high=high, load=need, words=tuple(words))


def _least_rim(brakes: AxleBrakes) -> float:
    """Return the least rim that the trade gets such a disc into; nothing for a drum."""
    if brakes.kind != "disc":
        return 0.0
    try:
        disc = float(brakes.rotor_diameter[0])
    except MissingInput:
        return 0.0
    for code in wheel_tables.rim_codes():
        try:
            _, largest = wheel_tables.largest_rotor_in_practice(code)
        except TableError:
            continue
        if largest >= disc:
            return code * INCH
    return 0.0


def _taped(axle: str, arches: Arches, fit: MeasuredFit, change: Change) -> Room:
    """Return the room where only the gaps round the measured tyre are known: three walls."""

    def gap(name: str) -> float:
        values: Values = getattr(arches, f"{axle}_{name}_clearance")
        return float(values[0])

    half = float(fit.section_width[axle][0]) / 2.0
    top = float(fit.outside_diameter[axle][0]) / 2.0
    up = np.arange(0.5 * top, top + 0.15, 0.002)
    across = np.arange(-0.25, 0.25, 0.002)
    none = np.zeros(1)
    walls = (
        ("inner side", np.full(up.size, -half - gap("inner")), up),
        ("wing", np.full(up.size, half + gap("outer")), up),
        ("arch above", across, np.full(across.size, top + gap("radial") + change.bump)),
    )
    return room(
        path=WheelPath(
            travel=none,
            steer=none,
            roll=none,
            centre=np.zeros((3, 1)),
            spin=np.array([[0.0], [1.0], [0.0]]),
            carrier=np.zeros((3, 1)),
            shape=(1, 1, 1),
        ),
        obstacles=[
            cloud(name=name, points=np.stack((0.0 * y, y, z)), error=none) for name, y, z in walls
        ],
        middle=2.0 * MIDDLE_SHARE * top,
    )
