"""Distances of solids against closed forms, a second collision library, and brute force."""

from __future__ import annotations

import coal
import numpy as np
import numpy.typing as npt
import pytest
from scipy.optimize import brentq, linprog, minimize
from scipy.spatial import ConvexHull

from drybuild.physics.solids.clearance import clearances
from drybuild.physics.solids.nearest import Clearance, Nearest
from drybuild.physics.solids.scene import Movement, Pose, Scene, turned, turned_about
from drybuild.physics.solids.shapes import (
    Piece,
    Sheet,
    Solid,
    box_piece,
    cylinder_piece,
    hull_piece,
    moved_piece,
)

Array = npt.NDArray[np.float64]


def box(
    size: tuple[float, float, float], at: tuple[float, float, float] = (0.0, 0.0, 0.0)
) -> Piece:
    half = np.array(size) / 2.0
    return box_piece(name="box", low=list(np.array(at) - half), high=list(np.array(at) + half))


def ball(radius: float, at: tuple[float, float, float] = (0.0, 0.0, 0.0)) -> Piece:
    """Return the hull of points spread evenly over a sphere."""
    k = np.arange(400) + 0.5
    polar, round_ = np.arccos(1.0 - 2.0 * k / 400), np.pi * (1.0 + np.sqrt(5.0)) * k
    points = np.stack(
        [np.cos(round_) * np.sin(polar), np.sin(round_) * np.sin(polar), np.cos(polar)], axis=1
    )
    return hull_piece(name="ball", points=radius * points + np.array(at))


def gap(first: Piece, second: Piece, pose: Pose | None = None) -> Clearance:
    scene = Scene(
        moving=(Solid(name="engine", pieces=(first,)),),
        fixed=(Solid(name="wall", pieces=(second,)),),
    )
    return clearances(scene=scene, pose=pose or Pose())["wall"]


# Closed forms (elementary geometry).
BOXES = [
    # Faces: 1.0 - 0.2 - 0.3; edges: √(0.3² + 0.4²); corners: √(0.1² + 0.2² + 0.2²).
    ((1.0, 0.0, 0.0), 0.5),
    ((0.8, 0.9, 0.0), 0.5),
    ((0.6, 0.7, 0.7), 0.3),
    # Overlaps: the least way out of boxes is the least of 0.5 - |offset| over the axes.
    ((0.45, 0.1, 0.0), -0.05),
    ((0.2, 0.3, 0.41), -0.09),
]


@pytest.mark.parametrize(("offset", "expected"), BOXES)
def test_boxes_keep_their_closed_form(offset: tuple[float, float, float], expected: float) -> None:
    found = gap(box((0.4, 0.4, 0.4)), box((0.6, 0.6, 0.6), offset))
    assert found.gap == pytest.approx(expected, abs=1e-6)


@pytest.mark.parametrize("distance", [0.9, 0.6, 0.51])
def test_spheres_keep_centre_distance_less_radii(distance: float) -> None:
    # d = |c₁ - c₂| - r₁ - r₂; a hull of 400 points lies up to 1.3 % of its radius inside.
    found = gap(ball(0.2), ball(0.3, (distance * 0.6, distance * 0.8, 0.0)))
    assert distance - 0.5 <= found.gap <= distance - 0.5 + 0.013 * 0.5


def test_spheres_inside_each_other_part_by_the_overlap() -> None:
    # Depth r₁ + r₂ - |c₁ - c₂| = 0.1.
    found = gap(ball(0.2), ball(0.3, (0.4, 0.0, 0.0)))
    assert -0.1 <= found.gap <= -0.1 + 0.013 * 0.5
    assert found.normal @ np.array([-1.0, 0.0, 0.0]) > 0.99


