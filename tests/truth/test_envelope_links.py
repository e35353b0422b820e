"""Outside checks of a wheel beside its own links: hollow rim, lock, and the points' spread."""

from __future__ import annotations

from pathlib import Path

import fcl
import numpy as np
import pytest
import trimesh
from scipy.spatial.transform import Rotation

from drybuild.physics.envelope.gaps import Fitted, Gap, Wander, least_gaps
from drybuild.physics.envelope.obstacles import rod
from drybuild.physics.envelope.outline import tyre_outline
from drybuild.physics.envelope.path import guided_path
from drybuild.physics.envelope.rim import Pieces, disc_plate, drop_centre, measured_barrel
from drybuild.physics.envelope.room import Room, room
from drybuild.physics.linkage import solver
from drybuild.project.load import load
from drybuild.project.suspension import FrontSuspension
from drybuild.quantities.all import graph
from drybuild.quantities.graph import Evaluation, _Recorder
from drybuild.quantities.suspension_linkage import linkage_of
from drybuild.quantities.wheels_links import guided
from tests.building import Evaluated, evaluate

EXAMPLES = Path(__file__).resolve().parents[2] / "examples"
NONE = np.zeros(1)
BEAD, RIM, OFFSET = 0.3802, 0.1524, 0.032  # a 15 in rim 6 in wide, ISO 4000-2
TYRE = tyre_outline(
    section_width=0.185, outside_diameter=0.621, bead_diameter=BEAD, wall_thickness=0.0065,
    rim_width=RIM, flange_thickness=0.0127, tread_width=0.144, shoulder_radius=0.015,
)  # fmt: skip
WELL = drop_centre(bead_diameter=BEAD, rim_width=RIM, well_depth=0.0165, wall_thickness=0.0065)
PLATE = disc_plate(radius=np.array([0.0, 0.167]), back=np.array([0.005, 0.010]), offset=OFFSET)


def wheel(barrel: Pieces = WELL) -> Fitted:
    return Fitted(
        outline=TYRE, shift=0.0, width_error=NONE, radius_error=NONE, shift_error=NONE,
        barrel=barrel, disc=PLATE,
    )  # fmt: skip


def gap(seen: Room, fitted: Fitted) -> Gap:
    return least_gaps(room=seen, fitted=fitted, wander=Wander.none(seen.path.travel.size))[0]


def turned(corners: np.ndarray) -> fcl.CollisionObject:
    """A piece of the wheel as trimesh turns it about its axle, here the y axis."""
    profile = np.stack((corners[:, 1], corners[:, 0]), axis=1)
    mesh = trimesh.creation.revolve(np.vstack((profile, profile[:1])), sections=180)
    model = fcl.BVHModel()
    model.beginModel(len(mesh.vertices), len(mesh.faces))
    model.addSubModel(mesh.vertices, mesh.faces)
    model.endModel()
    turn, _ = Rotation.align_vectors([[0.0, 1.0, 0.0]], [[0.0, 0.0, 1.0]])
    return fcl.CollisionObject(model, fcl.Transform(turn.as_matrix(), np.zeros(3)))


# What a rod inside a wheel may come near to: ends from the wheel's middle, and what it meets.
INSIDE = {
    "a ball joint under the seat": ((0.02, -0.30, -0.10), (0.0, -0.060, -0.115), "rim"),
    "a ball joint at the inner flange": ((0.0, -0.35, -0.15), (0.0, -0.085, -0.150), "tyre"),
    "a caliper behind the spokes": ((0.05, -0.02, 0.05), (0.08, 0.015, 0.07), "disc"),
    "an arm beside the tyre": ((0.10, -0.40, 0.20), (-0.05, -0.130, 0.24), "tyre"),
}


@pytest.mark.parametrize("case", INSIDE)
def test_a_rod_inside_the_wheel_is_as_far_as_a_collision_library_says(case: str) -> None:
    # trimesh turns each part of the wheel, python-fcl measures a capsule against all of them.
    low, high, part = INSIDE[case]
    ends = [np.array(one) + np.array([0.0, 0.68, 0.0]) for one in (low, high)]
    bar = rod(name="bar", start=ends[0][:, None], end=ends[1][:, None], radius=0.012, follows=0.0)
    path = guided_path(
        half_track=0.68, radius=0.29, standing=0.0, bump=1e-9, droop=1e-9, camber=0.0,
        camber_gain=0.0, roll_centre_height=0.0, places=3,
    )  # fmt: skip
    found = least_gaps(
        room=room(path=path, obstacles=[bar], middle=0.24),
        fitted=wheel(),
        wander=Wander.none(path.travel.size),
    )[0]
    along = np.subtract(high, low)
    turn, _ = Rotation.align_vectors([along], [[0.0, 0.0, 1.0]])
    capsule = fcl.CollisionObject(
        fcl.Capsule(0.012, float(np.linalg.norm(along))),
        fcl.Transform(turn.as_matrix(), (np.array(low) + np.array(high)) / 2.0),
    )
    theirs = min(
        fcl.distance(turned(piece), capsule, fcl.DistanceRequest(), fcl.DistanceResult())
        for _, piece in wheel().pieces
    )
    assert found.values[0] == pytest.approx(theirs, abs=5e-4)
    assert found.meets == part
    assert theirs > 0.0  # a solid wheel would be fouled by three of the four


