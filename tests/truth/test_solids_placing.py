"""Registration, lofts, usual shapes and spreads of solids against what is known of them."""

from __future__ import annotations

import time

import numpy as np
import numpy.typing as npt
import pytest
from scipy.spatial import ConvexHull
from scipy.spatial.transform import Rotation

from drybuild.errors import InputError
from drybuild.physics.solids.clearance import clearances
from drybuild.physics.solids.engines import Outline, engine_pieces
from drybuild.physics.solids.loft import Section, roof_pieces, wall_pieces
from drybuild.physics.solids.nearest import Nearest
from drybuild.physics.solids.registration import register, scale_ratio
from drybuild.physics.solids.sampled import sampled_gaps
from drybuild.physics.solids.scene import Movement, Pose, Scene, at_sample
from drybuild.physics.solids.shapes import Solid, box_piece, cylinder_piece, triangles_of
from drybuild.project.packaging import FORMS
from drybuild.project.samples import normal_scores
from drybuild.quantities.packaging_shapes import proportions_of
from drybuild.tables.packaging import needed_clearance

Array = npt.NDArray[np.float64]


@pytest.mark.parametrize("seed", range(8))
def test_registration_finds_a_known_transform(seed: int) -> None:
    rng = np.random.default_rng(seed)
    scan = rng.uniform(-1.0, 1.0, (3 + seed % 4, 3))
    turn, shift = Rotation.random(random_state=seed).as_matrix(), rng.uniform(-2.0, 2.0, 3)
    found = register(scan=scan, car=scan @ turn.T + shift)
    assert found.turn == pytest.approx(turn, abs=1e-9)
    assert found.shift == pytest.approx(shift, abs=1e-9)
    assert found.rms < 1e-9
    assert np.linalg.det(found.turn) == pytest.approx(1.0)


@pytest.mark.parametrize("seed", range(6))
def test_registration_of_noisy_points_agrees_with_scipy(seed: int) -> None:
    # scipy.spatial.transform.Rotation.align_vectors solves the same least squares on its own.
    rng = np.random.default_rng(seed)
    scan = rng.uniform(-1.0, 1.0, (6, 3))
    car = scan @ Rotation.random(random_state=seed).as_matrix().T + rng.normal(size=(6, 3)) * 0.01
    expected, rssd = Rotation.align_vectors(car - car.mean(axis=0), scan - scan.mean(axis=0))
    found = register(scan=scan, car=car)
    assert found.turn == pytest.approx(expected.as_matrix(), abs=1e-7)
    assert np.sqrt((found.residuals**2).sum()) == pytest.approx(rssd, rel=1e-6)


def test_residuals_tell_the_spread_of_the_points() -> None:
    # Of 3 n numbers six place the mesh: the rms over 3 n - 6 is the spread that went in.
    rng = np.random.default_rng(5)
    spreads = []
    for _ in range(300):
        scan = rng.uniform(-1.0, 1.0, (6, 3))
        spreads.append(register(scan=scan, car=scan + rng.normal(size=(6, 3)) * 0.005).rms ** 2)
    assert np.sqrt(np.mean(spreads)) == pytest.approx(0.005, rel=0.05)


def test_registration_never_mirrors() -> None:
    flat = np.array([[0.0, 0.0, 0.0], [1.0, 0.0, 0.0], [0.0, 1.0, 0.0], [1.0, 1.0, 0.0]])
    found = register(scan=flat, car=flat * np.array([1.0, -1.0, 1.0]))
    assert np.linalg.det(found.turn) == pytest.approx(1.0)


def test_points_in_a_line_place_nothing() -> None:
    line = np.outer(np.arange(4.0), [1.0, 2.0, 3.0])
    with pytest.raises(InputError, match="line"):
        register(scan=line, car=line)


@pytest.mark.parametrize(("unit", "ratio"), [(1000.0, 0.001), (1.0, 1.0), (39.3701, 0.0254)])
def test_taped_distances_tell_the_unit(unit: float, ratio: float) -> None:
    # 1 m is 1000 mm and 39.3701 in.
    taped = np.array([0.86, 1.23])
    assert scale_ratio(scan=taped * unit, taped=taped) == pytest.approx(ratio, rel=1e-6)


def test_a_loft_stands_where_the_tape_was() -> None:
    # Half-width 0.40 at x = 0 and 0.44 at x = -0.4: at x = -0.1, 0.41 by the straight line; the
    # wall leans by atan(0.1), so a box's edge 0.3 from the middle is (0.41 - 0.3) cos away.
    sections = [
        Section(x=-0.4, heights=[0.0, 0.4], widths=[0.44, 0.44]),
        Section(x=0.0, heights=[0.0, 0.4], widths=[0.40, 0.40]),
    ]
    wall = Solid(
        name="left wall", pieces=wall_pieces(name="left wall", sections=sections, side=1.0)
    )
    part = box_piece(name="part", low=(-0.2, 0.0, 0.1), high=(-0.1, 0.3, 0.2))
    found = clearances(
        scene=Scene(moving=(Solid(name="engine", pieces=(part,)),), fixed=(wall,)), pose=Pose()
    )["left wall"]
    assert found.gap == pytest.approx(0.11 * np.cos(np.arctan(0.1)), abs=1e-6)