def test_parallel_and_crossed_cylinders() -> None:
    # Parallel: axis distance less radii; crossed at right angles: the same. The prism drawn round
    # a cylinder of 24 corners stands out by 1/cos(7.5°) - 1 = 0.86 % of the radius at most.
    first = cylinder_piece(
        name="a", start=(-1.0, 0.0, 0.0), end=(1.0, 0.0, 0.0), diameter=0.2, corners=24
    )
    for end in ((1.0, 0.0, 0.5), (0.0, 1.0, 0.5)):
        start = (-end[0], -end[1], 0.5)
        second = cylinder_piece(name="b", start=start, end=end, diameter=0.3, corners=24)
        assert 0.25 - 0.0086 * 0.25 - 1e-9 <= gap(first, second).gap <= 0.25 + 1e-9


def test_a_box_on_its_edge_stands_half_its_diagonal_out() -> None:
    # A cube of side a turned by 45° about an axis: its edge is a/√2 from the middle.
    found = gap(box((0.2, 0.2, 0.2)), box((1.0, 1.0, 0.2), (0.0, 0.0, 0.5)), Pose(roll=np.pi / 4))
    assert found.gap == pytest.approx(0.4 - 0.1 * np.sqrt(2.0), abs=1e-6)


def test_a_box_on_its_corner_stands_half_its_space_diagonal_out() -> None:
    # Turned so that the space diagonal is upright: a√3/2 from the middle.
    turn = turned(axis=1, angle=-np.arctan(np.sqrt(0.5))) @ turned(axis=0, angle=np.pi / 4)
    corner = moved_piece(piece=box((0.2, 0.2, 0.2)), turn=turn, shift=np.zeros(3))
    reach = np.abs(corner.nominal[:, 2]).max()
    assert reach <= 0.1 * np.sqrt(3.0) + 1e-12
    upright = gap(corner, box((2.0, 2.0, 0.2), (0.0, 0.0, 0.6))).gap
    assert upright == pytest.approx(0.5 - reach, abs=1e-6)


def test_pitch_roll_yaw_are_those_of_iso_8855() -> None:
    # ISO 8855: x forward, y left, z up, right-handed: pitch lowers the nose, roll lifts the left
    # side, yaw turns the nose left.
    nose, left = np.array([1.0, 0.0, 0.0]), np.array([0.0, 1.0, 0.0])
    assert (Pose(pitch=0.1).turn @ nose)[2] == pytest.approx(-np.sin(0.1))
    assert (Pose(roll=0.1).turn @ left)[2] == pytest.approx(np.sin(0.1))
    assert (Pose(yaw=0.1).turn @ nose)[1] == pytest.approx(np.sin(0.1))


@pytest.mark.parametrize("seed", range(4))
def test_rotation_about_a_direction_agrees_with_scipy(seed: int) -> None:
    from scipy.spatial.transform import Rotation  # noqa: PLC0415

    rng = np.random.default_rng(seed)
    axis, angle = rng.normal(size=3), rng.uniform(-3.0, 3.0)
    expected = Rotation.from_rotvec(axis / np.linalg.norm(axis) * angle).as_matrix()
    assert turned_about(direction=axis, angle=angle) == pytest.approx(expected, abs=1e-12)


def random_hulls(seed: int) -> tuple[Piece, Piece]:
    rng = np.random.default_rng(seed)
    a = rng.normal(size=(12, 3)) * rng.uniform(0.05, 0.2, 3)
    b = rng.normal(size=(14, 3)) * rng.uniform(0.05, 0.2, 3) + rng.normal(size=3) * 0.35
    return hull_piece(name="a", points=a), hull_piece(name="b", points=b)


def coal_hull(piece: Piece) -> object:
    points = coal.StdVec_Vec3s()
    for one in piece.nominal:
        points.append(one)
    return coal.Convex.convexHull(points, True, "Qt")


