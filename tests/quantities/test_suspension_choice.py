from __future__ import annotations

import numpy as np
import pytest
from tests.building import BARE, evaluate

from drybuild.units import STANDARD_GRAVITY

WANTED = f"""{BARE}brief: {{ride_frequency: 1.25 Hz, roll_gradient: 5 deg/g, cruise_speed: 90 km/h}}
options:
  front_suspension:
    kit: {{layout: double wishbone, motion_ratio: 0.6, wheel_rate: 20 N/mm}}
  rear_suspension:
    kit: {{layout: live axle on links, motion_ratio: 1, wheel_rate: 22 N/mm}}
"""


def test_the_wanted_rate_rides_at_the_wanted_frequency() -> None:
    car = evaluate(WANTED)
    rate = car.value("wanted_wheel_rate", "front")
    again = evaluate(WANTED.replace("20 N/mm", f"{rate} N/m"))
    assert again.value("ride_frequency", "front") == pytest.approx(1.25, rel=1e-3)
    assert car.value("wanted_spring_rate", "front") == pytest.approx(rate / 0.36)
    ratio = 1.0 / (1.0 - 1.25 * car.value("wheelbase") / 25.0)
    assert car.value("wanted_ride_frequency", "rear") == pytest.approx(1.25 * ratio)


def test_wanted_bars_and_springs_hold_the_roll_that_is_wanted() -> None:
    car = evaluate(WANTED)
    front, rear = (car.value("wanted_wheel_rate", one) for one in ("front", "rear"))
    bars = [car.value("wanted_bar_stiffness", one) for one in ("front", "rear")]
    told = WANTED.replace("20 N/mm", f"{front} N/m, bar_roll_stiffness: {bars[0]} N*m/rad")
    told = told.replace("22 N/mm", f"{rear} N/m, bar_roll_stiffness: {bars[1]} N*m/rad")
    found = np.degrees(evaluate(told).value("roll_gradient")) * STANDARD_GRAVITY
    assert found == pytest.approx(5.0, rel=2e-3)


def test_a_wanted_bars_diameter_gives_its_stiffness_back() -> None:
    car = evaluate(WANTED)
    diameter = car.value("wanted_bar_diameter", "front")
    half = 0.30 * car.value("track", "front")
    bar = (
        f"anti_roll_bar: {{diameter: {diameter} m, motion_ratio: 0.6, bush_rate: 2.5 kN/mm, "
        f"bush_place: {half} m, line: [[0.25 m, {half + 0.07} m, 0 m], "
        f"[0 m, {half + 0.02} m, 0 m], [0 m, 0 m, 0 m]]}}"
    )
    again = evaluate(WANTED.replace("wheel_rate: 20 N/mm", f"wheel_rate: 20 N/mm, {bar}"))
    assert not again.problems
    assert again.value("anti_roll_bar_stiffness", "front") == pytest.approx(
        car.value("wanted_bar_stiffness", "front"), rel=2e-3
    )


def test_a_bars_line_of_one_point_is_refused_with_the_mend() -> None:
    bar = "anti_roll_bar: {diameter: 20 mm, line: [[0 m, 0.4 m, 0 m]]}"
    found = evaluate(WANTED.replace("wheel_rate: 20 N/mm", f"wheel_rate: 20 N/mm, {bar}"))
    assert found.problems[0].code == "list-wanted"
    assert "line" in found.problems[0].field


def test_damper_curve_meets_the_damping_that_is_wanted() -> None:
    car = evaluate(WANTED)
    sum_of_both = sum(car.value("wanted_damping", f"front {way}") for way in ("bump", "rebound"))
    sprung = car.value("laden_sprung_axle_load", "front") / 2.0
    critical = 2.0 * np.sqrt(20e3 * sprung)
    assert sum_of_both / 2.0 * 0.36 / critical == pytest.approx(0.30, rel=1e-3)


LEAVES = f"""{BARE}options:
  rear_suspension:
    leaves:
      layout: live axle on leaf springs
      leaf: {{leaves: 5, leaf_width: 55 mm, leaf_thickness: 6.5 mm, front_length: 580 mm,
        rear_length: 660 mm}}
      PLACE
"""


def test_leaves_wind_up_and_rub() -> None:
    car = evaluate(LEAVES.replace("PLACE", ""))
    assert not car.problems
    assert 0.0 < car.value("axle_windup", "drive") < 0.5
    laden, drive = (car.value("leaf_stress", one) for one in ("laden", "laden, full drive"))
    assert 100e6 < laden < drive < 1500e6
    assert car.value("leaf_friction") > 0.0
    # As many leaves as make the wanted rate: linear in it.
    leaves = car.value("wanted_leaves", "rear 6 mm")
    thick = car.value("wanted_leaves", "rear 8 mm")
    assert leaves / thick == pytest.approx((8 / 6) ** 3)


