from __future__ import annotations

import numpy as np
import pytest
from tests.building import evaluate

G = 9.80665
CAR = """build: an invented saloon
car:
  body: {kind: unitary, wheelbase: 2500 mm, front_track: 1400 mm, rear_track: 1400 mm}
  mass: {front_axle: 540 kg, rear_axle: 460 kg, fuel_aboard: 40 kg, fuel_when_full: 40 kg,
         cg_height: 540 mm}
"""


def test_moments_of_both_axles_are_the_cars() -> None:
    build = evaluate(CAR)
    acceleration = 0.4 * G
    moved = sum(
        build.value("lateral_load_transfer", axle) * build.value("track", axle)
        for axle in ("front", "rear")
    )
    sprung = sum(build.value("laden_sprung_axle_load", axle) for axle in ("front", "rear"))
    outside = build.value("laden_mass") * acceleration * build.value("laden_cg_height")
    roll = build.value("roll_gradient") * acceleration
    leaning = sprung * G * build.value("roll_arm") * roll
    assert moved == pytest.approx(outside + leaning, rel=1e-9)


BAR = """options:
  front_suspension: {it: {bar_roll_stiffness: RATE N·m/rad}}
  tyres: {it: {camber_friction_loss: 0 1/rad²}}
"""


def test_a_stiffer_front_bar_rolls_less_understeers_more_and_moves_the_balance() -> None:
    # Without what lean costs a tyre: with it, less roll may win the front more than it loses.
    soft, stiff = (evaluate(CAR + BAR.replace("RATE", rate)) for rate in ("3000", "20000"))
    assert stiff.value("roll_gradient") < soft.value("roll_gradient")
    assert stiff.value("front_load_transfer_share") > soft.value("front_load_transfer_share")
    assert stiff.value("limit_balance") > soft.value("limit_balance")
    tyres = [build.value("understeer_terms", "tyres") for build in (soft, stiff)]
    assert tyres[1] > tyres[0]


def test_the_causes_of_understeer_add_up() -> None:
    build = evaluate(CAR)
    terms = build.result("understeer_terms").labelled()
    assert build.value("understeer_gradient") == pytest.approx(
        sum(float(values[0]) for values in terms.values())
    )


def test_what_the_axles_give_differs_by_the_understeer_gradient() -> None:
    build = evaluate(CAR)
    front, rear = (build.value("cornering_compliance", axle) for axle in ("front", "rear"))
    assert front - rear == pytest.approx(build.value("understeer_gradient"))
    assert build.value("static_margin") > 0.0


def test_characteristic_speed_follows_from_the_gradient() -> None:
    build = evaluate(CAR)
    gradient = build.value("understeer_gradient")
    assert build.value("characteristic_speed") == pytest.approx((2.5 / gradient) ** 0.5)


def test_the_limit_is_the_weaker_axles() -> None:
    build = evaluate(CAR)
    axles = [build.value("axle_cornering_limit", axle) for axle in ("front", "rear")]
    assert build.value("cornering_limit") == pytest.approx(min(axles))
    assert build.value("limit_balance") == pytest.approx(axles[1] - axles[0])


def test_a_tall_narrow_car_has_little_to_spare() -> None:
    tall = evaluate(CAR.replace("540 mm}", "900 mm}").replace("1400 mm", "1250 mm"))
    assert tall.value("static_stability_factor") < 0.8
    assert np.isnan(tall.samples_of("rollover_risk")[0])


def test_a_tyre_of_higher_load_rating_minds_load_transfer_less() -> None:
    option = "options: {tyres: {it: {load_capacity: RATED kg}}}\n"
    small, large = (evaluate(CAR + option.replace("RATED", rated)) for rated in ("400", "700"))
    assert large.value("cornering_limit") > small.value("cornering_limit")
    assert small.value("tyre_reference_load", "front") == pytest.approx(0.66 * 400.0 * G)


def test_a_bare_car_computes() -> None:
    build = evaluate()
    for name in ("roll_gradient", "understeer_gradient", "cornering_limit", "yaw_frequency"):
        assert np.isfinite(build.value(name))


BEND = (
    "understeer_near_limit",
    "understeer_gradient_near_limit",
    "roll_near_limit",
    "braking_in_bend_balance",
)


@pytest.mark.parametrize("name", BEND)
def test_the_bend_computes_on_a_car_that_tells_nothing(name: str) -> None:
    values = evaluate("car: {body: {kind: unitary}}\n").result(name).value
    assert np.isfinite(values).all()


def test_a_gentle_bend_has_the_gradient_that_is_made_of_its_causes() -> None:
    # The curve's own slope at its start against the sum of causes taken without load transfer.
    build = evaluate(CAR)
    near = build.value("understeer_gradient_near_limit")
    assert near > build.value("understeer_gradient") > 0.0


def test_the_family_of_tyre_goes_by_its_size_unless_told() -> None:
    text = CAR + "options: {tyres: {it: {size: SIZE}}}\n"
    bias, radial = (
        evaluate(text.replace("SIZE", size)).value("cornering_limit")
        for size in ("5.60-13", "185/65R15 88H")
    )
    sticky = text.replace("SIZE", "185/65R15 88H, family: sticky")
    assert bias < radial < evaluate(sticky).value("cornering_limit")
