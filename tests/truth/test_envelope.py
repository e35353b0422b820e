"""Outside checks of the wheel's room: standards' figures, closed forms, other libraries."""

from __future__ import annotations

import fcl
import numpy as np
import pytest
import trimesh
from scipy.spatial import ConvexHull, cKDTree
from scipy.spatial.transform import Rotation

from drybuild.physics.envelope.barrel import barrel_gap
from drybuild.physics.envelope.gaps import (
    Drift,
    Fitted,
    Gap,
    Wander,
    least_gaps,
)
from drybuild.physics.envelope.nearest import outline_distance
from drybuild.physics.envelope.obstacles import Obstacle, block, cloud, polar_sheet, rod
from drybuild.physics.envelope.outline import convex_hull, growth_at_speed, tyre_outline
from drybuild.physics.envelope.path import (
    SteeringAxis,
    WheelPath,
    axle_path,
    guided_path,
    linkage_path,
    steered_path,
)
from drybuild.physics.envelope.room import room
from drybuild.physics.linkage.layout import Setting
from drybuild.physics.linkage.layouts import linkage
from drybuild.physics.tyre_sizes import INCH
from drybuild.physics.tyres import largest_outside_diameter
from drybuild.physics.wheels import FLANGE_THICKNESS
from drybuild.quantities.tyres_form import tyre_form
from drybuild.quantities.wheels_widest import _rims
from drybuild.tables.typical import typical_range
from drybuild.tables.tyres import load_capacity, metric_sizes
from drybuild.tables.wheels import bead_seat_diameter

NONE = np.zeros(1)

# ETRTO Standards Manual, from memory: size, outside diameter [mm]; UN R30 6.1.2 gives the same.
DIAMETERS = [
    ("165/80R13", 594), ("175/70R13", 576), ("185/70R14", 616), ("195/65R15", 635),
    ("205/60R15", 627), ("205/55R16", 632), ("225/50R16", 632), ("225/45R17", 634),
]  # fmt: skip


def outline_of(size: str, rim: float) -> np.ndarray:
    form = tyre_form(size)
    bead = bead_seat_diameter(form.size.rim_code)
    return tyre_outline(
        section_width=form.section_width,
        outside_diameter=form.outside_diameter,
        bead_diameter=bead,
        wall_thickness=0.0065,
        rim_width=rim * INCH,
        flange_thickness=FLANGE_THICKNESS,
        tread_width=0.78 * form.section_width,
        shoulder_radius=0.015,
    )


TYRE = outline_of("195/60R15", 6.0)


def rectangle(half: float, radius: float) -> np.ndarray:
    """A plain cylinder's half plane, hollow to its axle."""
    return np.array([(-half, 0.01), (half, 0.01), (half, radius), (-half, radius)])


def fitted(outline: np.ndarray, shift: float = 0.0) -> Fitted:
    return Fitted(
        outline=outline, shift=shift, width_error=NONE, radius_error=NONE, shift_error=NONE
    )


def straight(**changed: float) -> WheelPath:
    given = {
        "half_track": 0.68, "radius": 0.29, "standing": 0.0, "bump": 0.08, "droop": 0.08,
        "camber": 0.0, "camber_gain": 0.0, "roll_centre_height": 0.0,
    }  # fmt: skip
    return guided_path(**{**given, **changed}, places=7)


def upright(steer: np.ndarray, scrub: float, path: WheelPath) -> WheelPath:
    axis = SteeringAxis(caster=0.0, inclination=0.0, scrub=scrub, trail=0.0)
    return steered_path(path=path, radius=0.29, camber=0.0, axis=axis, steer=steer)


def wall(y: float, low: float = -0.4, high: float = 0.4) -> Obstacle:
    x, z = np.meshgrid(np.arange(low, high, 0.004), np.arange(-0.3, 0.3, 0.02))
    points = np.stack((x.ravel(), np.full(x.size, y), z.ravel()))
    return cloud(name="wall", points=points, error=NONE)


def gap(path: WheelPath, obstacle: Obstacle, outline: np.ndarray) -> Gap:
    made = room(path=path, obstacles=[obstacle], middle=0.24)
    return least_gaps(room=made, fitted=fitted(outline), wander=Wander.none(path.travel.size))[0]