@pytest.mark.parametrize("seed", range(40))
def test_hulls_agree_with_a_second_library(seed: int) -> None:
    # coal 3.0 (GJK and EPA of its own), depth included: independent of the library in use.
    first, second = random_hulls(seed)
    result = coal.DistanceResult()
    request = coal.DistanceRequest()
    request.enable_signed_distance = True
    here = coal.Transform3s()
    expected = coal.distance(coal_hull(first), here, coal_hull(second), here, request, result)
    assert gap(first, second).gap == pytest.approx(expected, abs=2e-5)


@pytest.mark.parametrize("seed", range(12))
def test_hulls_agree_with_an_optimiser(seed: int) -> None:
    # Least |Σ λᵢaᵢ - Σ μⱼbⱼ| over convex weights, by scipy's SLSQP: it knows nothing of hulls.
    first, second = random_hulls(100 + seed)
    a, b = first.nominal, second.nominal

    def squared(w: Array) -> float:
        return float(((w[: len(a)] @ a - w[len(a) :] @ b) ** 2).sum())

    sums = (
        {"type": "eq", "fun": lambda w: w[: len(a)].sum() - 1.0},
        {"type": "eq", "fun": lambda w: w[len(a) :].sum() - 1.0},
    )
    start = np.concatenate((np.full(len(a), 1.0 / len(a)), np.full(len(b), 1.0 / len(b))))
    done = minimize(
        squared, start, bounds=[(0.0, 1.0)] * len(start), constraints=sums,
        options={"maxiter": 500, "ftol": 1e-14},
    )  # fmt: skip
    assert max(gap(first, second).gap, 0.0) == pytest.approx(np.sqrt(done.fun), abs=2e-4)


@pytest.mark.parametrize("seed", range(12))
def test_depth_is_the_least_push_that_parts(seed: int) -> None:
    # The depth of overlapping hulls is the least distance of the origin to the faces of the hull
    # of all differences (Minkowski), here by scipy's Qhull.
    rng = np.random.default_rng(seed)
    a = hull_piece(name="a", points=rng.normal(size=(10, 3)) * 0.1)
    b = hull_piece(name="b", points=rng.normal(size=(10, 3)) * 0.1 + 0.03)
    differences = (a.nominal[:, None] - b.nominal[None]).reshape(-1, 3)
    depth = -ConvexHull(differences).equations[:, 3].max()
    found = gap(a, b)
    assert found.gap == pytest.approx(-depth, abs=1e-5)
    # Pushed out along the normal by the depth, they only touch; linprog finds no common point
    # once they are a little further apart.
    out = a.nominal + found.normal * (depth + 1e-4)
    n, m = len(a.nominal), len(b.nominal)
    same = np.vstack([np.hstack([out.T, -b.nominal.T]), np.eye(2)[[0]] @ np.kron(np.eye(2), 1.0)
                      @ np.array([[1.0] * n + [0.0] * m, [0.0] * n + [1.0] * m]),
                      np.array([[0.0] * n + [1.0] * m])])  # fmt: skip
    wanted = np.array([0.0, 0.0, 0.0, 1.0, 1.0])
    assert linprog(np.zeros(n + m), A_eq=same, b_eq=wanted).status == 2  # infeasible


def test_the_normal_is_the_gradient_of_the_gap() -> None:
    first, second = random_hulls(7)
    found = gap(first, second)
    step = 1e-4
    for axis, word in enumerate("xyz"):
        ahead = gap(first, second, Pose(**{word: step})).gap
        behind = gap(first, second, Pose(**{word: -step})).gap
        slope = (ahead - behind) / (2.0 * step)
        assert slope == pytest.approx(found.normal[axis], abs=2e-3)


