"""Brake sums: limits, symmetry, refusals."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from drybuild.errors import InputError
from drybuild.physics.brakes import (
    actuation,
    balance,
    friction,
    heat,
    parking,
    pedal,
    pressures,
    shoes,
    stopping,
    valve,
    warming,
)
from drybuild.physics.brakes.warming import Rotor

CAR = {"front_share": 0.52, "height_ratio": 0.2}


@given(
    force=st.floats(1.0, 1000.0),
    gain=st.floats(1.0, 8.0),
    assist=st.floats(0.0, 4000.0),
)
def test_the_pedal_and_the_pressure_are_inverse(force: float, gain: float, assist: float) -> None:
    line = {"pedal_ratio": 5.0, "efficiency": 0.9, "bore": 0.0222, "gain": gain, "assist": assist}
    pressure = actuation.pressure_for_pedal_force(pedal_force=force, **line)
    back = actuation.pedal_force_for_pressure(pressure=pressure, **line)
    assert back == pytest.approx(force, rel=1e-9)


def test_a_dead_booster_passes_the_foot_alone() -> None:
    assert actuation.booster_output(input_force=500.0, gain=4.0, assist=0.0) == 500.0
    assert actuation.booster_output(input_force=500.0, gain=1.0, assist=2000.0) == 500.0


def test_at_the_knee_both_branches_meet() -> None:
    knee = float(actuation.booster_knee(gain=4.0, assist=2086.0))
    out = actuation.booster_output(input_force=knee, gain=4.0, assist=2086.0)
    assert out == pytest.approx(4.0 * knee)
    assert np.isnan(actuation.booster_knee(gain=1.0, assist=0.0))


def test_half_the_vacuum_gives_half_the_assist() -> None:
    booster = {"diameter": 0.2, "rod_diameter": 0.03, "diaphragms": 1.0, "efficiency": 0.95}
    full = actuation.booster_assist(depression=67.7e3, **booster)
    half = actuation.booster_assist(depression=33.85e3, **booster)
    assert half == pytest.approx(full / 2)


def test_no_valve_is_a_knee_that_never_comes() -> None:
    same = actuation.proportioned_pressure(pressure=5e6, knee=np.inf, slope=0.3)
    assert same == 5e6
    held = actuation.proportioned_pressure(pressure=np.array([1e6, 5e6]), knee=3e6, slope=0.0)
    assert list(held) == [1e6, 3e6]


def test_a_smaller_bore_moves_the_pedal_further() -> None:
    small = actuation.pedal_travel(volume=5e-6, bore=0.019, pedal_ratio=5.0)
    large = actuation.pedal_travel(volume=5e-6, bore=0.025, pedal_ratio=5.0)
    assert small / large == pytest.approx((0.025 / 0.019) ** 2)


def test_a_thin_band_has_one_effective_radius() -> None:
    thin = {"outer_radius": 0.1200001, "inner_radius": 0.12}
    worn = friction.effective_radius_uniform_wear(**thin)
    fresh = friction.effective_radius_uniform_pressure(**thin)
    assert worn == pytest.approx(fresh, rel=1e-6)


def test_new_pads_act_further_out_than_bedded_ones() -> None:
    band = {"outer_radius": 0.138, "inner_radius": 0.092}
    assert friction.effective_radius_uniform_pressure(
        **band
    ) > friction.effective_radius_uniform_wear(**band)


def test_a_shoe_locks_itself_when_friction_reaches_the_arms_ratio() -> None:
    arms = {"actuation_arm": 0.2, "normal_arm": 0.1, "friction_arm": 0.115}
    assert np.isnan(friction.leading_shoe_factor(friction=0.87, **arms))
    assert friction.leading_shoe_factor(friction=0.869, **arms) > 100.0
    assert np.isnan(friction.duo_servo_factor(friction=0.9, **arms))


def test_a_short_friction_arm_makes_leading_and_trailing_alike() -> None:
    arms = {"friction": 0.35, "actuation_arm": 0.2, "normal_arm": 0.1, "friction_arm": 1e-9}
    assert friction.leading_shoe_factor(**arms) == pytest.approx(
        friction.trailing_shoe_factor(**arms)
    )


def test_the_order_of_drum_kinds() -> None:
    arms = {"friction": 0.38, "actuation_arm": 0.2, "normal_arm": 0.1, "friction_arm": 0.115}
    leading = friction.leading_shoe_factor(**arms)
    trailing = friction.trailing_shoe_factor(**arms)
    simplex = friction.simplex_factor(leading=leading, trailing=trailing)
    cam = friction.equal_wear_simplex_factor(leading=leading, trailing=trailing)
    assert cam < simplex < friction.duplex_factor(leading=leading)
    assert friction.duplex_factor(leading=leading) < friction.duo_servo_factor(**arms)


def test_nothing_brakes_below_the_threshold() -> None:
    torque = friction.brake_torque(
        pressure=np.array([0.0, 4e5, 2e6]),
        threshold_pressure=5e5,
        piston_area=3e-4,
        brake_factor=2.0,
        radius=0.114,
    )
    assert list(torque[:2]) == [0.0, 0.0]
    assert torque[2] == pytest.approx(2.0 * 1.5e6 * 3e-4 * 0.114)


def test_axle_loads_add_up_to_the_weight() -> None:
    for rate in (0.0, 0.4, 1.1):
        both = balance.front_load(braking_rate=rate, **CAR) + balance.rear_load(
            braking_rate=rate, **CAR
        )
        assert both == pytest.approx(1.0)


@given(rate=st.floats(0.01, 1.2))
def test_on_the_ideal_curve_both_axles_use_the_same_adhesion(rate: float) -> None:
    share = float(balance.ideal_front_share(braking_rate=rate, **CAR))
    front = balance.front_adhesion_used(front_force=share * rate, braking_rate=rate, **CAR)
    rear = balance.rear_adhesion_used(rear_force=(1 - share) * rate, braking_rate=rate, **CAR)
    assert front == pytest.approx(rate)
    assert rear == pytest.approx(rate)
    parabola = balance.ideal_rear_force(front_force=share * rate, **CAR)
    assert parabola == pytest.approx((1 - share) * rate, abs=1e-12)


def test_at_the_critical_rate_both_axles_lock_together() -> None:
    critical = float(balance.critical_braking_rate(brake_share=0.7, **CAR))
    lock = {"brake_share": 0.7, "adhesion": critical, **CAR}
    assert balance.front_lock_rate(**lock) == pytest.approx(critical)
    assert balance.rear_lock_rate(**lock) == pytest.approx(critical)


def test_lifted_rear_wheels_use_no_adhesion_that_could_be_named() -> None:
    used = balance.rear_adhesion_used(rear_force=0.1, braking_rate=2.5, **CAR)
    assert np.isnan(used)


def test_a_front_that_never_locks_has_no_lock_rate() -> None:
    rate = balance.front_lock_rate(brake_share=0.1, adhesion=0.9, **CAR)
    assert np.isnan(rate)


def test_lock_pressure_agrees_with_the_closed_form_for_a_fixed_share() -> None:
    weight, adhesion, share = 13000.0, np.array([0.2, 0.5, 0.8]), 0.65
    slope = 1.6e-3  # [N/Pa], any
    where = {"adhesion": adhesion, "weight": weight, **CAR}
    for axle, closed in ((0, balance.front_lock_rate), (1, balance.rear_lock_rate)):
        pressure = pressures.lock_pressure(
            front_force_at=lambda p: share * slope * p,
            rear_force_at=lambda p: (1 - share) * slope * p,
            kinks=(),
            axle=axle,
            **where,
        )
        wanted = closed(brake_share=share, adhesion=adhesion, **CAR)
        assert slope * pressure / weight == pytest.approx(wanted, rel=1e-9)


def test_a_force_beyond_reach_has_no_pressure() -> None:
    found = pressures.pressure_for_force(
        force=np.array([1e3, 1e9]),
        force_at=lambda p: 1e-3 * np.maximum(p - 1e5, 0.0),
        kinks=(1e5,),
    )
    assert found[0] == pytest.approx(1e6 + 1e5)
    assert np.isnan(found[1])


def test_the_pressure_behind_thresholds_and_a_valve_gives_back_the_force() -> None:
    knee, slope, front_at, rear_at = 3e6, 0.3, 5e4, np.array([4e5, 6e5, 5e6])

    def total(pressure: np.ndarray) -> np.ndarray:
        behind = actuation.proportioned_pressure(pressure=pressure, knee=knee, slope=slope)
        rear = 0.5e-3 * np.maximum(behind - rear_at, 0.0)
        return np.asarray(1e-3 * np.maximum(pressure - front_at, 0.0) + rear)

    after_knee = np.where(rear_at > knee, knee + (rear_at - knee) / slope, rear_at)
    for force in (10.0, 300.0, 2500.0, 6000.0, 15000.0):
        pressure = pressures.pressure_for_force(
            force=force, force_at=total, kinks=(front_at, after_knee, knee)
        )
        assert total(pressure) == pytest.approx(np.full(3, force), rel=1e-9)


def test_a_stop_without_delay_is_the_schoolbook_one() -> None:
    assert stopping.stopping_distance(speed=20.0, deceleration=5.0, delay=0.0) == 40.0
    assert stopping.stopping_time(speed=20.0, deceleration=5.0) == 4.0


def test_a_sample_without_a_deceleration_has_no_distance() -> None:
    found = stopping.stopping_distance(speed=20.0, deceleration=np.array([5.0, np.nan]), delay=0.0)
    assert found[0] == 40.0
    assert np.isnan(found[1])


def rotor(**changed: float) -> Rotor:
    """A front disc of 7 kg: 7.2 W/K at 100 km/h, no radiation and no hub unless named."""
    usual: dict[str, float] = {
        "heat_capacity": 3500.0,
        "cooling_area": 0.12,
        "radiating_area": 0.06,
        "emissivity": 0.0,
        "hub_conductance": 0.0,
        "fast_convection": 60.0,
        "fast_speed": 100 / 3.6,
        "still_convection": 6.0,
    }
    return Rotor(**{**usual, **changed})


STOPS = {
    "air": 300.0,
    "heat": 189e3,
    "interval": 45.0,
    "braking_time": 5.0,
    "speed_from": 100 / 3.6,
    "speed_to": 0.0,
}


def test_stops_without_cooling_pile_up_and_with_it_settle() -> None:
    closed = rotor(cooling_area=0.0)
    found = warming.stops_temperature(rotor=closed, stops=10, **STOPS)
    assert found[-1] == pytest.approx(300.0 + 10 * 54.0)
    many = warming.stops_temperature(rotor=rotor(), stops=200, **STOPS)
    assert many[-1] == pytest.approx(many[-2], abs=1e-4)
    assert np.all(np.diff(many) >= -1e-9)


@pytest.mark.parametrize("change", [{"emissivity": 0.8}, {"hub_conductance": 1.0}])
def test_radiation_and_hub_cool(change: dict[str, float]) -> None:
    plain = warming.stops_temperature(rotor=rotor(), stops=15, **STOPS)[-1]
    assert warming.stops_temperature(rotor=rotor(**change), stops=15, **STOPS)[-1] < plain - 5.0


def test_a_long_descent_settles_and_a_short_one_stores() -> None:
    drag = {"air": 300.0, "power": 3000.0, "speed": 100 / 3.6, "steps": 20}
    settled = warming.drag_temperature(rotor=rotor(), time=1e6, **drag)[-1]
    assert settled == pytest.approx(300.0 + 3000.0 / 7.2)
    short = warming.drag_temperature(rotor=rotor(), time=1e-3, **drag)[-1]
    assert short - 300.0 == pytest.approx(3000.0 * 1e-3 / 3500.0, rel=1e-5)


def test_stops_closer_than_a_stop_is_long_are_refused() -> None:
    with pytest.raises(InputError, match="longer than a stop"):
        warming.stops_temperature(rotor=rotor(), stops=2, **{**STOPS, "interval": 4.0})


def test_standing_air_is_the_floor_of_convection() -> None:
    given = {"fast": 60.0, "fast_speed": 27.8, "still": 6.0}
    assert warming.convection_over_speed(speed=0.0, **given) == 6.0
    assert warming.convection_over_speed(speed=27.8, **given) == 60.0


def test_air_in_the_line_takes_its_own_volume_at_most() -> None:
    found = pedal.trapped_air_volume(air=2e-6, pressure=np.array([0.0, 9 * 101325.0, 1e9]))
    assert found == pytest.approx([0.0, 1.8e-6, 2e-6], rel=1e-3)


def test_the_travel_lines_and_the_force_lines_give_back_what_they_were_drawn_for() -> None:
    ratio = pedal.ratio_for_travel(travel=0.09, free_play=0.004, volume=6e-6, bore=0.0206)
    moved = actuation.pedal_travel(volume=6e-6, bore=0.0206, pedal_ratio=ratio)
    assert moved + 0.004 == pytest.approx(0.09)
    assert pedal.ratio_for_force(rod_force=1800.0, pedal_force=300.0) == 6.0


def test_a_pinned_shoe_of_short_lining_is_the_lever_model() -> None:
    # A lining of no length presses in one place, which is what the lever model takes.
    leading, trailing = shoes.pinned_shoe_factors(
        friction=0.38, actuation_arm=1.75, hinge_radius=0.88, lining_arc=0.01
    )
    arms = {"friction": 0.38, "actuation_arm": 1.75, "normal_arm": 0.88, "friction_arm": 1.0}
    assert leading == pytest.approx(friction.leading_shoe_factor(**arms), rel=1e-4)
    assert trailing == pytest.approx(friction.trailing_shoe_factor(**arms), rel=1e-4)


def test_a_valve_that_feels_the_load_has_its_knee_in_proportion() -> None:
    assert valve.knee_by_load(knee=30e5, light_load=4000.0, load=6000.0) == pytest.approx(45e5)


def test_no_descent_needs_no_brakes() -> None:
    power = heat.descent_power(
        mass=1400.0,
        gravity=9.80665,
        speed=20.0,
        grade=0.0,
        rolling_resistance=0.012,
        drag_area=0.8,
        air_density=1.2,
        engine_braking=0.0,
    )
    assert power == 0.0


def test_parking_on_the_steepest_grade_needs_all_the_adhesion() -> None:
    for facing in (1, -1):
        grade = float(parking.largest_grade_by_adhesion_rear(adhesion=0.8, facing=facing, **CAR))
        needed = parking.adhesion_needed_rear(grade=grade, facing=facing, **CAR)
        assert needed == pytest.approx(0.8)


def test_the_holding_force_gives_back_its_grade() -> None:
    force = parking.holding_force(weight=13000.0, grade=0.2)
    assert parking.largest_grade_by_force(force=force, weight=13000.0) == pytest.approx(0.2)
    assert np.isinf(parking.largest_grade_by_force(force=14000.0, weight=13000.0))


def test_two_brakes_share_the_levers_pull() -> None:
    torque = parking.cable_brake_torque(
        hand_force=400.0,
        lever_ratio=6.0,
        cable_efficiency=0.5,
        brake_ratio=4.0,
        brake_factor=2.0,
        radius=0.1,
    )
    assert torque == pytest.approx(400 * 6 * 0.5 / 2 * 4 * 2 * 0.1)


def test_least_rates_hold_only_where_the_clause_does() -> None:
    for rule in (balance.least_rate_eec_71_320, balance.least_rate_ece_r13h):
        assert np.isnan(rule(adhesion=0.1))
        assert rule(adhesion=0.2) == pytest.approx(0.1)


@pytest.mark.parametrize(
    "refused",
    [
        lambda: actuation.bore_area(diameter=0.0),
        lambda: actuation.booster_output(input_force=1.0, gain=0.5, assist=0.0),
        lambda: actuation.line_pressure(rod_force=1.0, bore=0.02, efficiency=1.2),
        lambda: actuation.proportioned_pressure(pressure=1.0, knee=1.0, slope=1.5),
        lambda: friction.disc_brake_factor(friction=0.0),
        lambda: friction.effective_radius_uniform_wear(outer_radius=0.1, inner_radius=0.1),
        lambda: balance.front_load(front_share=1.2, height_ratio=0.2, braking_rate=0.5),
        lambda: balance.critical_braking_rate(brake_share=1.5, **CAR),
        lambda: stopping.stopping_distance(speed=10.0, deceleration=0.0, delay=0.0),
        lambda: heat.one_stop_rise(heat=1.0, rotor_mass=0.0, specific_heat=500.0),
        lambda: parking.adhesion_needed_rear(grade=0.1, facing=0, **CAR),
        lambda: stopping.braking_energy(mass=math.nan, speed_begin=1.0, speed_end=0.0),
    ],
)
def test_impossible_inputs_are_refused(refused: object) -> None:
    assert callable(refused)
    with pytest.raises(InputError):
        refused()


def test_the_boosters_input_and_output_are_inverse_on_both_sides_of_the_knee() -> None:
    booster = {"gain": 4.0, "assist": 2086.0}
    for force in (100.0, float(actuation.booster_knee(**booster)), 3000.0):
        out = actuation.booster_output(input_force=force, **booster)
        assert actuation.booster_input(output_force=out, **booster) == pytest.approx(force)


def test_fluid_shrinks_with_pressure_and_air_in_it_shrinks_it_more() -> None:
    fresh = actuation.fluid_volume(filling=150e-6, pressure=70e5, bulk_modulus=1.8e9)
    assert fresh == pytest.approx(150e-6 * 70e5 / 1.8e9)
    assert actuation.fluid_volume(filling=150e-6, pressure=70e5, bulk_modulus=0.9e9) > fresh
    assert actuation.fluid_volume(filling=150e-6, pressure=0.0, bulk_modulus=1.8e9) == 0.0
