from __future__ import annotations

import re
import subprocess
import sys
from pathlib import Path

import numpy as np
import pytest
from tests.building import BARE, Evaluated, evaluate

from drybuild.checks.verdicts import State
from drybuild.physics.linkage.layout import SPRINGS
from drybuild.physics.linkage.layouts import LAYOUTS
from drybuild.project.linkage import TAPE, Hardpoints
from drybuild.project.readings import Reading
from drybuild.tables.suspension import layouts

PAGE = Path(__file__).resolve().parents[2] / "docs" / "how-to" / "enter-hardpoints.md"


def page(kind: str) -> str:
    """Return a block of the how-to."""
    found = re.search(rf"```yaml{kind}\n(.*?)```", PAGE.read_text(encoding="utf-8"), re.DOTALL)
    assert found
    return found[1]


CAR = page("")
EXAMPLES = re.findall(
    r"```yaml\n(.*?)```", (PAGE.parent / "hardpoints-by-layout.md").read_text("utf-8"), re.DOTALL
)


@pytest.fixture(scope="module")
def car() -> Evaluated:
    return evaluate(CAR, samples=300)


def test_the_how_to_on_hardpoints_runs(car: Evaluated) -> None:
    assert not car.problems
    check, path = page(" wanted").strip().split(": ")
    verdict = car.verdict(check)
    assert verdict.doubts[0].path == path
    assert car.verdict("suspension.lock-up").state is State.GOOD


def test_every_point_of_every_layout_can_be_written() -> None:
    used = {name for one in LAYOUTS.values() for name in (*one.points, *one.optional)}
    assert used | set(SPRINGS) == set(Hardpoints.FIELDS)
    assert set(LAYOUTS) <= set(layouts())


def test_a_length_without_a_spread_has_the_tapes() -> None:
    text = CAR.replace(
        "tie_outer: [-130 mm, 640 mm, 222 mm]", "tie_outer: [0 mm, 640 ± 5 mm, ~222 mm]"
    )
    points = evaluate(text).build.options["front_suspension"]["wishbones"].given["points"]
    given = points.given["tie_outer"]  # type: ignore[attr-defined]  # a section
    assert all(isinstance(one, Reading) for one in given)
    widths = [(one.high - one.low) / 2.0 for one in given]
    assert widths[0] == pytest.approx(TAPE)
    assert widths[1] == pytest.approx(5e-3)
    assert widths[2] > 10 * TAPE


def test_a_car_without_hardpoints_is_not_asked_about_them() -> None:
    bare = evaluate(BARE)
    for check in ("lock-up", "bump-steer", "roll-centre", "camber-gain", "anti-dive"):
        assert bare.verdict(f"suspension.{check}").senseless
    assert not bare.result("roll_centre_height").open


def test_the_solver_is_not_imported_without_hardpoints() -> None:
    code = (
        "import sys; from tests.building import evaluate; evaluate().value('roll_centre_height', "
        "'front'); assert not [m for m in sys.modules if 'physics.linkage' in m]"
    )
    done = subprocess.run(
        [sys.executable, "-c", code],
        cwd=PAGE.parents[2],
        capture_output=True,
        text=True,
        check=False,
    )
    assert done.returncode == 0, done.stderr


def test_the_standing_sums_take_the_solvers_result(car: Evaluated) -> None:
    for axle in ("front", "rear"):
        assert car.value("roll_centre_height", axle) == car.value("linkage_roll_centre", axle)
    half = car.value("track", "front") / 2.0
    lean = 1.0 - half * car.value("camber_gain", "front")
    assert car.value("wheel_lean", "front") == pytest.approx(lean)
    steer = -half * car.value("bump_steer", "front")
    assert car.value("roll_steer", "front") == pytest.approx(steer)


def test_the_solvers_result_outranks_a_suppliers_sheet(car: Evaluated) -> None:
    sheet = CAR.replace(
        "layout: double wishbone", "layout: double wishbone\n      roll_centre_height: 20 mm"
    )
    found = evaluate(sheet).value("roll_centre_height", "front")
    assert found == pytest.approx(car.value("roll_centre_height", "front"))


