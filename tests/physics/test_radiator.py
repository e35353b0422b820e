from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from drybuild.errors import InputError
from drybuild.physics.cooling_air import face_velocity_in_balance, fan_pressure, ram_pressure
from drybuild.physics.radiator import (
    LouvredCore,
    air_side_conductance,
    core_pressure_drop,
    louvre_friction,
    nusselt_gnielinski,
    nusselt_slot,
    nusselt_slot_laminar,
    tube_side_conductance,
)

CORE = LouvredCore(
    depth=0.04,
    fin_pitch=2.0e-3,
    fin_height=9e-3,
    fin_thickness=0.08e-3,
    fin_conductivity=350.0,
    louvre_pitch=1.3e-3,
    louvre_length=7.5e-3,
    louvre_angle=np.radians(25.0),
    tube_thickness=2.2e-3,
    tube_wall=0.2e-3,
)
FRICTION = louvre_friction(core=CORE)
AIR = {"density": 1.13, "viscosity": 1.9e-5}
COOLANT = {"density": 1019.0, "viscosity": 8.2e-4, "specific_heat": 3616.0, "conductivity": 0.43}


def balance(**changed: object) -> float:
    inputs: dict[str, object] = {
        "ram_pressure": 150.0,
        "stalled_pressure": 120.0,
        "free_flow": 0.8,
        "face_area": 0.2,
        "core": CORE,
        "other_loss": 8.0,
    }
    return face_velocity_in_balance(**{**inputs, **changed}, **AIR)


def test_areas_of_the_core_by_hand() -> None:
    # One fin and its share of tube: 2 (9 mm + 1.92 mm) for each 11.2 mm by 2 mm of face, by depth.
    assert CORE.area_per_face / CORE.depth == pytest.approx(2.0 * 10.92e-3 / (11.2e-3 * 2e-3))
    assert CORE.open_share == pytest.approx(0.96 * 9.0 / 11.2)


def test_pressure_and_conductance_rise_with_velocity() -> None:
    speeds = np.linspace(0.5, 15.0, 60)
    drop = core_pressure_drop(face_velocity=speeds, core=CORE, friction=FRICTION, **AIR)
    conductance = air_side_conductance(face_velocity=speeds, core=CORE, **AIR)
    assert np.all(np.diff(drop) > 0.0)
    assert np.all(np.diff(conductance) > 0.0)


def test_friction_sets_nearly_meet_at_150() -> None:
    low = louvre_friction(core=CORE).at(149.99)
    high = louvre_friction(core=CORE).at(150.01)
    assert high == pytest.approx(low, rel=0.15)


def test_deeper_core_carries_more_heat_and_loses_more_pressure() -> None:
    deep = replace(CORE, depth=0.06)
    assert air_side_conductance(face_velocity=4.0, core=deep, **AIR) > air_side_conductance(
        face_velocity=4.0, core=CORE, **AIR
    )
    shallow_drop = core_pressure_drop(face_velocity=4.0, core=CORE, friction=FRICTION, **AIR)
    deep_drop = core_pressure_drop(
        face_velocity=4.0, core=deep, friction=louvre_friction(core=deep), **AIR
    )
    assert deep_drop > shallow_drop


def test_balance_closes() -> None:
    velocity = balance()
    fan = fan_pressure(volume_flow=velocity * 0.2, stalled_pressure=120.0, free_flow=0.8)
    drop = core_pressure_drop(face_velocity=velocity, core=CORE, friction=FRICTION, **AIR)
    assert drop + 8.0 * 0.5 * 1.13 * velocity**2 == pytest.approx(150.0 + fan, rel=1e-4)


def test_stronger_fan_and_faster_car_move_more_air() -> None:
    slow = {"ram_pressure": 20.0}
    assert balance(stalled_pressure=240.0, **slow) > balance(**slow)
    assert balance(ram_pressure=300.0) > balance()
    assert balance(other_loss=16.0) < balance()


def test_nothing_drives_the_air_without_fan_and_speed() -> None:
    assert np.isnan(balance(ram_pressure=0.0, stalled_pressure=0.0))


def test_windmilling_fan_neither_adds_nor_costs() -> None:
    assert fan_pressure(volume_flow=2.0, stalled_pressure=120.0, free_flow=0.8) == 0.0
    without = balance(ram_pressure=2000.0, stalled_pressure=0.0)
    assert balance(ram_pressure=2000.0) == pytest.approx(without, abs=1e-4)  # the halving's step


def test_balance_takes_arrays() -> None:
    found = balance(ram_pressure=np.array([0.0, 100.0, 500.0]))
    assert np.all(np.diff(found) > 0.0)


def test_laminar_slot_tends_to_parallel_plates() -> None:
    long = nusselt_slot_laminar(reynolds=500.0, prandtl=7.0, length=1e7)
    assert long == pytest.approx(7.54, abs=1e-3)


def test_slot_is_continuous_through_the_transition() -> None:
    reynolds = np.linspace(1500.0, 5000.0, 2000)
    nusselt = nusselt_slot(reynolds=reynolds, prandtl=7.0, length=150.0)
    assert np.all(np.diff(nusselt) > 0.0)
    assert np.max(np.diff(nusselt)) < 0.1


def test_gnielinski_says_nothing_of_laminar_flow() -> None:
    assert np.isnan(nusselt_gnielinski(reynolds=2000.0, prandtl=7.0, friction=0.03))


def test_more_coolant_flow_carries_more_heat() -> None:
    flows = np.array([0.3e-3, 1e-3, 3e-3])
    found = tube_side_conductance(
        core=CORE, core_width=0.5, core_height=0.4, volume_flow=flows, **COOLANT
    )
    assert np.all(np.diff(found) > 0.0)


def test_ram_pressure_is_dynamic_pressure() -> None:
    assert ram_pressure(speed=20.0, density=1.2, pressure_coefficient=0.5) == pytest.approx(120.0)


def test_impossible_core_is_refused() -> None:
    with pytest.raises(InputError, match="tube_wall"):
        tube_side_conductance(
            core=replace(CORE, tube_wall=1.2e-3),
            core_width=0.5,
            core_height=0.4,
            volume_flow=1e-3,
            **COOLANT,
        )
    with pytest.raises(InputError, match="face_velocity"):
        core_pressure_drop(face_velocity=0.0, core=CORE, friction=FRICTION, **AIR)
