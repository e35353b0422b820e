"""Charging and starting: loads against the alternator, battery reserve, the starter's loop."""

from __future__ import annotations

import numpy as np

from drybuild.errors import MissingInput
from drybuild.physics.charging import (
    alternator_output,
    battery_resistance,
    cranking_voltage,
    parked_time,
    reserve_time,
    shaft_power,
)
from drybuild.physics.electrics import resistance_when_warm, voltage_drop
from drybuild.project.cooling import Cooling
from drybuild.project.electrics import Alternator, Battery, Wiring
from drybuild.project.engine import Engine
from drybuild.project.samples import Values
from drybuild.quantities.electrics_circuits import CircuitAsBuilt
from drybuild.quantities.graph import Parts
from drybuild.quantities.quantity import Labelled, quantity, step
from drybuild.tables.electrics import SITUATIONS, iec_resistance

CARRIED_BY_CIRCUITS = ("engine", "fuel_system", "radiator", "wiring", "alternator", "battery")
"""Systems whose current a circuit carries already, or that draw none of their own."""
WARM = 333.15  # [K], battery cables in the engine bay; common practice
NIGHT_IDLE, CRUISE_DAY, CRUISE_NIGHT = SITUATIONS
ESSENTIAL = ("ignition", "fuel pump")
"""What must go on to get home by day when nothing charges."""


@quantity("A", "Current that other fitted parts draw", source="definition", aggregate=True)
def added_current(parts: Parts, wiring: Wiring) -> Values:
    """Add up the current of every picked option that no named circuit carries already."""
    total = np.zeros_like(wiring.cabin_air)
    for system, part in parts.items():
        if system not in CARRIED_BY_CIRCUITS and part.picked.has("current"):
            total = total + part.picked.current
    return total


@step("What the circuits draw together that no other part sets", source="bosch-handbook-electrics")
def harness_load(circuits_of_the_harness: dict[str, CircuitAsBuilt]) -> dict[str, Values | int]:
    """Weigh each circuit's current by the share of the time that it is on."""
    return _drawn(circuits_of_the_harness)


@step("What all circuits draw together", source="bosch-handbook-electrics")
def circuits_load(
    harness_load: dict[str, Values | int],
    fan_circuit: dict[str, CircuitAsBuilt],
    pump_circuit: dict[str, CircuitAsBuilt],
    ignition_circuit: dict[str, CircuitAsBuilt],
) -> dict[str, Values | int]:
    """Add those of fan, pump and ignition."""
    set_by_parts = _drawn({**fan_circuit, **pump_circuit, **ignition_circuit})
    return {situation: load + set_by_parts[situation] for situation, load in harness_load.items()}


@quantity("A", "Electrical load", per="situation", source="bosch-handbook-electrics")
def electrical_load(circuits_load: dict[str, Values | int], added_current: Values) -> Labelled:
    """Add what other fitted parts draw to what the circuits do."""
    return {situation: added_current + load for situation, load in circuits_load.items()}


@quantity("A", "Current that the alternator can give", per="situation", source="sae-j56")
def alternator_current(alternator: Alternator, engine: Engine, cooling: Cooling) -> Labelled:
    """Turn it at idle, and at the engine speed of a fast road; hot, as it works."""
    speeds = {
        NIGHT_IDLE: engine.idle_speed,
        CRUISE_DAY: cooling.fast_road_engine_speed,
        CRUISE_NIGHT: cooling.fast_road_engine_speed,
    }
    return {
        situation: np.asarray(
            alternator_output(
                speed=speed * alternator.pulley_ratio,
                cut_in_speed=alternator.cut_in_speed,
                rated_output=alternator.output * alternator.hot_share,
                rated_speed=alternator.rated_speed,
            )
        )
        for situation, speed in speeds.items()
    }


@quantity(
    "A", "Alternator's current less the load", per="situation", source="bosch-handbook-electrics"
)
def alternator_margin(alternator_current: Labelled, electrical_load: Labelled) -> Labelled:
    """Subtract the load; below zero the battery makes up the rest."""
    return {name: gives - electrical_load[name] for name, gives in alternator_current.items()}


@quantity(
    "-", "Alternator's current over the load", per="situation", source="bosch-handbook-electrics"
)
def alternator_cover(alternator_current: Labelled, electrical_load: Labelled) -> Labelled:
    """Divide by the load."""
    return {name: gives / electrical_load[name] for name, gives in alternator_current.items()}


@quantity("A", "Rated current that the alternator should have", source="bosch-handbook-electrics")
def alternator_output_wanted(
    alternator_current: Labelled, electrical_load: Labelled, alternator: Alternator
) -> Values:
    """Scale its rating until idle carries its load and cruising 1.25 times its own."""
    asked = {NIGHT_IDLE: 1.0, CRUISE_DAY: 1.25, CRUISE_NIGHT: 1.25}
    needs = [
        factor * electrical_load[name] / alternator_current[name] for name, factor in asked.items()
    ]
    return np.asarray(alternator.output * np.maximum.reduce(needs))