@pytest.mark.parametrize(("size", "diameter"), DIAMETERS)
def test_the_outline_is_as_wide_and_tall_as_the_standard_says(size: str, diameter: int) -> None:
    # ETRTO Standards Manual, from memory; the width is the size's own.
    outline = outline_of(size, round(tyre_form(size).measuring_rim_width / INCH * 2) / 2)
    assert 2.0 * outline[:, 1].max() == pytest.approx(diameter * 1e-3, abs=0.6e-3)
    assert 2.0 * outline[:, 0].max() == pytest.approx(tyre_form(size).section_width, abs=1e-9)


@pytest.mark.parametrize(("code", "over_flanges"), [(15, 414.8), (17, 471.2)])
def test_the_flange_stands_out_as_a_j_flange_does(code: int, over_flanges: float) -> None:
    # ISO 4000-2, from memory: bead seat 380.2 and 436.6 mm and a J flange of 17.3 mm.
    bead = bead_seat_diameter(code)
    outline = tyre_outline(
        section_width=0.15, outside_diameter=bead + 0.036, bead_diameter=bead,
        wall_thickness=0.006, rim_width=0.16, flange_thickness=0.0127,
        tread_width=0.1, shoulder_radius=0.005,
    )  # fmt: skip
    flange = outline[np.isclose(outline[:, 0], 0.08)]
    assert 2e3 * flange[:, 1].max() == pytest.approx(over_flanges, abs=0.05)


def test_a_makers_tyre_may_be_4_per_cent_over_its_size() -> None:
    # UN R30, 6.1.4.2 and 6.1.5, from memory: width +4 %, height -3 to +4 % of radial tyres.
    width = typical_range("tyres.width_over_size", "any")
    height = typical_range("tyres.height_over_size", "any")
    assert width
    assert height
    assert (width.high, height.low, height.high) == (4.0, -3.0, 4.0)
    most = largest_outside_diameter(
        rim_diameter=0.406, section_height=0.113, growth_factor=1.0 + height.high / 100.0
    )
    assert most == pytest.approx(0.64104, abs=1e-6)  # 205/55R16: 406 + 2 x 113 x 1.04


def test_growth_goes_with_the_square_of_speed() -> None:
    # A thin rotating ring: strain = rho v^2 / E (Timoshenko, Strength of Materials II, art. on
    # rotating rings, from memory).
    steel, speed = 7850.0 / 206e9, np.array([20.0, 40.0, 60.0])
    ring = 0.3 * steel * speed**2
    ours = growth_at_speed(growth=ring[1], reference_speed=speed[1], speed=speed)
    assert ours == pytest.approx(ring)


@pytest.mark.parametrize(
    ("size", "low", "high"), [("155/80R13", 4.0, 5.5), ("225/45R17", 7.0, 8.5),
                              ("255/35R18", 8.5, 10.0)]
)  # fmt: skip
def test_the_rims_tried_are_those_the_list_approves(size: str, low: float, high: float) -> None:
    # ETRTO Standards Manual, approved rims, from memory.
    found = [one / INCH for one in _rims(tyre_form(size))]
    assert (found[0], found[-1]) == pytest.approx((low, high))


@pytest.mark.parametrize(("size", "index"), [("205/55R16", 91), ("195/65R15", 91)])
def test_sizes_carry_the_load_that_is_moulded_on_them(size: str, index: int) -> None:
    # 205/55R16 91V stands in two importers' guides to sidewall marks; 195/65R15 91 from memory.
    assert f"{size} {index}" in metric_sizes()
    assert load_capacity(index) == 615.0  # ISO 4000-1, load index 91


def test_a_wider_tyre_of_a_series_never_carries_less() -> None:
    # ISO 4000-1 rates tyres by their air volume: at one rim and series load rises with width.
    forms = [tyre_form(text) for text in metric_sizes() if "104" not in text]
    groups: dict[tuple[float, float], list[tuple[float, float]]] = {}
    for one in forms:
        key = (one.size.rim_code, one.size.aspect or 0.0)
        groups.setdefault(key, []).append((one.section_width, one.load_capacity or 0.0))
    for members in groups.values():
        loads = [load for _, load in sorted(members)]
        assert loads == sorted(loads)
    assert len(forms) > 100