def test_a_measured_barrel_gives_the_room_that_it_has() -> None:
    # Geometry: a ball of 12 mm at 158 mm from the axle under a bare barrel of 180 mm.
    barrel = measured_barrel(
        place=np.array([0.0, 0.10]), radius=np.array([0.180, 0.180]), offset=OFFSET,
        bead_diameter=BEAD,
    )  # fmt: skip
    ends = np.array([[0.0], [0.66], [-0.158]])
    ball = rod(name="ball", start=ends, end=ends + 1e-9, radius=0.012, follows=0.0)
    path = guided_path(
        half_track=0.68, radius=0.29, standing=0.0, bump=1e-9, droop=1e-9, camber=0.0,
        camber_gain=0.0, roll_centre_height=0.0, places=3,
    )  # fmt: skip
    seen = room(path=path, obstacles=[ball], middle=0.24)
    bare = gap(seen, wheel(barrel)).values[0]
    assert bare == pytest.approx(0.180 - 0.158 - 0.012, abs=1e-5)
    assert (
        least_gaps(room=seen, fitted=wheel(), wander=Wander.none(path.travel.size))[0].values[0]
        < 0.0
    )  # the well over it


CAR = """
build: an invented car
car:
  body: {kind: unitary, wheelbase: 2500 mm, front_track: 1360 ± 3 mm, rear_track: 1350 ± 3 mm}
  mass: {front_axle: 500 kg, rear_axle: 480 kg}
  arches:
    offset: 32 mm
    section_width: 185 mm
    outside_diameter: 621 mm
    front:
      beside:
        rail: {rear: -400 mm, front: 400 mm, inner: 330 mm, outer: 370 mm, bottom: 0 mm,
          top: 100 mm}
    rear:
      beside:
        rail: {rear: -400 mm, front: 400 mm, inner: 380 mm, outer: 480 mm, bottom: 150 mm,
          top: 250 mm}
options:
  wheels: {own: {as_is: true, diameter: 15 in, width: 6 in, offset: 32 mm}}
  tyres: {own: {as_is: true, size: 185/65R15 88H}}
  steering: {own: {as_is: true, gear: rack, inner_lock: 36 ± 1 deg}}
  front_suspension:
    own: {as_is: true, layout: strut, bump_travel: 80 ± 4 mm, droop_travel: 70 ± 5 mm,
      points: {wheel_centre: [0 mm, 680 mm, 284 mm], lower_front: [210 mm, 330 mm, 192 mm],
        lower_rear: [-30 mm, 330 mm, 192 mm], lower_outer: [6 mm, 618 mm, 180 mm],
        strut_top: [-26 mm, 512 mm, 770 mm], strut_lower: [0 mm, 548 mm, 379 mm],
        tie_inner: [-118 mm, 318 mm, 206 mm], tie_outer: [-118 mm, 587 mm, 196 mm]}}
  rear_suspension:
    own: {as_is: true, layout: live axle on links, bump_travel: 90 mm, droop_travel: 80 mm,
      points: {wheel_centre: [0 mm, 675 mm, 284 mm], lower_axle: [0 mm, 500 mm, 215 mm],
        lower_body: [470 mm, 500 mm, 207 mm], upper_axle: [-15 mm, 420 mm, 390 mm],
        upper_body: [330 mm, 420 mm, 362 mm], panhard_body: [-120 mm, -440 mm, 238 mm],
        panhard_axle: [-120 mm, 470 mm, 226 mm], spring_top: [0 mm, 475 mm, 560 mm],
        spring_bottom: [0 mm, 475 mm, 330 mm]}}
"""


@pytest.fixture(scope="module")
def car() -> Evaluated:
    return evaluate(CAR, samples=300)


def front_of(car: Evaluated) -> FrontSuspension:
    picked = car.build.options["front_suspension"]["own"]
    assert isinstance(picked, FrontSuspension)
    return picked.bound(_Recorder(car.evaluation._drawn))


def test_no_gap_comes_out_of_samples_without_a_solution(car: Evaluated) -> None:
    # An axle that rolls passes its stops in part of the grid; the slopes beside it stay finite.
    assert not car.problems
    for axle in ("front", "rear"):
        found = car.result(f"{axle}_tyre_clearance")
        assert not found.open, found.missing
        for name, values in found.labelled().items():
            assert np.isfinite(values).all(), (axle, name)
            assert np.std(values) > 2e-4, (axle, name)
    assert {"own links", "own damper", "rail"} <= set(car.result("front_tyre_clearance").labelled())