@quantity(
    "W",
    "Power that the alternator takes from its belt, cruising by night",
    source="bosch-handbook-electrics",
)
def alternator_belt_power(
    alternator_current: Labelled, electrical_load: Labelled, alternator: Alternator
) -> Values:
    """Let it give what the load asks, as far as it can."""
    current = np.minimum(alternator_current[CRUISE_NIGHT], electrical_load[CRUISE_NIGHT])
    return np.asarray(
        shaft_power(voltage=alternator.voltage, current=current, efficiency=alternator.efficiency)
    )


@quantity(
    "s",
    "How long the battery makes up for the alternator at idle",
    source="peukert-1897",
    shown="h",
)
def idle_time_on_battery(alternator_margin: Labelled, battery: Battery) -> Values:
    """Draw the shortfall from the usable charge; a day where there is none."""
    short = np.maximum(-alternator_margin[NIGHT_IDLE], 1e-6)
    time = battery.capacity * battery.usable_share / short
    return np.minimum(time, 86400.0)


@quantity(
    "s",
    "How long the battery keeps the engine going by day when nothing charges",
    source="peukert-1897",
    shown="min",
)
def battery_reserve_time(circuits: dict[str, CircuitAsBuilt], battery: Battery) -> Values:
    """Draw ignition and fuel pump by Peukert's rule from the reserve capacity."""
    loads = [circuit.current for name, circuit in circuits.items() if name in ESSENTIAL]
    if not loads:
        raise MissingInput("options.wiring", f"there is no circuit called {' or '.join(ESSENTIAL)}")
    return np.asarray(
        reserve_time(
            reserve_capacity=battery.reserve_capacity,
            current=np.sum(loads, axis=0),
            exponent=battery.peukert,
        )
    )


@quantity("s", "How long the parked car still starts", source="definition", shown="days")
def parked_battery_time(battery: Battery) -> Values:
    """Draw what runs with everything off from the usable charge."""
    return np.asarray(
        parked_time(
            capacity=battery.capacity,
            usable_share=battery.usable_share,
            drain=battery.parked_drain,
        )
    )


@quantity("Ω", "Resistance of the starter's loop", source="iec-60228", shown="mΩ")
def starter_loop_resistance(wiring: Wiring) -> Values:
    """Add the cable to the earth path with its joints."""
    cable = wiring.battery_cable_length * _per_metre(wiring.battery_cable_area)
    return cable + wiring.earth_resistance


@quantity("V", "Voltage lost between battery and starter", source="iec-60028")
def starter_cable_drop(starter_loop_resistance: Values, engine: Engine, wiring: Wiring) -> Values:
    """Multiply the cranking current by the resistance of the loop."""
    engine.require_piston()
    return np.asarray(
        voltage_drop(current=wiring.starter_current, resistance=starter_loop_resistance)
    )


@quantity("V", "Voltage at the starter, cold", source="sae-j537")
def starter_voltage(
    starter_loop_resistance: Values, engine: Engine, battery: Battery, wiring: Wiring
) -> Values:
    """Take the battery's resistance at -18 °C from its cold cranking current."""
    engine.require_piston()
    return np.asarray(
        cranking_voltage(
            rest_voltage=battery.rest_voltage,
            current=wiring.starter_current,
            internal_resistance=battery_resistance(
                cold_cranking_current=battery.cold_cranking_current
            ),
            loop_resistance=starter_loop_resistance,
        )
    )


@quantity("-", "Cold cranking current over what the starter draws", source="sae-j537")
def cranking_reserve(engine: Engine, battery: Battery, wiring: Wiring) -> Values:
    """Divide the two."""
    engine.require_piston()
    return battery.cold_cranking_current / wiring.starter_current


@quantity("V", "Voltage lost between alternator and battery at rated current", source="iec-60028")
def charging_cable_drop(alternator: Alternator, wiring: Wiring) -> Values:
    """Carry the rated current through the cable and back through the earth path."""
    cable = wiring.charging_cable_length * _per_metre(wiring.charging_cable_area)
    return np.asarray(
        voltage_drop(current=alternator.output, resistance=cable + wiring.earth_resistance)
    )


def _per_metre(area: Values) -> Values:
    """Return a warm flexible cable's resistance per metre, between the sizes of IEC 60228."""
    table = iec_resistance(5)
    sizes = np.log(np.array([*table]) * 1e-6)
    cold = np.exp(np.interp(np.log(area), sizes, np.log([*table.values()]), np.nan, np.nan))
    return np.asarray(resistance_when_warm(resistance_at_20c=cold, temperature=WARM))


def _drawn(circuits: dict[str, CircuitAsBuilt]) -> dict[str, Values | int]:
    """Return the current of circuits by situation, each by the share of the time it is on."""
    return {
        situation: sum(circuit.current * circuit.duty[place] for circuit in circuits.values())
        for place, situation in enumerate(SITUATIONS)
    }