def test_leaf_axle_steers_with_its_front_eyes(car: Evaluated) -> None:
    # Half-leaf rods rise forward by 65 mm in 580 mm: the axis falls rearward, roll oversteer.
    assert car.value("roll_steer", "rear") == pytest.approx(-65.0 / 580.0, rel=1e-6)
    assert car.value("camber_gain", "rear") == pytest.approx(0.0, abs=1e-9)


def test_wheels_lean_in_roll_less_than_the_body(car: Evaluated) -> None:
    outer, inner = (car.value("camber_in_roll", f"front {one}") for one in ("outer", "inner"))
    static = np.radians(-0.3)  # what such cars usually stand at
    assert static < outer < np.radians(3.0)
    assert np.radians(-3.3) < inner < static
    assert car.value("camber_in_roll", "rear outer") == pytest.approx(0.0, abs=2e-4)


def test_locks_come_from_the_steering_linkage(car: Evaluated) -> None:
    inner, outer = car.value("lock_angles", "inner"), car.value("lock_angles", "outer")
    assert 0.0 < outer < inner
    assert 0.0 < car.value("ackermann_share") < 1.2
    assert not car.result("turning_circle").open
    racked = CAR.replace("  rear_suspension:", "  steering: {rack: {gear: rack, "
                         "rack_travel_per_turn: 45 mm}}\n  rear_suspension:")  # fmt: skip
    assert 10.0 < evaluate(racked).value("steering_ratio") < 25.0


def test_motion_ratio_feeds_the_wheel_rate() -> None:
    sprung = CAR.replace(
        "layout: double wishbone", "layout: double wishbone\n      spring_rate: 60 N/mm"
    )
    found = evaluate(sprung)
    ratio = found.value("motion_ratio", "front")
    assert 0.5 < ratio < 0.7
    # The ratio's own change over bump adds the spring's force times its slope.
    assert found.value("wheel_rate", "front") == pytest.approx(60e3 * ratio**2, rel=0.15)
    assert found.value("wheel_rate", "front") != pytest.approx(60e3 * ratio**2, rel=1e-4)


def test_a_link_that_stops_the_wheel_is_named_with_its_place() -> None:
    short = CAR.replace("[110 mm, 430 mm, 455 mm]", "[110 mm, 570 mm, 455 mm]").replace(
        "[-100 mm, 430 mm, 440 mm]", "[-100 mm, 570 mm, 440 mm]"
    )
    car = evaluate(short)
    assert car.verdict("suspension.lock-up").state is State.FAILS
    why = car.result("toe_change").missing[0].why
    assert "upper arm" in why
    assert "mm travel" in why


def test_a_missing_point_is_named() -> None:
    lines = [line for line in CAR.splitlines() if "tie_outer" not in line]
    found = evaluate("\n".join(lines) + "\n").result("camber_gain")
    assert found.missing[0].path.endswith("points.tie_outer")


def test_every_layout_that_can_be_named_can_be_followed() -> None:
    assert set(layouts()) == set(LAYOUTS)


def test_anti_dive_follows_its_definition(car: Evaluated) -> None:
    from drybuild.quantities.graph import Result  # noqa: PLC0415  for its type alone

    linkage: Result = car.result("front_rolling")
    wheel = linkage.value["front"].left
    slope = float(wheel.contact_path_slope[4, 0, 0, 0])
    share = car.value("front_brake_share")
    lever = car.value("wheelbase") / car.value("cg_height")
    assert car.value("anti_dive") == pytest.approx(share * slope * lever)
    assert np.isfinite(car.value("anti_lift"))
    assert np.isfinite(car.value("anti_squat"))


@pytest.mark.parametrize("example", EXAMPLES, ids=lambda one: re.search("layout: (.*)", one)[1])
def test_every_layout_has_an_example_that_moves(example: str) -> None:
    end = example.partition("_suspension")[0]
    options = "".join(f"  {line}\n" for line in example.splitlines())
    car = evaluate(f"{BARE}options:\n{options}", samples=50)
    assert not car.problems
    assert car.value("linkage_travel", end) == 1.0
    for name in ("camber_gain", "bump_steer", "toe_change", "contact_scrub", "roll_centre_at_bump"):
        assert np.isfinite(car.samples_of(name, end)).all(), name
    assert car.value("roll_centre_height", end) == car.value("linkage_roll_centre", end)
    if end == "front":
        assert 0.0 < car.value("lock_angles", "outer") < 1.0
        assert np.isfinite(car.value("turning_circle"))