def test_both_sides_of_a_loft_are_alike_and_a_tunnel_has_its_roof() -> None:
    sections = [
        Section(x=-1.0, heights=[0.0, 0.15, 0.25], widths=[0.2, 0.18, 0.12]),
        Section(x=-0.4, heights=[0.0, 0.20, 0.33], widths=[0.24, 0.22, 0.16]),
    ]
    left = wall_pieces(name="left", sections=sections, side=1.0)
    right = wall_pieces(name="right", sections=sections, side=-1.0)
    for a, b in zip(left, right, strict=True):
        assert a.nominal == pytest.approx(b.nominal * np.array([1.0, -1.0, 1.0]))
    (roof,) = roof_pieces(name="roof", left=sections, right=sections)
    assert roof.nominal[:4, 2] == pytest.approx([0.25, 0.33, 0.33, 0.25])
    engine = Solid(
        name="gearbox", pieces=(cylinder_piece(
            name="case", start=(-0.8, 0.0, 0.1), end=(-0.6, 0.0, 0.1), diameter=0.1, corners=48),)
    )  # fmt: skip
    scene = Scene(moving=(engine,), fixed=(Solid(name="tunnel", pieces=(*left, *right, roof)),))
    found = clearances(scene=scene, pose=Pose())["tunnel"]
    # The roof rises by 0.08 over 0.6: at x = -0.8 it is 0.2767 high, over a case up to 0.15.
    upright = 0.25 + 0.08 / 3.0 - 0.15
    assert found.gap == pytest.approx(upright * np.cos(np.arctan(0.08 / 0.6)), abs=1e-4)


OUTLINE = Outline(
    length=0.6, width=0.6, offset=0.02, height=0.42, depth=0.09, sump_depth=0.2, sump_width=0.28,
    sump_front=0.3, sump_rear=0.52,
)  # fmt: skip


@pytest.mark.parametrize("heads", ["narrow", "wide"])
@pytest.mark.parametrize("form", [one for one in FORMS if one != "outline"])
def test_a_usual_shape_keeps_the_dimensions_it_was_scaled_to(form: str, heads: str) -> None:
    for mirrored in (False, True):
        found = engine_pieces(
            proportions=proportions_of(form, heads), outline=OUTLINE, mirrored=mirrored
        )
        pieces = [one for kind in found.values() for one in kind]
        assert len(pieces) >= 10
        points = np.concatenate([one.nominal for one in pieces])
        assert points[:, 0].max() == pytest.approx(0.6)
        assert points[:, 0].min() >= -0.02
        assert points[:, 2].max() == pytest.approx(0.42, abs=1e-9)
        assert points[:, 2].min() == pytest.approx(-0.2, abs=1e-9)
        assert points[:, 1].max() == pytest.approx(0.32, abs=0.012)
        assert points[:, 1].min() == pytest.approx(-0.28, abs=0.012)
        for one in pieces:
            hull = ConvexHull(one.nominal)
            assert len(hull.vertices) == len(one.nominal), one.name
            assert hull.volume > 1e-6


def test_triangles_look_outward() -> None:
    # Divergence theorem: Σ a·(b × c)/6 over outward triangles is the volume.
    solid = Solid(name="box", pieces=(box_piece(name="b", low=(1, 2, 3), high=(1.5, 2.4, 3.2)),))
    points, corners = triangles_of(solid=solid, turn=Pose(roll=0.3).turn, shift=np.ones(3))
    a, b, c = (points[corners[:, k]] for k in range(3))
    assert np.einsum("ij,ij->i", a, np.cross(b, c)).sum() / 6.0 == pytest.approx(0.5 * 0.4 * 0.2)


def spread(value: float, half: float, name: str, samples: int = 300) -> Array:
    return np.concatenate(([value], value + half / 1.645 * normal_scores(name, samples)))