def test_a_tie_rod_goes_along_with_lock(car: Evaluated) -> None:
    # Rigid body: the ball of the steering arm turns with the wheel and keeps its distance from
    # every part of it; the closest that the rod comes is at most that of its ball, all the way.
    gap = next(
        one for one in car.result("front_envelope").value["front"] if one.name == "own links"
    )
    ball = np.hypot(118.0, 284.0 - 196.0) * 1e-3
    flange = np.array([-(RIM / 2.0 + 0.0127), BEAD / 2.0 - 0.0065])
    reach = np.hypot(*(np.array([587.0 - 680.0, 0.0]) * 1e-3 + [0.0, ball] - flange)) - 0.014
    assert 0.0 < gap.values[0] <= reach + 1e-3


def test_the_spread_by_slopes_is_that_of_solving_every_sample(car: Evaluated) -> None:
    # Exact sampling: the whole linkage solved for each sample, the rack held at the wheel's lock.
    suspension = front_of(car)
    camber, toe_in = suspension.camber, suspension.toe_in / 2.0
    travel = np.array([-0.07, 0.0, 0.08])
    lock = np.radians(30.0)
    ours = guided(
        suspension=suspension, camber=camber, toe_in=toe_in, travel=travel, lock=lock, steers=7,
        roll=NONE,
    )  # fmt: skip
    assert ours is not None
    way = ours.swept.motion.steer[::3]
    made = linkage_of(suspension, camber, toe_in)
    assert made is not None
    fine = way[:, None] + np.linspace(0.008, -0.008, 5)  # angles rise
    exact = made.motion(travel=travel, steer=fine.ravel(), roll=NONE)
    angle = np.asarray(exact.left.steer_angle)[:, :, 0].reshape(3, 3, 5, -1)
    spin = np.asarray(exact.left._spin).reshape(3, 3, 3, 5, -1)
    wanted = angle[1, :, 2, 0]
    for place, column in ((0, 0), (2, 2), (2, 0)):
        slopes = ours.drift().spin[:, :, place * 7 + 3 * column].T
        linear = slopes @ ours.errors
        at = angle[1, column]
        solved = np.array(
            [
                [np.interp(wanted[column], at[:, k], one[:, k]) for k in range(camber.size)]
                for one in spin[:, place, column]
            ]
        )
        solved -= solved[:, :1]
        for axis in (1, 2):
            assert np.std(linear[axis]) == pytest.approx(np.std(solved[axis]), rel=0.05, abs=5e-5)


def test_samples_near_the_nominal_are_those_of_the_whole_march(
    car: Evaluated, monkeypatch: pytest.MonkeyPatch
) -> None:
    # An independent way to the same positions: each sample marched through the travel by itself.
    suspension = front_of(car)
    made = linkage_of(suspension, suspension.camber, suspension.toe_in / 2.0)
    assert made is not None
    grid = {"travel": np.array([-0.07, 0.0, 0.08]), "steer": np.array([-0.05, 0.05]), "roll": NONE}
    near = made.motion(**grid)
    monkeypatch.setattr(solver, "FEW", 10_000)
    marched = made.motion(**grid)
    assert near.motion.pose.centre == pytest.approx(marched.motion.pose.centre, abs=1e-9)
    assert near.motion.inverse == pytest.approx(marched.motion.inverse, abs=1e-6)


def test_lean_in_a_bend_is_that_of_the_solved_roll(car: Evaluated) -> None:
    # Finite roll of 3 deg by the solver against the slope that the bend's sums take.
    roll = np.radians(3.0)
    outer, inner = (car.value("camber_in_roll", f"front {side}") for side in ("outer", "inner"))
    assert car.value("wheel_lean", "front") == pytest.approx((outer - inner) / 2.0 / roll, rel=0.05)


@pytest.fixture(scope="module")
def estate() -> Evaluation:
    return Evaluation(graph(), load(EXAMPLES / "estate"), 120)


@pytest.mark.parametrize(
    ("axle", "option", "own"),
    [
        ("front", "original", {"own links", "own damper", "own spring", "strut"}),
        ("front", "wishbone kit", {"own links", "own spring"}),
        ("rear", "original", {"own leaf spring", "leaf spring"}),
        ("rear", "four links and coils", {"own links", "own spring"}),
    ],
)
def test_the_demos_hardpoints_run_through_to_the_verdict(
    estate: Evaluation, axle: str, option: str, own: set[str]
) -> None:
    picks = {**estate.build.assumed_picks(), f"{axle}_suspension": option}
    found = estate.result(f"{axle}_tyre_clearance", picks)
    assert not found.open, found.missing
    gaps = found.labelled()
    assert own <= set(gaps)
    assert ("leaf spring" in gaps) == (option == "original" and axle == "rear")
    for name, values in gaps.items():
        assert np.isfinite(values).all(), name
        assert 1e-3 < np.std(values) < 8e-3, name  # tape, tyres and travel: some millimetres
        assert values[0] > 0.0, name  # nothing of a car that drives is fouled by its own wheel
