"""Closed forms of the layouts, of joints that tilt, of rockers and idlers."""

from __future__ import annotations

import numpy as np
import pytest

from drybuild.physics.linkage.joint_angles import joint_tilts, shaft_angles
from drybuild.physics.linkage.layouts import Swept
from tests.linkages import ALL, PILLAR, TORQUE_ARM, TWIST_BEAM, moved

Raw = dict[str, tuple[float, float, float]]
FIRST = (0, 0, 0, 0)


def test_a_twist_beam_rolls_about_bush_and_shear_centre() -> None:
    # Reimpell 2001, sec. 1.6.4 (from memory): in roll each half turns about the line from its bush
    # to the shear centre in the middle; its camber and toe are those of that turn.
    wheel = moved("twist beam", TWIST_BEAM).left.in_roll
    hub, bush, centre = (
        np.array(TWIST_BEAM[n]) for n in ("wheel_centre", "beam_bush", "beam_centre")
    )
    axis = (centre - bush) / np.linalg.norm(centre - bush)
    turn = axis / np.cross(axis, hub - bush)[2]
    assert wheel.turn_rate[:, 0, 0, 0, 0] == pytest.approx(turn)
    assert wheel.camber_rate[FIRST] == pytest.approx(-turn[0])
    assert wheel.toe_in_rate[FIRST] == pytest.approx(-turn[2])
    contact = hub - np.array([0.0, 0.0, 0.30])
    path = np.cross(turn, contact - bush)
    height = moved("twist beam", TWIST_BEAM).left.roll_centre_height[FIRST]
    assert height == pytest.approx(contact[1] * path[1] / path[2])


def test_a_twist_beam_in_bump_is_a_pair_of_trailing_arms() -> None:
    # The same source: bumped together, the halves turn about the line of their bushes.
    travel = np.linspace(-0.05, 0.05, 5)
    wheel = moved("twist beam", TWIST_BEAM, travel=travel).left
    assert np.abs(wheel.camber).max() < 1e-12
    assert np.abs(wheel.toe_in).max() < 1e-12
    reach = np.array(TWIST_BEAM["beam_bush"]) - np.array(TWIST_BEAM["wheel_centre"])
    length, drop = np.hypot(reach[0], reach[2]), reach[2] - travel
    assert wheel.wheelbase_change[:, 0, 0, 0] == pytest.approx(
        reach[0] - np.sqrt(length**2 - drop**2)
    )


def test_a_sliding_pillar_keeps_camber_and_goes_along_itself() -> None:
    # By construction: with a tie rod square to the pillar the wheel's path is the pillar's line.
    along = np.array(PILLAR["pillar_upper"]) - np.array(PILLAR["pillar_lower"])
    square = np.array([0.0, -along[2], along[1]])
    inner = np.array(PILLAR["tie_outer"]) + square
    leaning = moved("sliding pillar", {**PILLAR, "tie_inner": tuple(inner)}).left
    assert leaning.camber_rate[FIRST] == pytest.approx(0.0, abs=1e-9)
    assert leaning.centre_path_slope[FIRST] == pytest.approx(along[0] / along[2])
    half = 0.65 * along[1] / along[2]
    assert leaning.roll_centre_height[FIRST] == pytest.approx(half)
    caster = np.arctan2(-along[0], along[2])
    assert leaning.caster[FIRST] == pytest.approx(caster)
    assert leaning.kingpin_inclination[FIRST] == pytest.approx(np.arctan2(-along[1], along[2]))


def _line_meets(a: np.ndarray, u: np.ndarray, b: np.ndarray, v: np.ndarray) -> np.ndarray:
    """Return where a + s u meets b + t v in the side view (x, z)."""
    s, _ = np.linalg.solve(np.stack((u, -v), axis=1), b - a)
    return a + s * u


