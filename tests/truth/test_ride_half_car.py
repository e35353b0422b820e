"""The half car against exact theorems, a general solver of its equations, and a simulated road."""

from __future__ import annotations

import math

import numpy as np
import pytest

from drybuild.physics.ride import (
    HalfCar,
    QuarterCar,
    SprungWheel,
    both_axles_on_one_road,
    quarter_car_on_random_road,
    quarter_car_response,
    road_velocity_level,
)
from drybuild.physics.ride_half_car import (
    crossings,
    half_car_spectra,
    pitch_shares,
    resprung,
    rms_on_road,
)

# Two of the quarter cars of Rajamani, ch. 10 (from memory), one at each end.
WHEEL = SprungWheel(unsprung_mass=45.0, spring_rate=16e3, damping=1000.0, tyre_rate=160e3)
AHEAD, BEHIND, SPRUNG = 1.2, 1.3, 500.0
UNCOUPLED = HalfCar(
    front=WHEEL,
    rear=WHEEL,
    sprung_mass=SPRUNG,
    pitch_inertia=SPRUNG * AHEAD * BEHIND,
    front_distance=AHEAD,
    rear_distance=BEHIND,
)
FREQUENCY = np.geomspace(0.05, 200.0, 3000)
LEVEL = float(road_velocity_level(roughness=64e-6, speed=20.0))


def test_ends_do_not_know_of_each_other_where_k_squared_is_a_times_b() -> None:
    # Gillespie ch. 5 (from memory): k²/(a b) = 1 makes front and rear two quarter cars.
    spectra = half_car_spectra(frequency=FREQUENCY, car=UNCOUPLED, speed=20.0)
    for end, share in ((spectra.front, BEHIND / 2.5), (spectra.rear, AHEAD / 2.5)):
        alone = quarter_car_response(
            frequency=FREQUENCY, car=QuarterCar(sprung_mass=SPRUNG * share, wheel=WHEEL)
        )
        assert np.abs(end.stroke) == pytest.approx(np.abs(alone.stroke), rel=1e-9)
        assert np.abs(end.tyre) == pytest.approx(np.abs(alone.tyre), rel=1e-9, abs=1e-12)


def test_stroke_and_tyre_force_are_the_exact_integrals() -> None:
    # James, Nichols and Phillips: closed forms over all frequencies. Above the band
    # the wheel stands still and the tyre follows the road: variance G/((2π)² f).
    exact = quarter_car_on_random_road(
        car=QuarterCar(sprung_mass=SPRUNG * BEHIND / 2.5, wheel=WHEEL), velocity_level=LEVEL
    )
    front = half_car_spectra(frequency=FREQUENCY, car=UNCOUPLED, speed=20.0).front
    known = {"frequency": FREQUENCY, "velocity_level": LEVEL, "order": 0}
    assert rms_on_road(response=front.stroke, **known) == pytest.approx(exact.stroke, rel=5e-3)
    tail = LEVEL / ((2.0 * np.pi) ** 2 * 200.0)
    force = math.sqrt(float(rms_on_road(response=front.tyre, **known)) ** 2 + tail) * 160e3
    assert force == pytest.approx(exact.tyre_force, rel=5e-3)


