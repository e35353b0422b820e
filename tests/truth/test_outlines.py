"""Outlines against closed forms of plane and solid geometry."""

from __future__ import annotations

import numpy as np
import pytest
import trimesh

from drybuild.physics.solids.outlines import (
    area_of,
    clipped,
    convex_outline,
    cut_piece,
    cut_sheet,
    loops_of,
    parted,
    seen_along,
    union_edges,
)
from drybuild.physics.solids.scene import turned
from drybuild.physics.solids.shapes import Solid, box_piece, cylinder_piece, triangles_of


def _area(polygons: list) -> float:
    """Area of the union, by its loops: holes run clockwise and count as minus."""
    return sum(area_of(loop=one) for one in loops_of(lines=union_edges(polygons=polygons)))


def _box(low: tuple, high: tuple) -> np.ndarray:
    return np.array([low, (high[0], low[1]), high, (low[0], high[1])], float)


# Closed form: the area of a box's shadow along a direction is the sum of its faces' areas times
# the direction's cosines (Cauchy's projection formula for a box; any text on convex bodies).
@pytest.mark.parametrize(
    ("roll", "pitch", "yaw"), [(0, 0, 0), (20, 0, 0), (10, -25, 40), (45, 35, 5)]
)
def test_shadow_of_a_turned_box_is_cauchys(roll: float, pitch: float, yaw: float) -> None:
    size = np.array([0.62, 0.45, 0.31])
    turn = turned(axis=2, angle=np.radians(yaw)) @ turned(axis=1, angle=np.radians(pitch))
    turn = turn @ turned(axis=0, angle=np.radians(roll))
    corners = box_piece(name="box", low=tuple(-size / 2), high=tuple(size / 2)).nominal @ turn.T
    faces = np.array([size[1] * size[2], size[0] * size[2], size[0] * size[1]])
    for axis, axes in ((1, (0, 2)), (0, (1, 2)), (2, (0, 1))):
        wanted = float(np.abs(turn[axis]) @ faces)
        (polygon,) = seen_along(points=[corners], axes=axes)
        assert area_of(loop=polygon) == pytest.approx(wanted, rel=1e-9)


# Closed form: a cylinder's shadow square to its axis is length times diameter; along its axis a
# circle. Ours is a 12-cornered prism drawn round it: area 12 tan(pi/12) r² (regular polygon).
def test_shadows_of_a_cylinder() -> None:
    one = cylinder_piece(name="can", start=(0, 0, 0), end=(0.3, 0, 0), diameter=0.2).nominal
    (end_on,) = seen_along(points=[one], axes=(1, 2))
    assert area_of(loop=end_on) == pytest.approx(12 * np.tan(np.pi / 12) * 0.1**2, rel=1e-9)
    (side,) = seen_along(points=[one], axes=(0, 2))
    across = np.ptp(side[:, 1])
    assert 0.2 <= across <= 0.2 / np.cos(np.pi / 12) + 1e-12
    assert area_of(loop=side) == pytest.approx(0.3 * across, rel=1e-9)


# Closed form: inclusion and exclusion of two and three boxes.
def test_union_of_boxes_by_inclusion_and_exclusion() -> None:
    a, b, c = _box((0, 0), (4, 3)), _box((3, 1), (6, 5)), _box((2, 2), (5, 4))
    assert _area([a, b]) == pytest.approx(12 + 12 - 2)
    # |a|+|b|+|c| - |ab| - |ac| - |bc| + |abc| = 12+12+6 - 2 - 2 - 4 + 1
    assert _area([a, b, c]) == pytest.approx(23.0)


# Closed form: four bars round a square hole.
def test_a_frame_has_its_hole() -> None:
    bars = [
        _box((0, 0), (5, 1)), _box((0, 4), (5, 5)), _box((0, 0), (1, 5)), _box((4, 0), (5, 5)),
    ]  # fmt: skip
    loops = loops_of(lines=union_edges(polygons=bars))
    assert [round(area_of(loop=one), 9) for one in loops] == [25.0, -9.0]


def test_boxes_side_by_side_join_without_a_line_between() -> None:
    loops = loops_of(lines=union_edges(polygons=[_box((0, 0), (1, 1)), _box((1, 0), (2, 1))]))
    assert len(loops) == 1
    assert area_of(loop=loops[0]) == pytest.approx(2.0)
    assert len(loops[0]) == 4


def test_the_same_box_twice_counts_once() -> None:
    assert _area([_box((0, 0), (2, 1)), _box((0, 0), (2, 1))]) == pytest.approx(2.0)


