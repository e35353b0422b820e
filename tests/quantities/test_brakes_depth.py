"""Valves, circuits, servos, hot stops and sizing of a build: what follows from what."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from tests.building import BARE, Evaluated, evaluate
from tests.quantities.test_brakes import CAR, car

from drybuild.quantities.brakes import adhesions_at
from drybuild.quantities.brakes_sizing import RATES
from drybuild.tables.brakes import master_cylinder_bores


def loaded(hydraulics: str) -> Evaluated:
    """The invented car with four people aboard."""
    text = CAR.replace(" EXTRA", f", {hydraulics}").replace("occupants: 0", "occupants: 4")
    return evaluate(text, samples=20)


def test_a_valve_that_feels_the_load_lets_the_laden_rear_do_more() -> None:
    knee = "valve_knee: 30 bar, valve_slope: 0.3"
    fixed, felt, inertia = (
        loaded(f"{knee}, valve: {kind}")
        for kind in ("fixed", "load-sensing", "deceleration-sensing")
    )
    torque = [one.value("brake_torque", "rear") for one in (fixed, felt, inertia)]
    assert torque[1] > torque[0]
    assert torque[2] > torque[0]
    # The light car does not ask what kind of valve it is.
    shares = {one.value("front_brake_share") for one in (fixed, felt, inertia)}
    assert len(shares) == 1


def test_a_deceleration_valve_has_its_knee_at_one_rate_whatever_the_load() -> None:
    found = loaded("valve_knee: 30 bar, valve_slope: 0.3, valve: deceleration-sensing")
    line, laden = (found.result(name).value for name in ("brake_line", "laden_brake_line"))
    cars = [found.result(name).value for name in ("kerb_stance", "laden_stance")]
    rates = [
        one.total(one.knee)[0] / of.weight[0] for one, of in zip((line, laden), cars, strict=True)
    ]
    assert rates[0] == pytest.approx(rates[1])


def test_a_known_laden_knee_is_taken() -> None:
    found = loaded(
        "valve_knee: 30 bar, valve_slope: 0.3, valve: load-sensing, laden_valve_knee: 50 bar"
    )
    assert float(found.result("laden_brake_line").value.knee[0]) == pytest.approx(50e5)


@pytest.mark.parametrize(
    ("circuits", "labels"),
    [
        ("front and rear", {"rear circuit", "front circuit"}),
        ("diagonal", {"either diagonal"}),
        ("front halves and a rear wheel each", {"either circuit"}),
        ("front halves, one with the rear", {"circuit with the rear", "circuit without the rear"}),
    ],
)
def test_what_a_failed_circuit_leaves(circuits: str, labels: set[str]) -> None:
    found = car(f"circuits: '{circuits}'")
    decelerations = found.result("secondary_deceleration").labelled()
    distances = found.result("secondary_stopping_distance").labelled()
    travels = found.result("pedal_travel_share_circuit_failed").labelled()
    assert set(decelerations) == set(distances) == set(travels) == labels
    whole = found.value("pedal_limited_deceleration")
    for one in decelerations.values():
        assert 0.0 < one[0] < whole
    # An empty chamber costs more pedal than both circuits whole.
    assert all(one[0] > found.value("pedal_travel_share") for one in travels.values())


def test_half_the_front_pistons_and_one_rear_wheel_are_half_of_everything() -> None:
    found = car("circuits: front halves and a rear wheel each", adhesion="3")
    half = found.value("pedal_limited_deceleration") / 2
    assert found.value("secondary_deceleration", "either circuit") == pytest.approx(half)


def test_an_electric_servo_has_its_knee_and_its_failure() -> None:
    found = car("booster: electric, booster_gain: 4, booster_assist: 3 kN", pedal_ratio="4")
    assert found.value("booster_knee_pedal_force") == pytest.approx(3000 / 3 / 4)
    assert found.value("stopping_distance_without_booster") > found.value(
        "stopping_distance_100_kmh"
    )
    assert found.value("secondary_pedal_force_without_booster") > 0.0


def test_air_play_give_and_knock_back_lengthen_the_pedal() -> None:
    plain = car().value("pedal_travel_at_0_9g")
    assert car("air: 2 cm³").value("pedal_travel_at_0_9g") > plain
    assert car("pedal_stiffness: 100 N/mm").value("pedal_travel_at_0_9g") == pytest.approx(
        plain + car().value("pedal_force_at_0_9g") / 1e5
    )
    assert car(free_play="5 mm").value("pedal_travel_at_0_9g") == pytest.approx(plain + 0.005)
    pushed = CAR.replace(" EXTRA", "").replace(
        "friction: 0.38,", "friction: 0.38, caliper_kind: fixed, knock_back: 0.2 mm,"
    )
    assert evaluate(pushed, samples=20).value("pedal_travel_to_touch") > car().value(
        "pedal_travel_to_touch"
    )
    floats = pushed.replace("caliper_kind: fixed", "caliper_kind: sliding")
    assert evaluate(floats, samples=20).value("pedal_travel_to_touch") == pytest.approx(
        car().value("pedal_travel_to_touch")
    )


def test_air_makes_the_pedal_soft() -> None:
    assert car("air: 3 cm³").value("pedal_firmness") < car().value("pedal_firmness")


def test_the_engine_spares_the_brakes_downhill() -> None:
    found = evaluate(BARE, samples=50)
    for axle in ("front", "rear"):
        in_gear = found.value("rotor_temperature_descent_in_gear", axle)
        assert in_gear < found.value("rotor_temperature_descent", axle)


def test_a_convection_known_by_trial_is_used_on_the_descent() -> None:
    known = CAR.replace(" EXTRA", "").replace(
        "friction: 0.38,", "friction: 0.38, slow_convection: 90 W/(m²·K),"
    )
    assert evaluate(known, samples=20).value("rotor_temperature_descent", "front") < car().value(
        "rotor_temperature_descent", "front"
    )


def test_linings_that_fade_less_stop_better_when_hot() -> None:
    def hot(fade: str) -> float:
        text = CAR.replace(" EXTRA", "").replace("friction: 0.38,", f"friction: 0.38, {fade},")
        return evaluate(text, samples=20).value("hot_deceleration_share")

    assert hot("fade_resistance: 0") < hot("fade_resistance: 0.5") < hot("fade_resistance: 1")


def test_work_of_the_linings_by_hand() -> None:
    # 540.1 kJ, half the front share (0.7544), two pads of 35 cm²; 100 km/h at 0.5 g is 5.665 s.
    text = CAR.replace(" EXTRA", "").replace("friction: 0.38,", "friction: 0.38, pad_area: 35 cm²,")
    found = evaluate(text, samples=20)
    work = found.value("lining_work", "front")
    assert work / 1e6 == pytest.approx(540.1e3 * 0.7544 / 2 / 7000, rel=2e-3)
    assert found.value("lining_work_rate", "front") == pytest.approx(work / 5.665, rel=1e-3)


def test_a_transmission_drum_works_through_the_final_drive() -> None:
    def held(drive: float) -> float:
        text = (
            f"{BARE}options: {{parking_brake: {{p: {{kind: transmission drum}}}}, "
            f"axle: {{a: {{final_drive: {drive}}}}}}}\n"
        )
        return evaluate(text, samples=20).value("parking_brake_force")

    assert held(4.4) == pytest.approx(1.1 * held(4.0))


def test_a_measured_lever_has_its_ratio_from_its_lengths() -> None:
    text = f"{BARE}options: {{parking_brake: {{p: {{lever_length: 280 mm, lever_arm: 40 mm}}}}}}\n"
    assert evaluate(text, samples=20).value("parking_lever_ratio") == pytest.approx(7.0)


def test_the_sizing_agrees_with_the_sheet_at_the_fitted_pedal() -> None:
    found = car("pedal_stiffness: 200 N/mm")
    sizing, feel = (found.result(name).value for name in ("pedal_sizing", "pedal_feel"))
    force = sizing.force(feel.bore, feel.ratio)
    share = sizing.travel_share(feel.bore, feel.ratio)
    assert force[0] == pytest.approx(found.value("pedal_force_at_0_9g"))
    assert share[0] == pytest.approx(found.value("pedal_travel_share"))


def test_the_best_pair_is_no_worse_than_any_near_the_fitted_pedal() -> None:
    sizing = car().result("pedal_sizing").value
    name, ratio = sizing.best()

    def worst(bore: float, at: float) -> float:
        return float(max(sizing.force(bore, at)[0] / 500, sizing.travel_share(bore, at)[0] / 0.6))

    best = worst(master_cylinder_bores()[name], ratio)
    fitted = float(sizing.fitted_ratio[0])
    assert all(best <= worst(bore, fitted) + 1e-9 for bore in master_cylinder_bores().values())


def test_the_same_piston_changes_nothing() -> None:
    found = car()
    rows = found.result("piston_choices").value
    same = next(one for one in rows if one.axle == "front" and one.fitted)
    assert same.force[0] == pytest.approx(found.value("pedal_force_at_0_9g"))
    larger = next(one for one in rows if one.axle == "front" and one.diameter > 0.0565)
    assert larger.force[0] < same.force[0]
    assert larger.front_share[0] > same.front_share[0]


def test_the_best_valve_agrees_with_a_finer_search() -> None:
    # A car whose rear drums do too much: every other knee and slope that keeps the front first
    # uses less of the grip.
    found = car(piston_diameter="36 mm")
    none, fixed, _ = found.result("valve_settings").value
    assert none.lead["kerb weight"] < 0.0
    assert fixed.lead["kerb weight"] >= 0.0
    tried = found.result("brake_line").value
    stance = found.result("kerb_stance").value
    use = 0.5 * sum(fixed.efficiency.values())
    for knee in (10e5, 20e5, 40e5):
        for slope in (0.2, 0.4, 0.6):
            line = replace(tried, knee=np.array([knee]), slope=np.array([slope]))
            front, rear = (one[:, 0] for one in adhesions_at(line, stance, RATES[:, np.newaxis]))
            if np.min(front - rear) >= 0.0:
                assert np.mean(RATES / np.maximum(front, rear)) <= use + 0.02


def test_the_unassisted_brakes_are_known_on_a_bare_build() -> None:
    found = evaluate(BARE, samples=100).result("unassisted_brakes").value
    assert np.isfinite(found.disc).all()
    assert found.bore in master_cylinder_bores()
    assert np.all(found.hot_distance >= found.distance - 1e-9)