def test_the_hull_is_that_of_an_independent_library() -> None:
    # scipy.spatial.ConvexHull (Qhull).
    points = np.random.default_rng(3).normal(size=(400, 2))
    theirs = points[ConvexHull(points).vertices]
    ours = convex_hull(points=points)
    assert ours.shape == theirs.shape
    assert cKDTree(theirs).query(ours)[0].max() == pytest.approx(0.0, abs=1e-12)


def test_distance_to_a_torus_is_the_closed_form() -> None:
    # Torus of radii R and a: distance = hypot(rho - R, s) - a, from any point.
    turn = np.linspace(0.0, 2.0 * np.pi, 2001)[:-1]
    torus = np.stack((0.09 * np.cos(turn), 0.24 + 0.09 * np.sin(turn)), axis=1)
    points = np.random.default_rng(1).uniform((-0.2, 0.05), (0.2, 0.45), (500, 2))
    ours, _ = outline_distance(outline=torus, points=points)
    exact = np.hypot(points[:, 0], points[:, 1] - 0.24) - 0.09
    assert ours == pytest.approx(exact, abs=1e-6)


def test_distance_to_the_outline_is_that_to_its_finely_cut_edge() -> None:
    # Brute force: the nearest of 40,000 points of the edge.
    points = np.random.default_rng(2).uniform((-0.25, 0.1), (0.25, 0.4), (300, 2))
    ours, normal = outline_distance(outline=TYRE, points=points)
    ends = np.roll(TYRE, -1, axis=0)
    part = np.linspace(0.0, 1.0, 1500)[:, None, None]
    edge = (TYRE + part * (ends - TYRE)).reshape(-1, 2)
    theirs, _ = cKDTree(edge).query(points)
    assert np.abs(ours) == pytest.approx(theirs, abs=2e-4)
    assert np.linalg.norm(normal, axis=1) == pytest.approx(1.0)


@pytest.mark.parametrize("degrees", [0.0, 12.0, 25.0, 38.0])
def test_a_cylinder_steered_about_its_middle_reaches_as_far_as_it_should(degrees: float) -> None:
    # Cylinder of radius R and width w: its edge reaches R sin d + w/2 cos d aside.
    lock = np.radians(degrees)
    steer = np.linspace(-lock, lock, 9) if degrees else NONE
    path = upright(steer, 0.0, straight(bump=1e-6, droop=1e-6))
    reach = 0.29 * np.sin(lock) + 0.09 * np.cos(lock)
    found = gap(path, wall(0.72 + reach), rectangle(0.09, 0.29))
    assert found.values[0] == pytest.approx(0.04, abs=2e-4)


@pytest.mark.parametrize("scrub", [0.03, 0.08])
def test_a_kingpin_beside_the_wheel_swings_it(scrub: float) -> None:
    # About an upright kingpin at a inboard, the middle goes to half - a + a cos d.
    lock = np.radians(35.0)
    path = upright(np.linspace(-lock, lock, 9), scrub, straight(bump=1e-6, droop=1e-6))
    found = gap(path, wall(0.95), rectangle(0.09, 0.29))
    middle = 0.68 - scrub + scrub * np.cos(lock)
    reach = 0.29 * np.sin(lock) + 0.09 * np.cos(lock)
    assert found.values[0] == pytest.approx(0.95 - middle - reach, abs=2e-4)
    assert abs(found.steer) == pytest.approx(lock)


@pytest.mark.parametrize("bump", [0.05, 0.09])
def test_a_roof_is_neared_by_the_travel_alone(bump: float) -> None:
    # Straight up: gap = height - travel - radius.
    x, y = np.meshgrid(np.arange(-0.2, 0.2, 0.004), np.arange(0.5, 0.86, 0.004))
    roof = cloud(
        name="roof", points=np.stack((x.ravel(), y.ravel(), np.full(x.size, 0.43))), error=NONE
    )
    found = gap(straight(bump=bump), roof, TYRE)
    assert found.values[0] == pytest.approx(0.43 - bump - TYRE[:, 1].max(), abs=1e-4)
    assert found.travel == pytest.approx(bump)