# Brute force: points thrown over random polygons, counted inside any of them (law of large
# numbers; three standard deviations of 200,000 points).
@pytest.mark.parametrize("seed", range(4))
def test_union_of_random_polygons_by_counting(seed: int) -> None:
    rng = np.random.default_rng(seed)
    polygons = [
        convex_outline(points=rng.normal(0, 0.15, (8, 2)) + rng.uniform(-0.4, 0.4, 2))
        for _ in range(12)
    ]
    thrown = rng.uniform(-1, 1, (200_000, 2))
    inside = np.zeros(len(thrown), bool)
    for one in polygons:
        way = np.roll(one, -1, axis=0) - one
        turn = [
            w[0] * (thrown[:, 1] - p[1]) - w[1] * (thrown[:, 0] - p[0])
            for p, w in zip(one, way, strict=True)
        ]
        inside |= np.all(np.array(turn) >= 0, axis=0)
    share = inside.mean()
    spread = 3 * 4 * np.sqrt(share * (1 - share) / len(thrown))
    assert _area(polygons) == pytest.approx(4 * share, abs=spread)


# Closed form: a plane square to a cylinder's axis cuts its polygon, a plane along the axis at a
# distance d a rectangle 2 sqrt(r² - d²) wide; the prism drawn round it is 3.5 % wider at most.
def test_sections_of_a_cylinder() -> None:
    one = cylinder_piece(name="can", start=(0, 0, 0), end=(0.3, 0, 0), diameter=0.2, corners=96)
    across = cut_piece(points=one.nominal, axis=0, at=0.1)
    assert area_of(loop=across) == pytest.approx(np.pi * 0.1**2, rel=1e-3)
    along = cut_piece(points=one.nominal, axis=2, at=0.05)
    assert area_of(loop=along) == pytest.approx(0.3 * 2 * np.sqrt(0.1**2 - 0.05**2), rel=1e-3)
    assert len(cut_piece(points=one.nominal, axis=2, at=0.2)) == 0


# Closed form: a plane through a cube cuts a unit square; trimesh finds the same outline length.
def test_sections_of_a_box_agree_with_trimesh() -> None:
    turn = turned(axis=0, angle=0.3) @ turned(axis=1, angle=0.2)
    cube = box_piece(name="cube", low=(0, 0, 0), high=(1, 1, 1))
    assert area_of(loop=cut_piece(points=cube.nominal, axis=1, at=0.25)) == pytest.approx(1.0)
    points, triangles = triangles_of(solid=Solid(name="cube", pieces=(cube,)), turn=turn)
    ours = cut_piece(points=points, axis=1, at=0.4)
    lines = trimesh.intersections.mesh_plane(
        trimesh.Trimesh(points, triangles), np.array((0.0, 1.0, 0.0)), np.array((0.0, 0.4, 0.0))
    )
    length = np.linalg.norm(lines[:, 1] - lines[:, 0], axis=1).sum()
    assert np.linalg.norm(np.roll(ours, -1, 0) - ours, axis=1).sum() == pytest.approx(length)


# Independent library: trimesh's section of a random mesh, compared by length and middle of lines.
def test_sections_of_a_sphere_agree_with_trimesh() -> None:
    ball = trimesh.creation.icosphere(subdivisions=3, radius=0.3)
    points, triangles = np.asarray(ball.vertices), np.asarray(ball.faces, dtype=np.int64)
    for axis, at in ((0, 0.11), (1, -0.07), (2, 0.0)):
        ours = cut_sheet(points=points, triangles=triangles, axis=axis, at=at)
        normal = np.eye(3)[axis]
        theirs = trimesh.intersections.mesh_plane(ball, normal, normal * at)
        length = np.linalg.norm(ours[:, 1] - ours[:, 0], axis=1).sum()
        assert length == pytest.approx(np.linalg.norm(theirs[:, 1] - theirs[:, 0], axis=1).sum())
        # closed form: a circle, seen from within by at most the facets' sagitta
        assert length == pytest.approx(2 * np.pi * np.sqrt(0.3**2 - at**2), rel=0.01)


def test_lines_are_parted_by_what_hides_them() -> None:
    lines = np.array([[[0.0, 0.5], [3.0, 0.5]]])
    outside, hidden = parted(lines=lines, polygons=[_box((1, 0), (2, 1))])
    assert outside.tolist() == [[[0.0, 0.5], [1.0, 0.5]], [[2.0, 0.5], [3.0, 0.5]]]
    assert hidden.tolist() == [[[1.0, 0.5], [2.0, 0.5]]]


# Closed form: a unit square turned by 45 degrees, cut by a box of its half width: a right triangle
# at each corner is left out, each (sqrt(2)/2 - 1/2)² in area.
def test_a_polygon_is_clipped_to_a_box() -> None:
    r = np.sqrt(0.5)
    diamond = np.array([(r, 0.0), (0.0, r), (-r, 0.0), (0.0, -r)])
    left = clipped(polygon=diamond, low=(-0.5, -0.5), high=(0.5, 0.5))
    assert area_of(loop=left) == pytest.approx(1.0 - 4.0 * (r - 0.5) ** 2)
    assert len(clipped(polygon=diamond, low=(2.0, 0.0), high=(3.0, 1.0))) == 0