def test_examples_and_the_first_page_show_every_layout() -> None:
    shown = {match[1] for one in (*EXAMPLES, CAR) for match in re.finditer("layout: (.*)", one)}
    assert shown == set(LAYOUTS)


def test_an_unsteered_front_keeps_the_steering_axis_as_given() -> None:
    arms = next(one for one in EXAMPLES if "layout: trailing arm" in one)
    options = arms.replace("rear_suspension", "front_suspension").replace(
        "    points:", "    scrub_radius: 30 mm\n    points:"
    )
    text = "".join(f"  {line}\n" for line in options.splitlines())
    assert evaluate(f"{BARE}options:\n{text}").value("scrub_radius") == pytest.approx(0.030)


BOXED = f"""{BARE}options:
  front_suspension:
    boxed:
      layout: double wishbone
      points:
        wheel_centre: [0 mm, 740 mm, 300 mm]
        lower_front: [200 mm, 340 mm, 200 mm]
        lower_rear: [-200 mm, 340 mm, 200 mm]
        lower_outer: [0 mm, 680 mm, 200 mm]
        upper_front: [200 mm, 340 mm, 450 mm]
        upper_rear: [-200 mm, 340 mm, 450 mm]
        upper_outer: [0 mm, 680 mm, 450 mm]
        tie_inner: [-120 mm, 340 mm, 200 mm]
        tie_outer: [-120 mm, 660 mm, 200 mm]
        pitman_pivot: [60 mm, 260 mm, 240 mm]
        pitman_end: [-120 mm, 260 mm, 240 mm]
"""
IDLER = """        idler_pivot: [PIVOT mm, -260 mm, 240 mm]
        idler_end: [-120 mm, -260 mm, 240 mm]
"""


def test_an_idler_steers_the_right_wheel() -> None:
    # A parallel idler is what stands in without one; a shorter one gives the wheels other angles.
    plain, parallel, short = (
        evaluate(BOXED + more, samples=60)
        for more in ("", IDLER.replace("PIVOT", "60"), IDLER.replace("PIVOT", "20"))
    )
    assert not short.problems
    outer = [one.value("lock_angles", "outer") for one in (plain, parallel, short)]
    assert outer[1] == pytest.approx(outer[0], abs=1e-3)
    assert abs(outer[2] - outer[0]) > 1e-3


TWIST = next(one for one in EXAMPLES if "layout: twist beam" in one)


def test_a_twist_beam_leans_and_steers_in_roll_only() -> None:
    options = "".join(f"  {line}\n" for line in TWIST.splitlines())
    car = evaluate(f"{BARE}options:\n{options}", samples=60)
    # A wheel with toe leans a little as its arm pitches it; nothing else does in bump.
    assert car.value("camber_gain", "rear") == pytest.approx(0.0, abs=0.01)
    assert 0.2 < car.value("wheel_lean", "rear") < 0.95
    assert abs(car.value("roll_steer", "rear")) > 1e-3


def test_joints_and_half_shafts_are_asked_for() -> None:
    arms = next(one for one in EXAMPLES if "layout: semi-trailing arm" in one)
    shafts = (
        "      shaft_inner: [0 mm, 150 mm, 300 mm]\n      shaft_outer: [0 mm, 640 mm, 300 mm]\n"
    )
    options = "".join(f"  {line}\n" for line in (arms + shafts).splitlines())
    car = evaluate(f"{BARE}options:\n{options}", samples=60)
    assert not car.problems
    assert 0.05 < car.value("half_shaft_angle", "rear inner") < 0.4
    assert car.value("half_shaft_plunge", "rear") > 0.0
    assert car.verdict("suspension.half-shaft").state is not State.OPEN
    front = evaluate(CAR, samples=60)
    tilts = front.result("joint_tilt").labelled()
    assert "front upper arm's ball joint" in tilts
    assert all(0.0 <= one[0] < 3.0 for one in tilts.values())
