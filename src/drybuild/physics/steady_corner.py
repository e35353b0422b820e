"""A steady bend, from walking pace to the limit: both tyres of both axles at their own loads.

The inner wheel of an axle may lift; what it can no longer give up goes to the other axle. Angles
are small, springs and linkages linear. Arrays: leading axes are the points asked for, the last one
the samples.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from drybuild.errors import require
from drybuild.physics.crossing import crossing
from drybuild.physics.tyre_force import (
    SideCurve,
    SideTyre,
    peak_side_force,
    side_curve,
    trail_at,
)
from drybuild.units import STANDARD_GRAVITY

Values = float | npt.NDArray[np.float64]
Array = npt.NDArray[np.float64]
ROUNDS = 2
"""Of slip and the moments that it brings."""
LEAST_SLIP = np.radians(-2.0)
"""Where the search for a slip begins: toe and camber thrust ask for no more."""
NEAR_ENOUGH = 1e-8
"""Last change of a slip or an acceleration. [rad, m/s²]"""
MOST = 2.5 * STANDARD_GRAVITY
"""No road tyre holds more. [m/s²]"""


@dataclass(frozen=True, kw_only=True)
class CornerAxle:
    """One axle as a bend sees it."""

    tyre: SideTyre
    wheel_load: Values
    """Mean load of its two tyres at rest. [N]"""
    transfer: Values
    """Load moved to the outer tyre per lateral acceleration. [kg]"""
    lift: Values
    """Load that the air takes off the axle per lateral acceleration. [kg]"""
    track: Values
    """[m]"""
    camber: Values
    """Static, top outward positive, each wheel. [rad]"""
    lean: Values
    """Lean of its wheels to the road per body roll: 1 with the body, 0 upright. [-]"""
    toe_in: Values
    """Of each wheel. [rad]"""
    roll_steer: Values
    """Steer per roll, positive to understeer. [-]"""
    give: Values
    """Steer by compliance per side force and trail, positive out of the bend. [rad/(N·m)]"""
    mechanical_trail: Values
    """Of the steering axes; none at an axle that is not steered. [m]"""


@dataclass(frozen=True, kw_only=True)
class Bend:
    """The car in a bend."""

    front: CornerAxle
    rear: CornerAxle
    roll: Values
    """Body roll per lateral acceleration. [rad·s²/m]"""
    wheelbase: Values
    """[m]"""


@dataclass(frozen=True, kw_only=True)
class AxleState:
    """How one axle holds a bend; nan where it cannot."""

    slip: Array
    """Slip angle of the axle. [rad]"""
    outer_load: Array
    """[N]"""
    inner_load: Array
    """[N]"""
    outer_camber: Array
    """Towards the centre of the bend. [rad]"""
    inner_camber: Array
    """[rad]"""
    used: Array
    """Side force over the most that the axle could give. [-]"""
    aligning: Array
    """Moment of both tyres' side forces about their steering axes. [N·m]"""
    turning: Array
    """Moment of both tyres about their own contact centres, against the bend. [N·m]"""
    steer: Array
    """What roll and compliance steer it out of the bend. [rad]"""


@dataclass(frozen=True, kw_only=True)
class Loads:
    """The wheels of an axle in a bend."""

    outer: Array
    inner: Array
    outer_camber: Array
    inner_camber: Array
    toe_in: Values


def wheel_loads(*, bend: Bend, axle: str, acceleration: Values) -> Loads:
    """Return load and lean of both wheels of an axle.

    Parameters
    ----------
    bend : Bend
        The car. [-]
    axle : str
        ``front`` or ``rear``. [-]
    acceleration : float or array
        Lateral acceleration. [m/s²]

    Returns
    -------
    Loads
        Outer and inner wheel.

    Notes
    -----
    F = F₀ − lift a/2 ± q a. Where the other axle's inner wheel has lifted, the moment that it
    cannot take goes to this one: (q a − F)⁺ t_other/t.

    References
    ----------
    .. [1] W. F. and D. L. Milliken, "Race Car Vehicle Dynamics", SAE 1995, ch. 18.

    """
    one, other = (bend.front, bend.rear) if axle == "front" else (bend.rear, bend.front)
    mean = one.wheel_load - one.lift * acceleration / 2.0
    theirs = other.wheel_load - other.lift * acceleration / 2.0
    passed = np.maximum(other.transfer * acceleration - theirs, 0.0) * other.track / one.track
    moved = np.minimum(one.transfer * acceleration + passed, mean)
    leaning = one.lean * bend.roll * acceleration
    shape = np.broadcast_shapes(np.shape(mean), np.shape(moved), np.shape(leaning))
    return Loads(
        outer=np.broadcast_to(mean + moved, shape),
        inner=np.broadcast_to(mean - moved, shape),
        outer_camber=np.broadcast_to(-one.camber - leaning, shape),
        inner_camber=np.broadcast_to(one.camber - leaning, shape),
        toe_in=one.toe_in,
    )