def sampled_scene(samples: int = 300) -> tuple[Scene, Pose]:
    """Return an engine of a usual shape with every reading spread, among walls."""

    def s(value: float, half: float, name: str) -> Array:
        return spread(value, half, name, samples)

    outline = Outline(
        length=s(0.56, 0.006, "l"), width=s(0.58, 0.008, "w"), offset=s(0.01, 0.008, "o"),
        height=s(0.40, 0.006, "h"), depth=s(0.1, 0.003, "d"), sump_depth=s(0.21, 0.005, "s"),
        sump_width=0.28, sump_front=s(0.28, 0.005, "f"), sump_rear=s(0.5, 0.005, "r"),
    )  # fmt: skip
    pieces = engine_pieces(
        proportions=proportions_of("inline four", "wide"), outline=outline, mirrored=False
    )
    engine = Solid(
        name="engine", pieces=tuple(p for kind in pieces.values() for p in kind), movement="rock",
        doubt=s(0.0, 0.008, "doubt"),
    )  # fmt: skip
    angle = s(0.03, 0.006, "rock")
    rock = Movement(name="rock", positions=(0.0, angle, -angle), words=("", "right", "left"))
    far = 1.0
    walls = [
        ("left", (-0.5, s(0.36, 0.005, "lw"), -0.2), (0.6, far, 0.7)),
        ("bonnet", (-0.5, -0.5, s(0.44, 0.006, "b")), (0.8, 0.5, far)),
        ("radiator", (s(0.62, 0.006, "rad"), -0.5, -0.3), (far, 0.5, 0.6)),
        ("member", (0.2, -0.4, -0.6), (0.3, 0.4, s(-0.12, 0.005, "m"))),
    ]
    fixed = tuple(
        Solid(name=name, pieces=(box_piece(name=name, low=low, high=high),))
        for name, low, high in walls
    )
    pose = Pose(
        x=s(0.0, 0.005, "x"), z=s(0.0, 0.004, "z"), pitch=s(-0.05, 0.009, "p"),
        yaw=s(0.0, 0.005, "y"),
    )  # fmt: skip
    return Scene(moving=(engine,), fixed=fixed, movements={"rock": rock}), pose


def test_gaps_over_the_samples_agree_with_asking_each_sample() -> None:
    scene, pose = sampled_scene()
    found = sampled_gaps(scene=scene, pose=pose)
    picked = range(0, 301, 3)
    exact = {name: [] for name in found}
    for k in picked:
        one, put = at_sample(scene=scene, pose=pose, sample=k)
        for name, clearance in clearances(scene=one, pose=put).items():
            exact[name].append(clearance.gap)
    for name, gaps in exact.items():
        told, right = found[name].gap[list(picked)], np.array(gaps)
        spread_of = right.std()
        assert told[0] == pytest.approx(right[0], abs=1e-6)
        assert np.sqrt(np.mean((told - right) ** 2)) < 0.15 * spread_of
        assert told.std() == pytest.approx(spread_of, rel=0.06)
        assert told.mean() == pytest.approx(right.mean(), abs=0.12 * spread_of)
        # The odds that follow differ by a few of a hundred at the most doubtful need.
        need = float(np.median(right))
        assert np.mean(told >= need) == pytest.approx(np.mean(right >= need), abs=0.05)


def test_a_separating_plane_never_promises_more_room_than_there_is() -> None:
    # Support theorem: each plane gives a lower bound, so only contacts that are not followed can
    # be missed; with one piece and one wall nothing can.
    engine = Solid(
        name="e",
        pieces=(
            box_piece(name="e", low=(0.0, -0.1, 0.0), high=(spread(0.4, 0.02, "a"), 0.1, 0.2)),
        ),
    )
    wall = Solid(
        name="w", pieces=(box_piece(name="w", low=(0.5, 0.05, 0.25), high=(1.0, 1.0, 1.0)),)
    )
    scene, pose = Scene(moving=(engine,), fixed=(wall,)), Pose(pitch=spread(-0.1, 0.1, "b"))
    told = sampled_gaps(scene=scene, pose=pose)["w"].gap
    for k in range(0, 301, 10):
        one, put = at_sample(scene=scene, pose=pose, sample=k)
        assert told[k] <= clearances(scene=one, pose=put)["w"].gap + 1e-6


def test_one_position_of_an_engine_in_a_fine_mesh_is_quick() -> None:
    from tests.truth.test_solids import bowl  # noqa: PLC0415

    pieces = engine_pieces(
        proportions=proportions_of("inline four", "narrow"), outline=OUTLINE, mirrored=False
    )
    engine = Solid(name="engine", pieces=tuple(p for kind in pieces.values() for p in kind))
    near = Nearest(Scene(moving=(engine,), fixed=(Solid(name="bay", sheet=bowl(20_000)),)))
    poses = [Pose(x=-0.2, z=0.01 * k - 0.1) for k in range(6)]
    began = time.process_time()
    found = [near.clearances(pose) for pose in poses]
    assert all(len(one) == 1 for one in found)
    assert (time.process_time() - began) / len(poses) < 0.4  # 0.1 on an idle machine: benchmarks


@pytest.mark.parametrize(
    ("pair", "low", "high"),
    [
        # common practice, no source: 25 mm with a shield, 50 and more bare; 20-25 to the body.
        ("hot to steering", 0.050, 0.060),
        ("hot to fuel line", 0.050, 0.060),
        ("hot to brake line", 0.050, 0.060),
        ("hot to fixed", 0.020, 0.025),
        ("shaft to fixed", 0.025, 0.025),
        # A club's technical article: 10-15 mm to the steering, turning freely; UK article: 15 mm.
        ("steering", 0.010, 0.015),
        ("fixed", 0.015, 0.015),
    ],
)
def test_rooms_of_the_trade(pair: str, low: float, high: float) -> None:
    assert low <= needed_clearance(pair) <= high
