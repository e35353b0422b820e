"""The placement search against places known in closed form, linear programmes and brute force."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import numpy.typing as npt
import pytest
from scipy.optimize import linprog
from scipy.spatial import ConvexHull
from scipy.spatial.transform import Rotation

from drybuild.physics.joints import compound_joint_angle
from drybuild.physics.placement.access import swept
from drybuild.physics.placement.alterations import Alteration, ways_to_fit
from drybuild.physics.placement.altering import less_movement, moved_standing
from drybuild.physics.placement.near import Near
from drybuild.physics.placement.question import Limit, Question, margin_gradients
from drybuild.physics.placement.ranking import Ranking
from drybuild.physics.placement.screen import ROOMY, Screen
from drybuild.physics.placement.search import best_place, grid_places
from drybuild.physics.placement.shaft_line import angle_between, direction, shaft_joint_angles
from drybuild.physics.solids.scene import Movement, Pose, Scene
from drybuild.physics.solids.shapes import Piece, Solid, box_piece, cylinder_piece, hull_piece
from drybuild.quantities.packaging_place_limits import line_from_angles, load_limit

Array = npt.NDArray[np.float64]
THICK = 0.2
FAR = np.array([0.25, 0.25, 0.25, 0.0, 0.0])
TRUE = 2e-4
"""The climb ends within a fifth of a millimetre. [m]"""


def block(name: str, low: tuple[float, ...], high: tuple[float, ...], **more: str) -> Solid:
    return Solid(name=name, pieces=(box_piece(name=name, low=low, high=high),), **more)


def room(x: float, y: float, z: float) -> tuple[Solid, ...]:
    """Return six walls round a room of these half-lengths."""
    sides = {"front": (0, 1), "rear": (0, -1), "left": (1, 1), "right": (1, -1),
             "lid": (2, 1), "floor": (2, -1)}  # fmt: skip
    half = np.array([x, y, z])
    walls = []
    for name, (axis, sign) in sides.items():
        low, high = -half - THICK, half + THICK
        low[axis], high[axis] = sorted((sign * half[axis], sign * (half[axis] + THICK)))
        walls.append(block(name, tuple(low), tuple(high)))
    return tuple(walls)


def asked(scene: Scene, far: Array = FAR, start: Array | None = None, **more: object) -> Question:
    at = np.zeros(5) if start is None else start
    return Question(scene=scene, low=-far, high=far, start=at, **more)  # type: ignore[arg-type]


@pytest.mark.parametrize("start", [(0.0, 0.0, 0.0), (0.2, -0.1, 0.15)])
def test_a_box_in_a_box(start: tuple[float, ...]) -> None:
    # Closed form: the middle; what is left is half of what the tightest direction leaves.
    scene = Scene(moving=(block("engine", (-0.3, -0.2, -0.1), (0.3, 0.2, 0.1)),),
                  fixed=room(0.40, 0.27, 0.25))  # fmt: skip
    found = best_place(question=asked(scene, start=np.array([*start, 0.0, 0.0])))
    assert found.spot.margin == pytest.approx(0.07, abs=TRUE)
    assert found.spot.at[1] == pytest.approx(0.0, abs=TRUE)


def test_a_wall_that_needs_more_room_pushes_it_away() -> None:
    # Closed form: widths 0.80 - 0.60 = 0.20 left; needs 0.05 and 0.01: (0.20 - 0.06) / 2 over them.
    scene = Scene(
        moving=(block("engine", (-0.3, -0.1, -0.1), (0.3, 0.1, 0.1)),),
        fixed=room(0.40, 0.5, 0.5),
        needed=lambda _, wall: {"front": 0.05, "rear": 0.01}.get(wall.name, 0.0),
    )
    found = best_place(question=asked(scene))
    assert found.spot.margin == pytest.approx(0.07, abs=TRUE)
    assert found.spot.at[0] == pytest.approx(-0.02, abs=TRUE)
    assert {one.fixed for one in found.pairs} == {"front", "rear"}


def v_scene(lid: float, radius: float) -> Scene:
    """Return a cylinder over a groove whose walls stand 30 degrees off the upright."""
    walls = []
    for name, side in (("left", 1.0), ("right", -1.0)):
        normal = np.array([0.0, -side * np.cos(np.pi / 6), np.sin(np.pi / 6)])
        along = np.array([0.0, side * np.sin(np.pi / 6), np.cos(np.pi / 6)])
        ends = [x * np.array([1.0, 0, 0]) + a * along - d * normal
                for x in (-1.0, 1.0) for a in (-0.5, 1.5) for d in (0.0, 0.2)]  # fmt: skip
        walls.append(Solid(name=name, pieces=(hull_piece(name=name, points=np.array(ends)),)))
    top = block("lid", (-1.0, -1.5, lid), (1.0, 1.5, lid + THICK))
    pipe = cylinder_piece(name="pipe", start=(-0.2, 0, 0), end=(0.2, 0, 0), diameter=2 * radius)
    return Scene(moving=(Solid(name="pipe", pieces=(pipe,)),), fixed=(*walls, top))


@pytest.mark.parametrize(("lid", "radius"), [(0.6, 0.1), (0.45, 0.08), (0.3, 0.09)])
def test_a_cylinder_in_a_groove_under_a_lid(lid: float, radius: float) -> None:
    # Closed form: the axis at height z keeps z sin 30° of both walls and lid - z of the lid;
    # alike at z = lid / 1.5. A twelve-sided prism has faces square to these three ways.
    far = np.array([0.0, 0.2, 0.3, 0.0, 0.0])
    question = replace(asked(v_scene(lid, radius)), low=-far, high=far)
    found = best_place(question=question)
    assert found.spot.at[2] == pytest.approx(min(lid / 1.5, 0.3), abs=TRUE)
    assert found.spot.margin == pytest.approx(min(lid / 1.5, 0.3) * 0.5 - radius, abs=TRUE)
    assert found.spot.at[1] == pytest.approx(0.0, abs=TRUE)


def test_rock_takes_room_on_both_sides() -> None:
    # Closed form: a corner at (b, h) turned by φ reaches b cos φ + h sin φ aside.
    angle = 0.08
    rock = Movement(name="rock", positions=(0.0, angle, -angle), words=("", "left", "right"))
    engine = block("engine", (-0.3, -0.2, -0.1), (0.3, 0.2, 0.4), movement="rock")
    scene = Scene(moving=(engine,), fixed=room(0.8, 0.30, 0.9), movements={"rock": rock})
    found = best_place(question=asked(scene))
    expected = 0.30 - (0.2 * np.cos(angle) + 0.4 * np.sin(angle))
    assert found.spot.margin == pytest.approx(expected, abs=TRUE)


def test_a_limit_holds_the_place() -> None:
    # Closed form: kept 30 mm off the middle, the nearer wall keeps 70 - 30 = 40 mm.
    scene = Scene(moving=(block("engine", (-0.3, -0.1, -0.1), (0.3, 0.1, 0.1)),),
                  fixed=room(0.37, 0.5, 0.5))  # fmt: skip
    limit = Limit(name="forward", spare=lambda at: at[0] - 0.03)
    found = best_place(question=asked(scene, limits=(limit,)))
    assert found.spot.keeps
    assert found.spot.margin == pytest.approx(0.04, abs=TRUE)
    assert found.limits == ("forward",)


def test_a_tilted_beam_turns_level_under_a_low_lid() -> None:
    # Closed form: level, a bar of height 0.1 keeps (0.16 - 0.1) / 2 of floor and lid.
    scene = Scene(moving=(block("bar", (-0.5, -0.05, -0.05), (0.5, 0.05, 0.05)),),
                  fixed=room(1.0, 0.5, 0.08))  # fmt: skip
    far = np.array([0.05, 0.05, 0.1, 0.2, 0.0])
    found = best_place(question=asked(scene, far, start=np.array([0, 0, 0.02, 0.15, 0.0])))
    assert found.spot.margin == pytest.approx(0.03, abs=TRUE)
    assert found.spot.at[3] == pytest.approx(0.0, abs=1e-3)


def leaning_room(rng: np.random.Generator) -> tuple[tuple[Solid, ...], Array, Array]:
    """Return eight leaning walls, with their normals toward the room and offsets."""
    normals = rng.normal(size=(8, 3))
    normals = np.concatenate(
        (np.eye(3), -np.eye(3), normals / np.linalg.norm(normals, axis=1)[:, None])
    )
    offsets = -rng.uniform(0.35, 0.5, len(normals))
    walls = []
    for k, (normal, offset) in enumerate(zip(normals, offsets, strict=True)):
        turn, _ = Rotation.align_vectors([normal], [[0.0, 0.0, 1.0]])
        slab = box_piece(name="wall", low=(-3.0, -3.0, -THICK), high=(3.0, 3.0, 0.0))
        points = turn.apply(slab.points) + normal * offset
        walls.append(
            Solid(name=f"wall {k}", pieces=(Piece(name="w", points=points, faces=slab.faces),))
        )
    return tuple(walls), normals, offsets


@pytest.mark.parametrize("seed", range(4))
def test_leaning_walls_agree_with_one_linear_programme(seed: int) -> None:
    # Without turns, a body among half-spaces is one linear programme, solved here by scipy.
    rng = np.random.default_rng(seed)
    walls, normals, offsets = leaning_room(rng)
    body = hull_piece(name="body", points=rng.uniform(-0.2, 0.2, (14, 3)))
    scene = Scene(moving=(Solid(name="body", pieces=(body,)),), fixed=walls)
    lowest = (body.points @ normals.T).min(axis=0)
    rows = np.concatenate((-normals, np.ones((len(normals), 1))), axis=1)
    solved = linprog([0, 0, 0, -1.0], A_ub=rows, b_ub=lowest - offsets,
                     bounds=[(-0.25, 0.25)] * 3 + [(None, None)])  # fmt: skip
    found = best_place(question=asked(scene))
    assert found.spot.margin == pytest.approx(-solved.fun, abs=TRUE)


def blocks_scene(rng: np.random.Generator) -> Scene:
    """Return an engine of three blocks among leaning blocks in a room."""
    engine = Solid(
        name="engine",
        pieces=tuple(
            hull_piece(name=f"piece {k}", points=rng.uniform(-0.15, 0.15, (8, 3)) + shift)
            for k, shift in enumerate(([0.15, 0, 0], [-0.15, 0, 0.05], [0, 0.05, -0.1]))
        ),
    )
    others = tuple(
        Solid(name=f"thing {k}", pieces=(
            hull_piece(name="thing", points=rng.uniform(-0.08, 0.08, (7, 3)) + at),))
        for k, at in enumerate(([0.4, 0.2, 0.2], [-0.4, -0.2, -0.2], [0.1, -0.3, 0.25]))
    )  # fmt: skip
    return Scene(moving=(engine,), fixed=(*room(0.5, 0.36, 0.4), *others))


@pytest.mark.parametrize("seed", range(3))
def test_a_brute_force_grid_agrees(seed: int) -> None:
    # A shift changes no distance by more than its own length: between grid places h apart along
    # each axis nothing can be better than the grid's best by more than h √3 / 2.
    scene = blocks_scene(np.random.default_rng(seed))
    far = np.array([0.12, 0.12, 0.12, 0.0, 0.0])
    along = np.linspace(-0.12, 0.12, 9)
    near = Near(scene)
    grid = max(near.margins([Pose(x=x, y=y, z=z) for x in along for y in along for z in along]))
    found = best_place(question=asked(scene, far), near=near)
    step = along[1] - along[0]
    assert grid - TRUE <= found.spot.margin <= grid + step * np.sqrt(3.0) / 2.0


@pytest.mark.parametrize("seed", range(6))
def test_slopes_agree_with_differences(seed: int) -> None:
    # Central differences of the collision library's own distance.
    rng = np.random.default_rng(seed)
    scene = blocks_scene(rng)
    question, near = asked(scene), Near(scene)
    at = np.array([*rng.uniform(-0.01, 0.01, 3), *rng.uniform(-0.1, 0.1, 2)])
    contact = near.margin(question.pose(at))
    assert contact is not None
    slope = margin_gradients(contacts=[contact], at=at)[0]
    step = 1e-6

    def margin(place: Array) -> float:
        one = near.margin(question.pose(place))
        assert one is not None
        return one.margin

    differences = [
        (margin(at + step * way) - margin(at - step * way)) / (2 * step) for way in np.eye(5)
    ]
    assert slope == pytest.approx(differences, abs=2e-3)


@pytest.mark.parametrize("seed", range(3))
def test_the_quick_look_never_says_too_much(seed: int) -> None:
    scene = blocks_scene(np.random.default_rng(seed))
    question, near = asked(scene), Near(scene)
    rng = np.random.default_rng(seed + 10)
    places = np.concatenate((rng.uniform(-0.1, 0.1, (3, 40)), rng.uniform(-0.1, 0.1, (2, 40))))
    quick = Screen(near, question).margins(places)
    exact = near.margins([question.pose(places[:, k]) for k in range(40)])
    assert np.all(quick <= exact + 1e-7)
    assert Screen(near, question).exact(places) == pytest.approx(np.minimum(exact, ROOMY))


def test_the_quick_look_is_exact_between_square_boxes() -> None:
    scene = Scene(moving=(block("engine", (-0.3, -0.2, -0.1), (0.3, 0.2, 0.1)),),
                  fixed=room(0.33, 0.24, 0.13))  # fmt: skip
    rng = np.random.default_rng(1)
    places = np.concatenate((rng.uniform(-0.05, 0.05, (3, 50)), np.zeros((2, 50))))
    quick = Screen(Near(scene), asked(scene)).margins(places)
    left = np.array([[0.03], [0.04], [0.03]]) - np.abs(places[:3])
    assert quick == pytest.approx(left.min(axis=0), abs=1e-9)


@pytest.mark.parametrize("seed", range(3))
def test_places_are_ranked_as_if_each_had_been_looked_at(seed: int) -> None:
    scene = blocks_scene(np.random.default_rng(seed))
    question = asked(scene, np.array([0.12, 0.12, 0.12, 0.06, 0.0]))
    places = grid_places(question=question)
    costs = np.random.default_rng(seed).uniform(0.0, 0.02, places.shape[1])
    screen = Screen(Near(scene), question)
    worths = (screen.margins(places) - costs).round(9)
    ranking, left = Ranking(screen=screen, places=places, costs=costs), np.full(len(costs), True)
    for k in np.argsort(-worths, kind="stable")[:30]:
        assert ranking.best(left) == k
        left[k] = False


@pytest.mark.parametrize("way", [(0.2, 0.0, 0.0), (0.0, 0.0, -0.3), (0.2, 0.1, -0.4)])
def test_what_a_part_sweeps_is_the_hull_of_both_ends(way: tuple[float, float, float]) -> None:
    # Volume of pyramids from the middle to every face, against Qhull as SciPy has it.
    rng = np.random.default_rng(2)
    for piece in (
        block("block", (0.0, 0.0, 0.0), (0.3, 0.2, 0.1)).pieces[0],
        cylinder_piece(name="can", start=(0, 0, 0), end=(0.3, 0.1, 0), diameter=0.1),
        hull_piece(name="stone", points=rng.normal(size=(20, 3))),
    ):
        found = swept(piece=piece, way=np.array(way))
        at = found.points - found.points.mean(axis=0)
        fans = [
            (at[f[0]], at[f[k]], at[f[k + 1]]) for f in found.faces for k in range(1, len(f) - 1)
        ]
        volume = sum(abs(float(a @ np.cross(b, c))) for a, b, c in fans) / 6.0
        assert volume == pytest.approx(ConvexHull(found.points).volume, rel=1e-9)


def lidded(high: float) -> Scene:
    """Return an engine that is so much too high for its room, 20 mm asked of the lid."""
    return Scene(
        moving=(block("engine", (-0.3, -0.1, -0.2), (0.3, 0.1, 0.2)),),
        fixed=room(0.5, 0.5, 0.2 + 0.01 - high / 2.0),
        needed=lambda _, wall: 0.02 if wall.name == "lid" else 0.0,
    )


def raised(name: str, wall: str, way: tuple[float, float, float], cost: float) -> Alteration:
    return Alteration(
        name=name,
        altered=lambda question, amount: moved_standing(
            question=question, chosen=lambda one: one == wall, way=np.array(way) * amount
        ),
        most=0.1,
        step=0.005,
        cost=cost,
    )


@pytest.mark.parametrize("high", [0.012, 0.03, 0.061])
def test_the_least_bulge_is_what_lacks(high: float) -> None:
    # Closed form: floor to lid lacks `high`; a bulge of just that lets it in, told in steps up.
    found = best_place(question=asked(lidded(high)))
    assert found.spot.margin == pytest.approx(-high / 2.0, abs=TRUE)
    bulge = raised("bulge", "lid", (0, 0, 1), 100.0)
    found_ways = ways_to_fit(found=found, alterations=[bulge])
    (way,) = found_ways.ways
    assert high <= way.amounts[0] <= high + bulge.step + TRUE
    assert way.found.fits


def test_two_walls_that_both_lack_need_both_alterations() -> None:
    scene = lidded(0.03)
    scene = replace(scene, fixed=(*room(0.29, 0.5, 0.195),))
    found = best_place(question=asked(scene))
    bulge = raised("bulge", "lid", (0, 0, 1), 100.0)
    front = raised("radiator", "front", (1, 0, 0), 50.0)
    aside = raised("tower", "left", (0, 1, 0), 10.0)
    ways = ways_to_fit(found=found, alterations=[bulge, front, aside])
    assert {one.name for one in ways.ways[0].alterations} == {"bulge", "radiator"}
    assert ways.ways[0].found.fits


def test_of_two_ways_the_cheaper_comes_first() -> None:
    found = best_place(question=asked(lidded(0.02)))
    dear = raised("bulge", "lid", (0, 0, 1), 300.0)
    cheap = raised("floor", "floor", (0, 0, -1), 80.0)
    ways = ways_to_fit(found=found, alterations=[dear, cheap])
    assert [way.alterations[0].name for way in ways.ways] == ["floor", "bulge"]


def test_stiffer_mounts_give_back_half_the_rock() -> None:
    # Closed form as in the test of rock, with half the angle.
    rock = Movement(name="rock", positions=(0.0, 0.08, -0.08), words=("", "left", "right"))
    engine = block("engine", (-0.3, -0.2, -0.1), (0.3, 0.2, 0.4), movement="rock")
    scene = Scene(moving=(engine,), fixed=room(0.8, 0.24, 0.9), movements={"rock": rock})
    half = less_movement(question=asked(scene), name="rock", share=0.5)
    expected = 0.24 - (0.2 * np.cos(0.04) + 0.4 * np.sin(0.04))
    assert best_place(question=half).spot.margin == pytest.approx(expected, abs=TRUE)


def test_the_same_question_has_the_same_answer() -> None:
    scene = blocks_scene(np.random.default_rng(4))
    first, again = (best_place(question=asked(scene)).spot.at for _ in range(2))
    assert np.array_equal(first, again)


def test_room_to_draw_a_box_out_is_a_longer_box() -> None:
    # Volume of a box and what it sweeps square to a face; hull volume by qhull.
    piece = box_piece(name="starter", low=(0, 0, 0), high=(0.2, 0.1, 0.1))
    hull = ConvexHull(swept(piece=piece, way=np.array([0.07, 0.0, 0.0])).points)
    assert hull.volume == pytest.approx(0.27 * 0.1 * 0.1)


def test_room_to_draw_a_ball_out_is_a_capsule_as_far_as_it_is_round() -> None:
    # Steiner's formula: a body swept along a way gains its shadow times the way, whatever it is.
    rng = np.random.default_rng(2)
    piece = hull_piece(name="filter", points=rng.normal(size=(40, 3)) * 0.05)
    way = np.array([0.0, 0.0, -0.06])
    shadow = ConvexHull(piece.points[:, :2]).volume  # qhull calls an area in the plane a volume
    gained = ConvexHull(swept(piece=piece, way=way).points).volume
    assert gained == pytest.approx(ConvexHull(piece.points).volume + shadow * 0.06)


# Manual J3311-1, fig. 6, prints true angle = √(side² + plan²); it holds to 0.1 % up to 4°.
@pytest.mark.parametrize(("side", "plan"), [(2.4, 3.2), (1.5, 2.0), (0.5, 0.5), (2.0, 0.0)])
def test_joint_angles_join_both_views(side: float, plan: float) -> None:
    shaft = direction(slope=np.radians(side), aside=np.radians(plan))
    found = float(angle_between(first=direction(slope=0.0, aside=0.0), second=shaft))
    assert np.degrees(found) == pytest.approx(np.hypot(side, plan), rel=1e-3)
    joined = compound_joint_angle(side_angle=np.radians(side), plan_angle=np.radians(plan))
    assert found == pytest.approx(float(joined), rel=1e-9)


@pytest.mark.parametrize("slope", [0.0, 2.0, 4.0])
def test_parallel_shafts_have_equal_joint_angles_through_the_travel(slope: float) -> None:
    # Two parallel shafts are cut by a third at equal angles: Euclid, Elements, I.29.
    axis = direction(slope=np.radians(slope), aside=0.0)
    for rise in (-0.06, 0.0, 0.06):
        front, rear = shaft_joint_angles(
            gearbox_axis=axis,
            front_joint=np.array([0.0, 0.01, 0.1]),
            rear_joint=np.array([-1.2, 0.0, 0.02 + rise]),
            pinion_axis=axis,
        )
        assert front == pytest.approx(rear, abs=1e-12)


def test_angles_between_random_directions_agree_with_arccos() -> None:
    rng = np.random.default_rng(3)
    a, b = rng.normal(size=(2, 3, 50))
    cosine = (a * b).sum(axis=0) / np.sqrt((a**2).sum(axis=0) * (b**2).sum(axis=0))
    assert angle_between(first=a, second=b) == pytest.approx(np.arccos(cosine), abs=1e-7)


@pytest.mark.parametrize("height", [-0.1, 0.3])
def test_the_files_angles_come_back_at_the_files_place(height: float) -> None:
    pose = Pose(x=-0.3, y=0.02, z=0.1, pitch=-np.radians(3.0))
    angles = np.radians([1.8, 0.6, 1.9, 0.4])
    line = line_from_angles(
        pose=pose,
        behind=0.8,
        length=np.array([1.1]),
        front=(angles[:1], angles[1:2]),
        rear=(angles[2:3], angles[3:]),
        axle_height=height,
        largest=np.radians([4.0]),
        travel=0.08,
    )
    front, rear = line.angles(pose)[:, 0]
    assert front == pytest.approx(np.hypot(*angles[:2]), rel=2e-3)
    assert rear == pytest.approx(np.hypot(*angles[2:]), rel=2e-3)


def test_the_axle_load_follows_the_lever_rule() -> None:
    # 240 kg moved 0.1 m forward over a wheelbase of 2.4 m put 10 kg more on the front axle.
    held = load_limit(
        name="load of the front axle",
        load=np.array([700.0]),
        most=np.array([720.0]),
        per_metre=np.array([240.0 / 2.4]),
        start=np.zeros(5),
    )
    forward = np.array([[0.0, 0.1, 0.2, 0.3]] + [[0.0] * 4] * 4)
    assert held.limit.spare(forward) * 700.0 == pytest.approx([20.0, 10.0, 0.0, -10.0])