@pytest.mark.parametrize("shackle", [None, (1.06, 0.0, 0.50)])
def test_a_torque_arms_side_view_centre(shackle: tuple[float, float, float] | None) -> None:
    # Dixon 2009 (from memory): the arm's bush guides it along itself, so the centre lies square to
    # the arm above or below the bush; a shackle gives its own line. It meets the lower links' line.
    raw = TORQUE_ARM if shackle is None else {**TORQUE_ARM, "arm_shackle": shackle}
    side = {name: np.array(one)[[0, 2]] for name, one in raw.items()}
    front = side["arm_front_end"]
    arm = front - side["wheel_centre"]
    line = np.array([-arm[1], arm[0]]) if shackle is None else side["arm_shackle"] - front
    lower = side["lower_body"] - side["lower_axle"]
    centre = _line_meets(side["lower_axle"], lower, front, line)
    # A level rod sideways: an inclined one yaws the axle in bump.
    level: Raw = {**raw, "panhard_axle": (-0.10, 0.45, 0.28)}
    wheel = moved("live axle on torque arm", level).left
    assert wheel.side_view_centre[:, 0, 0, 0, 0] == pytest.approx(centre, abs=1e-9)


LEVEL: Raw = {
    "wheel_centre": (0.0, 0.74, 0.30),
    "lower_front": (0.20, 0.34, 0.20),
    "lower_rear": (-0.20, 0.34, 0.20),
    "lower_outer": (0.0, 0.68, 0.20),
    "upper_front": (0.20, 0.34, 0.45),
    "upper_rear": (-0.20, 0.34, 0.45),
    "upper_outer": (0.0, 0.68, 0.45),
    "tie_inner": (0.12, 0.34, 0.20),
    "tie_outer": (0.12, 0.68, 0.20),
}
"""Level arms of equal length: the upright stays upright, each arm swings by asin(z/l)."""


def test_balls_of_parallel_arms_tilt_by_the_arms_swing() -> None:
    rise = 0.06
    motion = moved("double wishbone", LEVEL, travel=np.array([rise])).motion
    tilts = {one.name: one.tilt[0, 0] for one in joint_tilts(motion=motion, places=np.array([0]))}
    swing = np.arcsin(rise / 0.34)
    for name in ("lower arm's ball joint", "upper arm's ball joint", "tie rod's inner ball"):
        assert tilts[name] == pytest.approx(swing, abs=1e-9), name


def test_steering_does_not_tilt_a_stud_along_the_kingpin() -> None:
    motion = moved("double wishbone", LEVEL, steer=np.array([0.05])).motion
    tilts = {one.name: one.tilt[0, 0] for one in joint_tilts(motion=motion, places=np.array([0]))}
    assert tilts["lower arm's ball joint"] == pytest.approx(0.0, abs=1e-9)
    assert tilts["tie rod's outer ball"] == pytest.approx(0.0, abs=1e-9)


def test_bushes_of_links_twist_in_roll() -> None:
    # A level link along the car, its ends y 0.5 m from the middle: in bump its pins just turn.
    raw = ALL["live axle on links"]
    motion = moved(
        "live axle on links", raw, travel=np.array([0.05]), roll=np.array([0.0, 0.05])
    ).motion
    tilts = joint_tilts(motion=motion, places=np.array([0, 1]))
    lower = next(one for one in tilts if one.name == "left lower link's end on the body")
    assert lower.tilt[0, 0] == pytest.approx(0.0, abs=1e-9)
    assert lower.tilt[1, 0] > 0.005


def test_a_half_shafts_joint_bends_by_its_rise_over_its_length() -> None:
    raw: Raw = {
        "wheel_centre": (0.0, 0.7, 0.3),
        "arm_inner": (0.4, 0.2, 0.3),
        "arm_outer": (0.4, 0.5, 0.3),
    }
    swept = moved("trailing arm", raw, travel=np.array([0.08]))
    points = (np.array((0.0, y, 0.3))[:, None, None] for y in (0.2, 0.62))
    inner, outer, stretch = shaft_angles(
        motion=swept.motion, inner=next(points), outer=next(points), places=np.array([0])
    )
    # On a trailing arm the shaft's end goes along its circle: forward by r(1 − cos θ).
    ahead = 0.4 - np.sqrt(0.4**2 - 0.08**2)
    angle = np.arctan(np.hypot(0.08, ahead) / 0.42)
    assert inner[0, 0] == pytest.approx(angle)
    assert outer[0, 0] == pytest.approx(angle)  # the hub keeps its direction
    assert stretch[0, 0] == pytest.approx(np.sqrt(0.42**2 + 0.08**2 + ahead**2) - 0.42)