def test_an_axle_that_rolls_leans_its_upper_edge_inboard() -> None:
    # Rigid body: about a roll centre at the axle's own height, the upper inner edge of a cylinder
    # comes to half cos p - R sin p - w/2 cos p, with sin p = (bump + droop) / track.
    path = axle_path(
        half_track=0.68, radius=0.29, standing=0.0, bump=0.08, droop=0.08, camber=0.0,
        roll_centre_height=0.29, places=7, rolls=5,
    )  # fmt: skip
    found = gap(path, _shelf(0.48), rectangle(0.09, 0.29))
    roll = np.arcsin(0.16 / 1.36)
    inner = 0.68 * np.cos(roll) - 0.29 * np.sin(roll) - 0.09 * np.cos(roll)
    assert found.values[0] == pytest.approx(inner - 0.48, abs=1.5e-4)
    assert found.roll == pytest.approx(roll)


def _shelf(y: float) -> Obstacle:
    """A wall inboard, as high as the wheel's edge may come."""
    z = np.arange(0.0, 0.42, 0.002)
    points = np.stack((0.0 * z, np.full(z.size, y), z))
    return cloud(name="shelf", points=points, error=NONE)


def test_an_axle_stays_as_long_as_it_is() -> None:
    # Rigid body: both hubs stay one track apart at any roll.
    path = axle_path(
        half_track=0.68, radius=0.29, standing=0.0, bump=0.08, droop=0.06, camber=0.0,
        roll_centre_height=0.2, places=9, rolls=9,
    )  # fmt: skip
    along = path.spin  # the axle's own line
    other = path.centre - 1.36 * along
    assert other[2].min() >= -0.06 - 1e-12
    assert np.linalg.norm(path.centre - other, axis=0) == pytest.approx(1.36)
    middle = (path.centre + other) / 2.0
    above = np.cross(np.array([1.0, 0.0, 0.0])[:, None], along, axis=0)
    pivot = middle - (0.29 - 0.2) * above
    assert pivot[1] == pytest.approx(np.zeros(pivot.shape[1]), abs=1e-12)  # on the middle plane


def test_steering_is_the_rotation_of_an_independent_library() -> None:
    # scipy.spatial.transform.Rotation about the same axis.
    axis = SteeringAxis(caster=0.06, inclination=0.15, scrub=0.04, trail=0.012)
    steer = np.array([-0.5, 0.0, 0.6])
    base = straight(bump=0.07, droop=0.05, camber_gain=0.2)
    path = steered_path(path=base, radius=0.29, camber=0.0, axis=axis, steer=steer)
    for place in range(base.travel.size):
        lean = -0.2 * base.travel[place]
        tilt = Rotation.from_rotvec([-lean, 0.0, 0.0])
        way = tilt.apply(np.array([-np.tan(0.06), -np.tan(0.15), 1.0]))
        foot = base.centre[:, place] + tilt.apply([0.012, -0.04, -0.29])
        for k, angle in enumerate(steer):
            turn = Rotation.from_rotvec(angle * way / np.linalg.norm(way))
            at = place * steer.size + k
            assert path.centre[:, at] == pytest.approx(
                foot + turn.apply(base.centre[:, place] - foot), abs=1e-12
            )
            assert path.spin[:, at] == pytest.approx(turn.apply(base.spin[:, place]), abs=1e-12)


def test_catalogue_figures_stand_in_for_a_linkage_within_some_millimetres() -> None:
    # The rigid-body solver, which agrees with a published wishbone (see test_linkage.py).
    points = {
        "wheel_centre": (0.0, 0.720, 0.290), "lower_front": (0.16, 0.330, 0.205),
        "lower_rear": (-0.22, 0.330, 0.210), "lower_outer": (0.01, 0.690, 0.165),
        "upper_front": (0.11, 0.430, 0.500), "upper_rear": (-0.10, 0.430, 0.480),
        "upper_outer": (-0.02, 0.640, 0.455), "tie_inner": (-0.14, 0.360, 0.245),
        "tie_outer": (-0.13, 0.660, 0.215),
    }  # fmt: skip
    made = linkage(
        layout="double wishbone",
        points={name: np.array(one)[:, None] for name, one in points.items()},
        setting=Setting(camber=NONE, toe_in=NONE, radius=np.array([0.29])),
        spring_arm="",
    )
    travel = np.array([-0.06, -0.03, 0.0, 0.03, 0.06])
    wheel = made.motion(travel=travel, steer=NONE, roll=NONE).left
    exact = linkage_path(wheel=wheel, half_track=0.72, standing=0.0)
    told = guided_path(
        half_track=0.72, radius=0.29, standing=0.0, bump=0.06, droop=0.06, camber=0.0,
        camber_gain=-float(wheel.camber_rate[2, 0, 0, 0]),
        roll_centre_height=float(wheel.roll_centre_height[2, 0, 0, 0]), places=5,
    )  # fmt: skip
    # What is left is the arms' arc: its second order, travel squared over 2 L, is bounded by the
    # shorter arm, 0.21 m, and pulls the wheel inward at both ends; catalogues do not tell it.
    apart = exact.centre[1] - told.centre[1]
    assert np.abs(apart[1:4]).max() < 0.002
    assert np.abs(apart).max() < 0.060**2 / (2.0 * 0.21)
    assert apart.max() < 0.001  # the figures err outward, towards the lip
    # Camber of the arms' arc likewise; toe is not told at all.
    lean = np.degrees(np.abs(told.spin[2] - exact.spin[2]))
    assert lean[1:4].max() < 0.3
    assert lean.max() < 1.0