def axle_in_bend(*, bend: Bend, axle: str, acceleration: Values, extra_force: Values) -> AxleState:
    """Return the slip at which an axle holds its share of the car in a bend.

    Parameters
    ----------
    bend : Bend
        The car. [-]
    axle : str
        ``front`` or ``rear``. [-]
    acceleration : float or array
        Lateral acceleration; zero or more. [m/s²]
    extra_force : float or array
        Side force on top of the axle's share of the mass. [N]

    Returns
    -------
    AxleState
        nan where the axle slides before.

    Notes
    -----
    F_o(α + toe, γ_o) + F_i(α − toe, γ_i) = m a + extra, between minus two
    degrees and the slip of the greatest sum, which lies between the two tyres' own peaks.

    References
    ----------
    .. [1] W. F. and D. L. Milliken, "Race Car Vehicle Dynamics", SAE 1995, ch. 5 and 7.

    """
    require(np.greater_equal(acceleration, 0.0), "acceleration", acceleration, "m/s²", ">= 0")
    return _laden(bend, axle, acceleration).held(extra_force)


@dataclass(frozen=True, kw_only=True)
class SteadyCorner:
    """The whole car in a bend; nan beyond its limit."""

    acceleration: Array
    """[m/s²]"""
    roll: Array
    """[rad]"""
    front: AxleState
    rear: AxleState
    understeer_angle: Array
    """Steer of the front wheels beyond what the bend's radius asks for. [rad]"""


def steady_corner(*, bend: Bend, acceleration: Values) -> SteadyCorner:
    """Return roll, slip, loads and understeer at lateral accelerations.

    Parameters
    ----------
    bend : Bend
        The car. [-]
    acceleration : float or array
        Lateral acceleration. [m/s²]

    Returns
    -------
    SteadyCorner
        Everything at every acceleration and sample.

    Notes
    -----
    δ − L/R = α_f − α_r + ε_f φ + ε_r φ + give of the steering. The tyres' own trails turn the car
    out of the bend, so that the front carries ΣM/L more and the rear as much less; in rounds.

    References
    ----------
    .. [1] T. D. Gillespie, "Fundamentals of Vehicle Dynamics", SAE 1992, ch. 6.
    .. [2] ISO 4138, "Passenger cars – Steady-state circular driving behaviour" (definitions).

    """
    ends = [_laden(bend, axle, acceleration) for axle in ("front", "rear")]
    moved: Values = 0.0
    for _ in range(ROUNDS):
        front, rear = ends[0].held(moved), ends[1].held(-moved)
        moved = np.nan_to_num((front.turning + rear.turning) / bend.wheelbase)
    return SteadyCorner(
        acceleration=np.asarray(acceleration, dtype=np.float64),
        roll=np.asarray(bend.roll * acceleration, dtype=np.float64),
        front=front,
        rear=rear,
        understeer_angle=front.slip - rear.slip + front.steer + rear.steer,
    )


def corner_limit(*, bend: Bend) -> Array:
    """Return the lateral acceleration at which the first axle slides, or the car tips.

    Parameters
    ----------
    bend : Bend
        The car. [-]

    Returns
    -------
    array
        Steady lateral acceleration. [m/s²]

    Notes
    -----
    The greatest sum of both tyres' peaks at their own load and lean meets m a. Two tyres do not
    peak at one slip: `axle_in_bend` finds up to a per cent less.

    References
    ----------
    .. [1] W. F. and D. L. Milliken, "Race Car Vehicle Dynamics", SAE 1995, ch. 7 and 18.

    """
    return np.minimum(axle_limit(bend=bend, axle="front"), axle_limit(bend=bend, axle="rear"))


def axle_limit(*, bend: Bend, axle: str) -> Array:
    """Return the lateral acceleration at which one axle slides, whatever the other does.

    Parameters
    ----------
    bend : Bend
        The car. [-]
    axle : str
        ``front`` or ``rear``. [-]

    Returns
    -------
    array
        Lateral acceleration; where both inner wheels have lifted before, that of tipping. [m/s²]

    Notes
    -----
    As `corner_limit`.

    References
    ----------
    .. [1] W. F. and D. L. Milliken, "Race Car Vehicle Dynamics", SAE 1995, ch. 7 and 18.

    """
    one = bend.front if axle == "front" else bend.rear
    shape = np.broadcast_shapes(
        np.shape(one.wheel_load), np.shape(one.transfer), np.shape(bend.roll)
    )
    return crossing(
        function=lambda acceleration: _in_hand(bend, axle, acceleration),
        low=np.zeros(shape),
        high=np.full(shape, MOST),
        tolerance=NEAR_ENOUGH,
    )