def bowl(triangles: int) -> Sheet:
    """Return an open half sphere of radius 0.5 as triangles, its opening up."""
    n = int(np.sqrt(triangles / 2.0))
    polar = np.linspace(np.pi / 2.0, np.pi, n + 1)
    turn = np.linspace(0.0, 2.0 * np.pi, n + 1)
    p, t = (one.ravel() for one in np.meshgrid(polar, turn, indexing="ij"))
    points = 0.5 * np.stack([np.sin(p) * np.cos(t), np.sin(p) * np.sin(t), np.cos(p)], axis=1)
    corner = (np.arange(n)[:, None] * (n + 1) + np.arange(n)).ravel()
    faces = np.concatenate(
        [
            np.stack([corner, corner + 1, corner + n + 2], axis=1),
            np.stack([corner, corner + n + 2, corner + n + 1], axis=1),
        ]
    )
    return Sheet(points=points, triangles=faces.astype(np.int64))


def in_bowl(piece: Piece, pose: Pose) -> Clearance:
    scene = Scene(
        moving=(Solid(name="engine", pieces=(piece,)),),
        fixed=(Solid(name="bowl", sheet=bowl(3200)),),
    )
    return clearances(scene=scene, pose=pose)["bowl"]


@pytest.mark.parametrize("shift", [(0.0, 0.0, 0.0), (0.1, 0.0, -0.1), (0.0, -0.2, -0.05)])
def test_a_ball_in_a_bowl(shift: tuple[float, float, float]) -> None:
    # Inside a sphere of radius R, a sphere of radius r at distance e from its middle, below the
    # rim: R - r - e. Chords of 40 steps to the half turn lie within 0.1 % of R.
    x, y, z = shift
    e = float(np.linalg.norm(shift))
    expected = 0.3 - e
    found = in_bowl(ball(0.2), Pose(x=x, y=y, z=z))
    assert found.gap == pytest.approx(expected, abs=0.004)


def test_a_box_through_a_sheet_is_told_how_deep() -> None:
    # The box's underside is at -0.53. Of the bowl's points (s, s) inside it the deepest is as far
    # from a side, 0.1 - s, as from the underside, 0.53 - √(0.25 - 2 s²). Raising the box until its
    # corners clear takes √(0.25 - 0.02) - 0.53 = -50 mm: the depth is a lower bound of that.
    s = brentq(lambda one: 0.53 - np.sqrt(0.25 - 2.0 * one**2) - (0.1 - one), 0.0, 0.1)
    found = in_bowl(box((0.2, 0.2, 0.2)), Pose(z=-0.43))
    assert found.gap == pytest.approx(-(0.1 - s), abs=0.002)
    assert found.gap > np.sqrt(0.23) - 0.53


@pytest.mark.parametrize("seed", range(8))
def test_clearances_agree_with_brute_force_over_the_skins(seed: int) -> None:
    # 12,000 points spread over each skin, all pairs: an upper bound that comes within a spacing.
    rng = np.random.default_rng(seed)
    engine = [moved_piece(piece=box((0.2, 0.15, 0.1)), turn=Pose(roll=r, yaw=y).turn, shift=at)
              for r, y, at in zip(rng.uniform(-1, 1, 4), rng.uniform(-1, 1, 4),
                                  rng.uniform(-0.3, 0.3, (4, 3)), strict=True)]  # fmt: skip
    walls = [box((0.5, 0.05, 0.5), (0.0, 0.6, 0.1)), box((0.05, 0.6, 0.4), (0.65, 0.1, 0.0))]
    scene = Scene(
        moving=(Solid(name="engine", pieces=tuple(engine)),),
        fixed=tuple(Solid(name=f"wall {k}", pieces=(one,)) for k, one in enumerate(walls)),
    )
    pose = Pose(x=0.02, y=-0.03, pitch=0.1, yaw=0.15)
    found = clearances(scene=scene, pose=pose)
    moving = np.concatenate(
        [_skin(moved_piece(piece=one, turn=pose.turn, shift=pose.shift), rng) for one in engine]
    )
    from scipy.spatial import cKDTree  # noqa: PLC0415

    for k, wall in enumerate(walls):
        near, _ = cKDTree(_skin(wall, rng)).query(moving)
        assert found[f"wall {k}"].gap <= near.min() + 1e-9
        assert found[f"wall {k}"].gap == pytest.approx(near.min(), abs=0.006)