ARCH = np.radians([20.0, 90.0, 160.0])


def arch(lip: np.ndarray, outer: np.ndarray) -> Obstacle:
    return polar_sheet(name="lip", angles=ARCH, inner=(lip, outer), outer=(lip, outer))


def front_path(bump: float = 0.08, lock: float = 0.62) -> WheelPath:
    base = guided_path(
        half_track=0.68, radius=0.29, standing=0.0, bump=bump, droop=0.06, camber=0.0,
        camber_gain=0.15, roll_centre_height=0.06, places=5,
    )  # fmt: skip
    axis = SteeringAxis(caster=0.05, inclination=0.15, scrub=0.04, trail=0.01)
    steer = np.array([-0.54, 0.0, lock])
    return steered_path(path=base, radius=0.29, camber=0.0, axis=axis, steer=steer)


def surface(path: WheelPath, position: int, outline: np.ndarray) -> np.ndarray:
    """Points of the tyre's skin at a position, (points, 3)."""
    ends = np.roll(outline, -1, axis=0)
    part = np.linspace(0.0, 1.0, 9)[:, None, None]
    edge = (outline + part * (ends - outline)).reshape(-1, 2)
    spin = path.spin[:, position]
    first = np.cross(spin, [1.0, 0.0, 0.0])
    first = first / np.linalg.norm(first)
    second = np.cross(spin, first)
    turn = np.linspace(0.0, 2.0 * np.pi, 360)
    ring = np.outer(np.cos(turn), first) + np.outer(np.sin(turn), second)
    found = edge[:, None, :1] * spin + edge[:, None, 1:] * ring[None]
    return (found + path.centre[:, position]).reshape(-1, 3)


@pytest.mark.parametrize("which", ["lip", "rail", "block"])
def test_the_least_gap_is_that_of_a_cloud_of_points(which: str) -> None:
    # Brute force: nearest neighbours among points of both skins, at every position.
    def column(*values: float) -> np.ndarray:
        return np.array(values)[:, None]

    thing = {
        "lip": arch(column(0.385, 0.38, 0.385), column(0.80, 0.795, 0.80)),
        "rail": rod(name="rail", start=column(-0.35, 0.33, 0.05), end=column(0.4, 0.36, 0.08),
                    radius=0.03, follows=0.0),
        "block": block(name="block", low=column(-0.3, 0.25, 0.1), high=column(-0.1, 0.38, 0.2),
                       follows=0.0),
    }[which]  # fmt: skip
    path = front_path()
    found = gap(path, thing, TYRE)
    assert thing.form.base.ndim == 2
    tree = cKDTree(thing.form.base.T)
    theirs = min(
        tree.query(surface(path, place, TYRE))[0].min() for place in range(path.travel.size)
    )
    assert found.values[0] == pytest.approx(theirs - thing.form.roundness, abs=6e-4)


@pytest.mark.parametrize("which", ["rail", "block"])
def test_the_least_gap_is_that_of_a_collision_library(which: str) -> None:
    # python-fcl: mesh of the turned outline against a capsule and a box, at every position.
    path = front_path()
    if which == "rail":
        start, end = np.array([-0.35, 0.36, 0.05]), np.array([0.4, 0.36, 0.05])
        thing = rod(name="r", start=start[:, None], end=end[:, None], radius=0.03, follows=0.0)
        turn = Rotation.from_euler("y", 90, degrees=True).as_matrix()
        solid = fcl.CollisionObject(
            fcl.Capsule(0.03, 0.75), fcl.Transform(turn, (start + end) / 2.0)
        )
    else:
        low, high = np.array([-0.3, 0.25, 0.1]), np.array([-0.1, 0.38, 0.2])
        thing = block(name="b", low=low[:, None], high=high[:, None], follows=0.0)
        solid = fcl.CollisionObject(
            fcl.Box(*(high - low)), fcl.Transform(np.eye(3), (low + high) / 2.0)
        )
    theirs = min(_fcl_distance(path, place, solid) for place in range(path.travel.size))
    assert gap(path, thing, TYRE).values[0] == pytest.approx(theirs, abs=4e-4)