@pytest.mark.parametrize(
    ("entry", "rise"),
    [
        ("lowering_block: 40 mm", -0.040),
        ("shackle_change: 30 mm", 0.030 * 580 / 1240),
        ("packing: 10 mm, motion_ratio: 1", 0.010),
    ],
)
def test_adjusters_move_the_stance(entry: str, rise: float) -> None:
    lines = entry.replace(", ", "\n      ")
    plain, moved = (evaluate(LEAVES.replace("PLACE", one)) for one in ("", lines))
    assert not moved.problems
    assert moved.value("adjusted_height", "rear") == pytest.approx(rise)
    change = moved.value("ride_height", "rear") - plain.value("ride_height", "rear")
    assert change == pytest.approx(rise)
    lost = plain.value("bump_travel_left", "rear") - moved.value("bump_travel_left", "rear")
    assert lost == pytest.approx(max(-rise, 0.0))


COILS = f"""{BARE}options:
  front_suspension:
    kit:
      layout: double wishbone
      motion_ratio: 0.6
      seat_distance: 240 mm
      unsprung_mass: 70 kg
      bump_travel: 70 mm
      coil: {{wire_diameter: 13 mm, mean_diameter: 115 mm, active_coils: 6, free_length: 330 mm}}
      bump_stop: {{length: 60 mm, scale: 900 N, exponent: 1.7, gap: 20 mm}}
"""


def test_a_longer_coil_raises_the_car_by_its_length_over_the_ratio() -> None:
    short, long = (
        evaluate(COILS.replace("free_length: 330", f"free_length: {one}")) for one in (330, 342)
    )
    rise = long.value("ride_height", "front") - short.value("ride_height", "front")
    assert rise == pytest.approx(0.012 / 0.6)


def test_a_coil_at_full_bump_has_stroke_and_stress() -> None:
    car = evaluate(COILS)
    bump = car.value("bump_travel_left", "front") * 0.6
    rate = car.value("spring_rate", "front")
    force = car.value("laden_spring_force", "front")
    solid = 8 * 0.013
    assert car.value("coil_stroke_left", "front") == pytest.approx(
        0.330 - force / rate - bump - solid
    )
    index = 115 / 13
    wahl = (4 * index - 1) / (4 * index - 4) + 0.615 / index
    stress = wahl * 8 * (force + rate * bump) * 0.115 / (np.pi * 0.013**3)
    assert car.value("coil_stress", "front") == pytest.approx(stress)
    travel = car.value("bump_travel_left", "front")
    stop = 900.0 * ((1.0 - (travel - 0.020) * 0.6 / 0.060) ** -1.7 - 1.0)
    load = car.value("laden_sprung_axle_load", "front") * STANDARD_GRAVITY / 2.0
    more = car.value("wheel_rate", "front") * travel + stop * 0.6
    assert car.value("full_bump_load", "front") == pytest.approx(1.0 + more / load)


AIR = """      layout: double wishbone
      motion_ratio: 0.7
      unsprung_mass: 70 kg
      air_spring: {area: 9000 mm², volume: 1.6 l}
"""


def test_an_air_spring_has_a_rate_by_its_load() -> None:
    head = f"{BARE}options:\n  front_suspension:\n    air:\n"
    small, large = (evaluate(head + AIR.replace("1.6 l", volume)) for volume in ("1.6 l", "3.2 l"))
    assert not small.problems
    rates = [one.value("wheel_rate", "front") for one in (small, large)]
    assert 0.4 * rates[0] < rates[1] < 0.6 * rates[0]


def test_rear_alignment_is_a_field_and_none_of_a_rigid_axle() -> None:
    rigid = evaluate(LEAVES.replace("PLACE", ""))
    assert rigid.value("static_camber", "rear") == 0.0
    arms = f"{BARE}options:\n  rear_suspension:\n    arms: {{layout: semi-trailing arm, SET}}\n"
    usual = evaluate(arms.replace("SET", "mass: 40 kg"))
    assert usual.value("static_toe_in", "rear") > 0.0
    told = evaluate(arms.replace("SET", "camber: -1.5 ± 0.2 deg, toe_in: 0.2 ± 0.1 deg"))
    assert np.degrees(told.value("static_camber", "rear")) == pytest.approx(-1.5)
    assert told.value("toe_drag", "rear") == pytest.approx(1000 * np.sin(np.radians(0.1)))