def _skin(piece: Piece, rng: np.random.Generator) -> Array:
    corners = np.array([(f[0], f[k], f[k + 1]) for f in piece.faces for k in range(1, len(f) - 1)])
    a, b, c = (piece.nominal[corners[:, k]] for k in range(3))
    area = np.linalg.norm(np.cross(b - a, c - a), axis=1)
    pick = rng.choice(len(area), size=12000, p=area / area.sum())
    u, v = np.sqrt(rng.uniform(size=12000))[:, None], rng.uniform(size=12000)[:, None]
    found: Array = (1.0 - u) * a[pick] + u * (1.0 - v) * b[pick] + u * v * c[pick]
    # Corners and edges are where boxes come nearest: let the sample hold them too.
    edges = np.concatenate(
        [np.linspace(p, q, 60) for tri in (a, b, c) for p, q in zip(a, tri, strict=True)]
    )
    return np.concatenate([found, piece.nominal, edges])


def test_every_position_is_tried_and_the_bonnet_shuts_over_a_still_engine() -> None:
    # A box 0.2 high rocking about its foot by φ lifts its corner: h cos φ + b/2 sin φ.
    phi = 0.1
    engine = Solid(
        name="engine",
        pieces=(box_piece(name="box", low=(0.0, -0.1, 0.0), high=(0.4, 0.1, 0.2)),),
        movement="rock",
    )
    lid = Solid(
        name="bonnet",
        pieces=(box_piece(name="lid", low=(-0.5, -0.5, 0.25), high=(0.9, 0.5, 0.3)),),
        movement="shut",
    )
    rock = Movement(name="rock", positions=(0.0, phi, -phi), words=("", "right", "left"))
    shut = Movement(
        name="shut", positions=(0.0, 0.3), words=("", "open"), at=(-0.5, 0.0, 0.25),
        along=(0.0, -1.0, 0.0), running=False,
    )  # fmt: skip
    scene = Scene(moving=(engine,), fixed=(lid,), movements={"rock": rock, "shut": shut})
    found = clearances(scene=scene, pose=Pose())["bonnet"]
    assert found.gap == pytest.approx(0.25 - (0.2 * np.cos(phi) + 0.1 * np.sin(phi)), abs=1e-6)
    assert found.position in {"right", "left"}
    # A lid that opens downwards meets the engine at rest: the rear end drops by L sin φ.
    down = Movement(
        name="shut", positions=(0.0, -0.3), words=("", "down"), at=(-0.5, 0.0, 0.25),
        along=(0.0, -1.0, 0.0), running=False,
    )  # fmt: skip
    lower = Scene(moving=(engine,), fixed=(lid,), movements={"rock": rock, "shut": down})
    assert clearances(scene=lower, pose=Pose())["bonnet"].position == "down"


def test_the_search_finds_the_same_least_margin_as_all_pairs() -> None:
    rng = np.random.default_rng(3)
    engine = Solid(name="engine", pieces=tuple(random_hulls(k)[0] for k in range(6)))
    walls = tuple(
        Solid(name=f"w{k}", pieces=(box((0.3, 0.3, 0.3), tuple(rng.uniform(-1.2, 1.2, 3))),))
        for k in range(12)
    )
    scene = Scene(moving=(engine,), fixed=walls, needed=lambda _a, b: 0.01 * len(b.name))
    near = Nearest(scene)
    for _ in range(10):
        x, y, z, roll, pitch, yaw = rng.uniform(-0.3, 0.3, 6)
        pose = Pose(x=x, y=y, z=z, roll=roll, pitch=pitch, yaw=yaw)
        least = near.margin(pose)
        assert least is not None
        assert least.margin == pytest.approx(
            min(one.margin for one in clearances(scene=scene, pose=pose).values()), abs=2e-6
        )