BOX: Raw = {**LEVEL, "pitman_pivot": (0.30, 0.26, 0.24), "pitman_end": (0.12, 0.26, 0.24)}


def test_an_idler_parallel_to_the_boxs_arm_changes_nothing() -> None:
    # A parallelogram: its coupler only shifts (Reimpell 2001, sec. 4.3, from memory).
    idler: Raw = {**BOX, "idler_pivot": (0.30, -0.26, 0.24), "idler_end": (0.12, -0.26, 0.24)}
    steer = np.radians([-30.0, -10.0, 20.0])
    plain, other = (moved("double wishbone", raw, steer=steer).left for raw in (BOX, idler))
    assert other.steer_angle == pytest.approx(plain.steer_angle, abs=1e-10)


def test_an_idler_that_is_not_parallel_is_a_plane_four_bar() -> None:
    # Freudenstein's equation of the plane four-bar, solved as circle meets circle.
    idler: Raw = {**BOX, "idler_pivot": (0.33, -0.26, 0.24), "idler_end": (0.12, -0.22, 0.24)}
    turn = 0.4
    at = {name: np.array(one)[:2] for name, one in idler.items()}
    spin = np.array([[np.cos(turn), -np.sin(turn)], [np.sin(turn), np.cos(turn)]])
    near = at["pitman_pivot"] + spin @ (at["pitman_end"] - at["pitman_pivot"])
    rod = np.linalg.norm(at["idler_end"] - at["pitman_end"])
    arm = np.linalg.norm(at["idler_end"] - at["idler_pivot"])
    apart = near - at["idler_pivot"]
    span = np.linalg.norm(apart)
    along = (arm**2 - rod**2 + span**2) / (2 * span)
    off = np.sqrt(arm**2 - along**2)
    square = np.array([-apart[1], apart[0]]) / span
    ends = [at["idler_pivot"] + along * apart / span + sign * off * square for sign in (1, -1)]
    far = min(ends, key=lambda one: float(np.linalg.norm(one - at["idler_end"])))
    swept = moved("double wishbone", idler, steer=np.array([turn]))
    link = next(one for one in swept.linkage.mechanism.constraints if one.name == "tie rod")
    drive = link.drive  # type: ignore[attr-defined]  # it is the link with the steering gear
    point = np.array(idler["idler_end"])[:, None, None]
    found = drive.shifted(point, {"steer": np.array([[turn]])})[:2, 0, 0]
    assert found == pytest.approx(far, abs=1e-12)


def test_a_rockers_ratio_is_the_slope_of_its_springs_length() -> None:
    raw: Raw = {
        **LEVEL,
        "spring_top": (0.0, 0.10, 0.55),
        "spring_bottom": (0.0, 0.34, 0.58),
        "rocker_pivot": (0.0, 0.36, 0.50),
        "rocker_axis": (0.2, 0.36, 0.50),
        "pushrod_rocker": (0.0, 0.43, 0.53),
        "pushrod_wheel": (0.0, 0.63, 0.22),
    }

    def swept(travel: list[float]) -> Swept:
        return moved("double wishbone", raw, travel=np.array(travel), arm="lower arm")

    step = 1e-5
    spring = swept([0.02 - step, 0.02, 0.02 + step]).strut("spring")
    assert spring is not None
    length = spring.length[:, 0, 0, 0]
    slope = -(length[2] - length[0]) / (2 * step)
    assert spring.motion_ratio[1, 0, 0, 0] == pytest.approx(slope, rel=1e-7)
    assert abs(slope) > 0.3