def _in_hand(bend: Bend, axle: str, acceleration: Array) -> Array:
    """Return the force that an axle has in hand, or the load before the car tips if less."""
    one = bend.front if axle == "front" else bend.rear
    loads = wheel_loads(bend=bend, axle=axle, acceleration=acceleration)
    most = peak_side_force(load=loads.outer, camber=loads.outer_camber, tyre=one.tyre)
    most = most + peak_side_force(load=loads.inner, camber=loads.inner_camber, tyre=one.tyre)
    wanted = 2.0 * one.wheel_load / STANDARD_GRAVITY * acceleration
    inner = [
        end.wheel_load - end.lift * acceleration / 2.0 - end.transfer * acceleration
        for end in (bend.front, bend.rear)
    ]
    return np.asarray(np.minimum(most - wanted, np.maximum(*inner)), dtype=np.float64)


@dataclass(frozen=True, kw_only=True)
class Pair:
    """The tyres of an axle at their loads, each over the axle's slip."""

    outer: SideCurve
    inner: SideCurve
    toe_in: Values

    def force(self, slip: Array) -> Array:
        """Return the side force of both. [N]."""
        return self.outer.force(slip + self.toe_in) + self.inner.force(slip - self.toe_in)

    def greatest(self) -> tuple[Array, Array]:
        """Return slip and size of the greatest force, of points between both peaks."""
        outer = self.outer.slip_at_peak() - self.toe_in
        inner = self.inner.slip_at_peak() + self.toe_in
        inner = np.where(np.isfinite(inner), inner, outer)
        slip, most = outer, self.force(outer)
        for share in (0.25, 0.5, 0.75, 1.0):
            tried = outer + share * (inner - outer)
            force = self.force(tried)
            slip, most = np.where(force > most, tried, slip), np.maximum(force, most)
        return slip, most


def _pair_of(loads: Loads, tyre: SideTyre) -> Pair:
    return Pair(
        outer=side_curve(load=loads.outer, camber=loads.outer_camber, tyre=tyre),
        inner=side_curve(load=loads.inner, camber=loads.inner_camber, tyre=tyre),
        toe_in=loads.toe_in,
    )


@dataclass(frozen=True, kw_only=True)
class _Laden:
    """An axle at its loads, before it is known what more it has to hold."""

    axle: CornerAxle
    roll: Array
    loads: Loads
    pair: Pair
    wanted: Array
    """Side force by its share of the mass. [N]"""
    top: Array
    """Slip of the greatest force. [rad]"""
    most: Array
    """[N]"""

    def held(self, extra_force: Values) -> AxleState:
        """Return how it holds that and some force more."""
        wanted = self.wanted + extra_force
        found = crossing(
            function=lambda slip: self.pair.force(slip) - wanted,
            low=np.full(self.top.shape, LEAST_SLIP),
            high=self.top,
            tolerance=NEAR_ENOUGH,
        )
        slip = np.where(wanted <= self.most, found, np.nan)
        turning, aligning = _moments(slip, self.loads, self.pair, self.axle)
        steer = self.axle.roll_steer * self.roll + self.axle.give * aligning
        return AxleState(
            slip=slip,
            outer_load=self.loads.outer,
            inner_load=self.loads.inner,
            outer_camber=self.loads.outer_camber,
            inner_camber=self.loads.inner_camber,
            used=wanted / self.most,
            aligning=aligning,
            turning=turning,
            steer=np.asarray(steer, dtype=np.float64),
        )


def _laden(bend: Bend, axle: str, acceleration: Values) -> _Laden:
    one = bend.front if axle == "front" else bend.rear
    loads = wheel_loads(bend=bend, axle=axle, acceleration=acceleration)
    pair = _pair_of(loads, one.tyre)
    top, most = pair.greatest()
    return _Laden(
        axle=one,
        roll=np.asarray(bend.roll * acceleration, dtype=np.float64),
        loads=loads,
        pair=pair,
        wanted=np.asarray(2.0 * one.wheel_load / STANDARD_GRAVITY * acceleration),
        top=top,
        most=most,
    )


def _moments(slip: Array, loads: Loads, pair: Pair, axle: CornerAxle) -> tuple[Array, Array]:
    """Return the moments about the contact centres and about the steering axes."""
    own, about_axis = np.zeros_like(slip), np.zeros_like(slip)
    for curve, load, toe in (
        (pair.outer, loads.outer, loads.toe_in),
        (pair.inner, loads.inner, -loads.toe_in),
    ):
        force = curve.force(slip + toe)
        trail = trail_at(slip=slip + toe, load=load, tyre=axle.tyre)
        own = own + force * trail
        about_axis = about_axis + force * (axle.mechanical_trail + trail)
    return own, about_axis