def _fcl_distance(path: WheelPath, position: int, solid: fcl.CollisionObject) -> float:
    profile = np.stack((TYRE[:, 1], TYRE[:, 0]), axis=1)  # revolve turns about z
    mesh = trimesh.creation.revolve(np.vstack((profile, profile[:1])), sections=240)
    model = fcl.BVHModel()
    model.beginModel(len(mesh.vertices), len(mesh.faces))
    model.addSubModel(mesh.vertices, mesh.faces)
    model.endModel()
    turn, _ = Rotation.align_vectors([path.spin[:, position]], [[0.0, 0.0, 1.0]])
    placed = fcl.CollisionObject(model, fcl.Transform(turn.as_matrix(), path.centre[:, position]))
    return float(fcl.distance(placed, solid, fcl.DistanceRequest(), fcl.DistanceResult()))


@pytest.mark.parametrize("slope", [0.0, 0.3, 1.0])
def test_a_caliper_under_a_conical_barrel_has_the_plane_geometrys_gap(slope: float) -> None:
    # Distance of a point from a line: (height over it) / sqrt(1 + slope^2).
    found = barrel_gap(
        barrel_place=np.array([[0.0], [0.2]]),
        barrel_radius=np.array([[0.18], [0.18 + 0.2 * slope]]),
        caliper_place=np.array([[0.09], [0.11]]),
        caliper_radius=np.array([[0.15], [0.15]]),
    )
    assert found[0] == pytest.approx((0.03 + 0.09 * slope) / np.hypot(1.0, slope))


def test_the_spread_is_that_of_moving_everything_anew() -> None:
    # Exact sampling: a room, a path and a tyre of its own for each draw.
    rng = np.random.default_rng(5)
    draws = 160

    def reading(value: float, spread: float) -> np.ndarray:
        return value + np.concatenate(([0.0], rng.normal(0.0, spread, draws)))

    lip = np.array([reading(one, 0.002) for one in (0.40, 0.392, 0.40)])
    outer = np.array([reading(one, 0.003) for one in (0.81, 0.805, 0.81)])
    bump, wide, tall = reading(0.08, 0.003), reading(0.0, 0.004), reading(0.0, 0.002)
    path = front_path()
    rates = path.rates(path.travel, 0)
    part = np.clip(path.travel / 0.08, 0.0, 1.0)
    drift = Drift(centre=(rates[0] * part)[np.newaxis], spin=(rates[1] * part)[np.newaxis])
    wander = Wander(drift=drift, error=(bump - 0.08)[np.newaxis])
    tyre = Fitted(outline=TYRE, shift=0.0, width_error=wide, radius_error=tall, shift_error=NONE)
    made = room(path=path, obstacles=[arch(lip, outer)], middle=0.24)
    ours = least_gaps(room=made, fitted=tyre, wander=wander)[0].values
    seat, top, half = TYRE[:, 1].min(), TYRE[:, 1].max(), TYRE[:, 0].max()
    exact = np.empty(draws + 1)
    for k in range(draws + 1):
        grown = TYRE.copy()
        grown[:, 0] *= 1.0 + wide[k] / 2.0 / half
        grown[:, 1] += (TYRE[:, 1] - seat) / (top - seat) * tall[k]
        one = arch(lip[:, k : k + 1], outer[:, k : k + 1])
        exact[k] = gap(front_path(bump=float(bump[k])), one, grown).values[0]
    assert ours[0] == pytest.approx(exact[0], abs=1e-9)
    assert np.std(ours) == pytest.approx(np.std(exact), rel=0.1)
    assert np.abs(ours - exact).max() < 0.0015
    assert np.percentile(ours, 5) == pytest.approx(np.percentile(exact, 5), abs=5e-4)