def test_spectra_solve_the_equations_of_motion() -> None:
    # Independent: numpy's linear solver on the four equations, coupled car (Wong's ride example,
    # from memory: 2120 kg, radius 1.33 m, 1.267 and 1.548 m, 35 and 38 kN/m), with unsprung masses.
    front = SprungWheel(unsprung_mass=90.0, spring_rate=35e3, damping=2800.0, tyre_rate=380e3)
    rear = SprungWheel(unsprung_mass=140.0, spring_rate=38e3, damping=3000.0, tyre_rate=390e3)
    car = HalfCar(
        front=front, rear=rear, sprung_mass=2120.0, pitch_inertia=2120.0 * 1.33**2,
        front_distance=1.267, rear_distance=1.548,
    )  # fmt: skip
    for hertz in (0.7, 1.1, 3.0, 9.0, 25.0):
        s = 2j * math.pi * hertz
        late = np.exp(-s * 2.815 / 25.0)
        links = [one.spring_rate + one.damping * s for one in (front, rear)]
        arms = (1.267, -1.548)
        matrix, road = np.zeros((4, 4), complex), np.zeros(4, complex)
        matrix[0, 0], matrix[1, 1] = 2120.0 * s**2, 2120.0 * 1.33**2 * s**2
        for k, (wheel, link, arm) in enumerate(zip((front, rear), links, arms, strict=True)):
            matrix[0, [0, 1, 2 + k]] += link * np.array([1.0, arm, -1.0])
            matrix[1, [0, 1, 2 + k]] += link * arm * np.array([1.0, arm, -1.0])
            matrix[2 + k, [0, 1]] -= link * np.array([1.0, arm])
            matrix[2 + k, 2 + k] += wheel.unsprung_mass * s**2 + wheel.tyre_rate + link
            road[2 + k] = wheel.tyre_rate * (1.0, late)[k]
        heave, pitch, *wheels = np.linalg.solve(matrix, road)
        found = half_car_spectra(frequency=hertz, car=car, speed=25.0)
        assert found.front.stroke == pytest.approx(heave + 1.267 * pitch - wheels[0])
        assert found.rear.stroke == pytest.approx(heave - 1.548 * pitch - wheels[1])
        assert found.rear.tyre == pytest.approx(wheels[1] - late)
        shares = pitch_shares(frequency=hertz, car=car)
        whole = both_axles_on_one_road(frequency=hertz, shares=shares, speed=25.0)
        assert whole == pytest.approx(pitch)


@pytest.mark.parametrize("waves", [1.0, 2.0])
def test_a_wave_as_long_as_the_wheelbase_does_not_pitch_an_even_car(waves: float) -> None:
    # Gillespie ch. 5 (from memory), wheelbase filtering: whole waves in the wheelbase bounce only.
    even = HalfCar(
        front=WHEEL, rear=WHEEL, sprung_mass=500.0, pitch_inertia=800.0, front_distance=1.25,
        rear_distance=1.25,
    )  # fmt: skip
    frequency = waves * 20.0 / 2.5
    shares = pitch_shares(frequency=frequency, car=even)
    assert abs(both_axles_on_one_road(frequency=frequency, shares=shares, speed=20.0)) < 1e-12
    half = both_axles_on_one_road(
        frequency=frequency / 2.0, shares=pitch_shares(frequency=frequency / 2.0, car=even),
        speed=20.0,
    )  # fmt: skip
    assert (abs(half) > 0.01) == (waves == 1.0)


def test_crossings_of_a_simulated_random_motion() -> None:
    # Rice's rate against a Gaussian signal made of 400 sines, counted over 4000 s.
    random = np.random.default_rng(7)
    hertz = np.linspace(0.5, 2.5, 400)
    amplitude, phase = np.full(400, 0.05), random.uniform(0.0, 2.0 * np.pi, 400)
    time = np.arange(0.0, 4000.0, 0.02)
    signal = np.zeros(time.size)
    for a, f, p in zip(amplitude, hertz, phase, strict=True):
        signal += a * np.sin(2.0 * np.pi * f * time + p)
    motion = math.sqrt(float(np.sum(amplitude**2) / 2.0))
    rate = math.sqrt(float(np.sum((2.0 * np.pi * hertz * amplitude) ** 2) / 2.0))
    for level in (0.0, 0.7, 1.4):
        counted = int(np.sum((signal[:-1] < level) & (signal[1:] >= level))) / 4000.0
        assert crossings(motion=motion, rate=rate, level=level) == pytest.approx(counted, rel=0.06)


def test_damping_trades_comfort_for_contact_about_a_best() -> None:
    # Gillespie ch. 5 (from memory): acceleration is least at light damping, tyre force at more.
    level = np.linspace(0.2, 3.0, 57)
    spectra = half_car_spectra(
        frequency=FREQUENCY[:, None], car=resprung(car=UNCOUPLED, springs=1.0, damping=level),
        speed=20.0,
    )  # fmt: skip
    body = spectra.front.stroke + spectra.front.tyre + 1.0
    shaken = rms_on_road(frequency=FREQUENCY, response=body, velocity_level=LEVEL, order=2)
    loads = rms_on_road(
        frequency=FREQUENCY, response=spectra.front.tyre, velocity_level=LEVEL, order=0
    )
    assert 0 < int(np.argmin(shaken)) < int(np.argmin(loads)) < level.size - 1
