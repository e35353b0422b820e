"""The widest-tyre search against brute force on the demo: every point, every rim, every offset."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest

from drybuild.physics.envelope.nearest import outline_distance
from drybuild.physics.envelope.room import Room, every_point
from drybuild.physics.envelope.widest import Choice, wanted_air
from drybuild.physics.tyre_sizes import INCH
from drybuild.quantities import wheels_widest as search
from drybuild.quantities.axles import AXLES
from drybuild.quantities.wheels_envelope import AIR
from drybuild.session import Session

ESTATE = Path(__file__).resolve().parents[2] / "examples" / "estate"


@pytest.fixture(scope="module")
def session() -> Session:
    return Session.open(ESTATE, samples=60)


@pytest.fixture(scope="module")
def searched(session: Session) -> tuple[search.Widest, tuple[Choice, ...]]:
    """The outcome, and every choice within the limits as the search had them: one search."""
    kept: list[tuple[Choice, ...]] = []
    own = search._shifts
    patch = pytest.MonkeyPatch()
    patch.setattr(search, "_shifts", lambda c, w, o: (kept.append(c), own(c, w, o))[1])
    result = session.evaluation.result("widest_tyres")
    patch.undo()
    assert result.value is not None, result.missing
    return result.value, kept[0]


@pytest.fixture(scope="module")
def found(searched: tuple[search.Widest, tuple[Choice, ...]]) -> search.Widest:
    return searched[0]


@pytest.fixture(scope="module")
def choices(searched: tuple[search.Widest, tuple[Choice, ...]]) -> tuple[Choice, ...]:
    return searched[1]


def points_of(room: Room) -> tuple[np.ndarray, np.ndarray]:
    """Return every point at every position near a tyre, and its roundness; nothing is thinned."""
    points, rounds = [], []
    for one in room.seen:
        s, rho = every_point(path=room.path, obstacle=one.obstacle)
        near = (np.abs(s) < 0.19) & (rho > 0.15) & (rho < 0.36)
        points.append(np.stack((s[near], rho[near]), axis=1))
        rounds.append(np.full(int(near.sum()), one.obstacle.form.roundness))
    return np.concatenate(points), np.concatenate(rounds)


def spare_of(choice: Choice, shift: float, points: np.ndarray, rounds: np.ndarray) -> float:
    outline = choice.outline
    shifted = points - np.array([shift, 0.0])
    half, top = outline[:, 0].max(), outline[:, 1].max()
    box = (np.abs(shifted[:, 0]) < half + 0.06) & (shifted[:, 1] < top + 0.06)
    distance, normal = outline_distance(outline=outline, points=shifted[box])
    return float((distance - rounds[box] - wanted_air(normal=normal, air=AIR)).min())


@pytest.mark.parametrize("axle", AXLES)
def test_what_is_found_clears_on_every_point(
    session: Session, found: search.Widest, axle: str
) -> None:
    # Brute force on the final geometry, without thinning and without bisection.
    room = session.evaluation.result(f"{axle}_wheel_room").value[axle].room
    points, rounds = points_of(room)
    for one in found.plain.clear[axle][:3]:
        exact = spare_of(one.choice, one.shift, points, rounds)
        assert exact == pytest.approx(one.spare, abs=3e-4)
        assert exact > -3e-4


@pytest.mark.parametrize("axle", AXLES)
def test_nothing_wider_clears(
    session: Session, found: search.Widest, choices: tuple[Choice, ...], axle: str
) -> None:
    # Brute force: every wider choice at every offset step fails on the points that were kept, and
    # those are among all points.
    room = session.evaluation.result(f"{axle}_wheel_room").value[axle].room
    best = found.plain.clear[axle][0]
    points, rounds = room.points, room.roundness
    wider = [one for one in choices if one.section_width > best.choice.section_width + 1e-9]
    for one in wider:
        for offset in np.arange(-0.025, 0.0601, 0.005):
            shift = found.old_offset[axle] - offset
            if abs(shift) <= search.FARTHEST:
                assert spare_of(one, shift, points, rounds) < 0.0, (one.size, one.rim_width, offset)


@pytest.mark.parametrize("axle", AXLES)
def test_the_limits_are_kept(found: search.Widest, axle: str) -> None:
    for one in found.plain.clear[axle]:
        assert one.choice.rim_code <= 16.0  # the brief's must line
        assert one.choice.capacity >= 345.0
        assert one.choice.outside_diameter == pytest.approx(0.621, rel=0.031)
        assert round(one.choice.rim_width / INCH * 2.0, 6) % 1.0 == 0.0  # half inches


def test_what_gives_room_never_costs_tyre(found: search.Widest) -> None:
    # More room cannot take width away; rolled lips and longer stops only give.
    for name in (search.ROLLED, search.LONG_STOP, search.ALL):
        row = found.row(name)
        assert row is not None
        for axle in AXLES:
            assert row.buys[axle] >= 0.0
            assert row.air.get(axle, 0.0) >= -3e-4
    assert max(found.row(search.ROLLED).air.values()) > 0.002  # type: ignore[union-attr]  # above
