"""Circuits one by one: what they carry, what they lose, how warm they get, wire and fuse wanted."""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import lru_cache

import numpy as np

from drybuild.physics.electrics import (
    adiabatic_constant,
    adiabatic_current,
    free_air_ampacity,
    fuse_rating_wanted,
    resistance_when_warm,
    voltage_drop,
)
from drybuild.physics.electrics import conductor_temperature as settled_temperature
from drybuild.project.cooling import Radiator
from drybuild.project.electrics import Circuit, Wiring
from drybuild.project.engine import Engine
from drybuild.project.fuel import FuelSystem
from drybuild.project.handbook import handbook
from drybuild.project.option import Option
from drybuild.project.samples import Values
from drybuild.quantities.quantity import Labelled, quantity, step
from drybuild.tables.electrics import (
    StandardCircuit,
    bundle_factor,
    fuse_ratings,
    fuse_times,
    iso_cables,
    sae_area,
    standard_circuits,
)

SHORTED_BATTERY = 12.0  # [V]
PVC_SHORT_CIRCUIT = 433.15  # [K], IEC 60364-5-54
WIRE_STEP = 1.001  # a conductor is as large as its nominal size to the printed digits
SAE_TOLERANCE = 1.02  # [-], gauge 20 of 0.508 mm² stands for 0.5 mm², and so on up
CABIN = "cabin"
FAN, PUMP, IGNITION = SET_BY_PARTS = ("radiator fan", "fuel pump", "ignition")
"""Standard circuits that carry what a part of the build draws."""


@dataclass(frozen=True, kw_only=True)
class CircuitAsBuilt:
    """A circuit with every number it needs, given or standard."""

    current: Values
    area: Values
    fuse: Values
    drop: Values
    duty: tuple[Values, ...]
    in_cabin: bool
    air: Values
    """Temperature around the wire on a hot day. [K]"""
    bundle: float
    resistance: Values
    """Per metre at 20 °C. [Ω/m]"""
    wire_length: Values
    """Out, and back where a wire returns. [m]"""
    body_return: Values
    """Resistance of the return through the body; zero where a wire returns. [Ω]"""
    outside_diameter: Values
    temperature: Values
    """Of the conductor, with that current. [K]"""


@step("Circuits that no other part sets", source="bosch-handbook-electrics")
def circuits_of_the_harness(wiring: Wiring) -> dict[str, CircuitAsBuilt]:
    """Fill in what the file does not say of every circuit but those of fan, pump and ignition."""
    return _filled(wiring, [name for name in _names(wiring) if name not in SET_BY_PARTS], {})


@step("Circuit of the radiator fan", source="bosch-handbook-electrics")
def fan_circuit(wiring: Wiring, radiator: Radiator) -> dict[str, CircuitAsBuilt]:
    """Draw what the radiator says; no circuit without an electric fan, unless the file has one."""
    return _set_by_part(wiring, FAN, radiator, wanted=radiator.fan == "electric")


@step("Circuit of the fuel pump", source="bosch-handbook-electrics")
def pump_circuit(wiring: Wiring, fuel_system: FuelSystem) -> dict[str, CircuitAsBuilt]:
    """Draw what the fuel system says; no circuit without an electric pump, unless in the file."""
    return _set_by_part(wiring, PUMP, fuel_system, wanted=fuel_system.pump_is_electric)


@step("Circuit of the ignition", source="bosch-handbook-electrics")
def ignition_circuit(wiring: Wiring, engine: Engine) -> dict[str, CircuitAsBuilt]:
    """Draw what the engine says."""
    return _set_by_part(wiring, IGNITION, engine, wanted=True)


@step("Circuits as built, and those of an ordinary car", source="bosch-handbook-electrics")
def circuits(
    circuits_of_the_harness: dict[str, CircuitAsBuilt],
    fan_circuit: dict[str, CircuitAsBuilt],
    pump_circuit: dict[str, CircuitAsBuilt],
    ignition_circuit: dict[str, CircuitAsBuilt],
    wiring: Wiring,
) -> dict[str, CircuitAsBuilt]:
    """Gather them in the order of the standard ones, then of the file."""
    both = {**circuits_of_the_harness, **fan_circuit, **pump_circuit, **ignition_circuit}
    return {name: both[name] for name in _names(wiring) if name in both}


@quantity("A", "Current of each circuit", per="circuit", source="bosch-handbook-electrics")
def circuit_current(circuits: dict[str, CircuitAsBuilt]) -> Labelled:
    """Show what each carries while it is on."""
    return {name: one.current for name, one in circuits.items()}


@quantity(
    "K",
    "Conductor temperature of each circuit",
    per="circuit",
    source="churchill-chu-1975",
    shown="degC",
)
def circuit_conductor_temperature(circuits: dict[str, CircuitAsBuilt]) -> Labelled:
    """Balance the current's heat against what the wire loses in its bundle."""
    return {name: one.temperature for name, one in circuits.items()}


@quantity("V", "Voltage lost in each circuit, out and back", per="circuit", source="iec-60028")
def circuit_voltage_drop(
    circuits: dict[str, CircuitAsBuilt], circuit_conductor_temperature: Labelled
) -> Labelled:
    """Multiply the current by the warm resistance."""
    if not circuits:
        return {}
    warm = np.array(list(circuit_conductor_temperature.values()))
    loop = _loop(circuits, _stack(circuits, "resistance"), warm)
    return _by_name(circuits, voltage_drop(current=_stack(circuits, "current"), resistance=loop))


@quantity(
    "V", "Voltage that each circuit may lose", per="circuit", source="bosch-handbook-electrics"
)
def circuit_allowed_drop(circuits: dict[str, CircuitAsBuilt]) -> Labelled:
    """Take it as given, else half a volt."""
    return {name: one.drop for name, one in circuits.items()}


@quantity(
    "K", "Temperature that the wires' insulation stands for good", source="sae-j1128", shown="degC"
)
def insulation_limit(wiring: Wiring) -> Values:
    """Take it as given, else that of ordinary cable."""
    return wiring.insulation_limit


@quantity(
    "A", "Current that each circuit's wire may carry", per="circuit", source="churchill-chu-1975"
)
def circuit_ampacity(circuits: dict[str, CircuitAsBuilt], wiring: Wiring) -> Labelled:
    """Bring the wire to what its insulation stands, in its place and bundle."""
    if not circuits:
        return {}
    alone = free_air_ampacity(
        resistance_at_20c=_stack(circuits, "resistance"),
        outside_diameter=_stack(circuits, "outside_diameter"),
        conductor_temperature=wiring.insulation_limit,
        air_temperature=_stack(circuits, "air"),
    )
    return _by_name(circuits, _stack(circuits, "bundle") * alone)


@quantity(
    "m²", "Wire that each circuit should have", per="circuit", source="iso-6722-1", shown="mm²"
)
def circuit_wire_wanted(
    circuits: dict[str, CircuitAsBuilt], circuit_fuse_wanted: Labelled, wiring: Wiring
) -> Labelled:
    """Take the smallest size that keeps the drop and carries the fuse wanted; nan beyond 50 mm²."""
    if not circuits:
        return {}
    current, air, drop = (_stack(circuits, name) for name in ("current", "air", "drop"))
    bundle = _stack(circuits, "bundle")
    fuse = np.array(list(circuit_fuse_wanted.values()))
    found = np.full_like(current + air, np.nan)
    for cable in reversed(iso_cables()):
        alone = free_air_ampacity(
            resistance_at_20c=cable.resistance,
            outside_diameter=cable.outside_diameter,
            conductor_temperature=wiring.insulation_limit,
            air_temperature=air,
        )
        lost = current * _loop(circuits, cable.resistance, wiring.insulation_limit)
        found = np.where((bundle * alone >= fuse) & (lost <= drop), cable.area, found)
    return _by_name(circuits, found)


@quantity(
    "-", "Gauge of SAE cable that each circuit should have", per="circuit", source="sae-j1128"
)
def circuit_gauge_wanted(circuit_wire_wanted: Labelled) -> Labelled:
    """Take the thinnest with at least as much copper; nan beyond gauge 8."""
    sizes = sorted(sae_area().items(), key=lambda pair: pair[1])
    gauges = np.array([*(float(gauge) for gauge, _ in sizes), np.nan])
    areas = np.array([area for _, area in sizes])
    return {
        name: np.where(
            np.isnan(wanted), np.nan, gauges[np.searchsorted(areas * SAE_TOLERANCE, wanted)]
        )
        for name, wanted in circuit_wire_wanted.items()
    }


@quantity("A", "Fuse that each circuit should have", per="circuit", source="fuseology-guide")
def circuit_fuse_wanted(circuits: dict[str, CircuitAsBuilt], wiring: Wiring) -> Labelled:
    """Take the next rating that carries the current for good; nan beyond the largest."""
    ratings = np.array([*fuse_ratings(), np.nan])
    if not circuits:
        return {}
    least = fuse_rating_wanted(current=_stack(circuits, "current"), loading=wiring.fuse_loading)
    return _by_name(circuits, ratings[np.searchsorted(ratings[:-1], np.asarray(least))])


@quantity(
    "-", "Load of each fuse over its rating", per="circuit", source="fuseology-guide", shown="%"
)
def circuit_fuse_load(circuits: dict[str, CircuitAsBuilt]) -> Labelled:
    """Divide the current by the rating."""
    return {name: one.current / one.fuse for name, one in circuits.items()}


@quantity(
    "-",
    "Current that each wire may carry over its fuse's rating",
    per="circuit",
    source="iso-8820-3",
)
def circuit_wire_over_fuse(
    circuits: dict[str, CircuitAsBuilt], circuit_ampacity: Labelled
) -> Labelled:
    """Divide; below one the wire burns before the fuse opens."""
    return {name: circuit_ampacity[name] / one.fuse for name, one in circuits.items()}


@quantity(
    "A", "Current into a dead short at the end of each circuit", per="circuit", source="iec-60028"
)
def circuit_short_current(circuits: dict[str, CircuitAsBuilt], wiring: Wiring) -> Labelled:
    """Let 12 V meet the wire, the battery and the earth path."""
    if not circuits:
        return {}
    loop = _loop(circuits, _stack(circuits, "resistance"), _stack(circuits, "air"))
    return _by_name(circuits, SHORTED_BATTERY / (wiring.fault_resistance + loop))


@quantity(
    "-",
    "What each wire survives over the short-circuit current",
    per="circuit",
    source="iec-60364-5-54",
)
def circuit_short_reserve(
    circuits: dict[str, CircuitAsBuilt], circuit_short_current: Labelled, wiring: Wiring
) -> Labelled:
    """Heat the wire without loss for the time in which a fuse opens at its heaviest load."""
    constant = adiabatic_constant(
        start_temperature=np.minimum(wiring.insulation_limit, PVC_SHORT_CIRCUIT - 1.0),
        end_temperature=PVC_SHORT_CIRCUIT,
    )
    if not circuits:
        return {}
    survived = adiabatic_current(
        area=_stack(circuits, "area"), duration=fuse_times()[-1][2], constant=constant
    )
    return _by_name(circuits, survived / np.array(list(circuit_short_current.values())))


@quantity(
    "-",
    "Short-circuit current over what opens the fuse at once",
    per="circuit",
    source="iso-8820-3",
)
def circuit_fuse_opens(
    circuits: dict[str, CircuitAsBuilt], circuit_short_current: Labelled
) -> Labelled:
    """Compare with the load at which a blade fuse opens soonest: six times its rating."""
    at_once = fuse_times()[-1][0]
    return {
        name: circuit_short_current[name] / (at_once * one.fuse) for name, one in circuits.items()
    }


def _set_by_part(
    wiring: Wiring, name: str, part: Option, *, wanted: bool
) -> dict[str, CircuitAsBuilt]:
    """Return the circuit that carries what a part draws, where there is one."""
    if name not in _names(wiring) or not (wanted or name in wiring.circuits):
        return {}
    return _filled(wiring, [name], {name: part.current} if part.has("current") else {})


def _unnamed(wiring: Wiring, name: str) -> Circuit:
    """Return an empty circuit bound to the same bench, for a standard one not in the file."""
    path, key = f"{wiring.path}.circuits.{name}", f"{wiring.key}.circuits"
    return Circuit(path=path, key=key, bench=wiring.bench)


def _names(wiring: Wiring) -> list[str]:
    """Return the standard circuits, if they count, and those that the file names."""
    standard = () if wiring.only_these else standard_circuits()
    return list(dict.fromkeys((*standard, *wiring.circuits)))


def _filled(
    wiring: Wiring, names: list[str], drawn: dict[str, Values]
) -> dict[str, CircuitAsBuilt]:
    """Return circuits with every number, as given or as usual."""
    standard = standard_circuits()
    given = {name: wiring.circuits.get(name) or _unnamed(wiring, name) for name in names}
    areas = {name: _area(one, standard.get(name), wiring) for name, one in given.items()}
    cables = _cables(areas)
    return _warmed(
        {
            name: _as_built(
                one, standard.get(name), wiring, drawn.get(name), areas[name], cables[name]
            )
            for name, one in given.items()
        }
    )


def _warmed(circuits: dict[str, CircuitAsBuilt]) -> dict[str, CircuitAsBuilt]:
    """Return circuits with the temperature that each conductor settles at."""
    if not circuits:
        return {}
    found = settled_temperature(
        current=_stack(circuits, "current"),
        resistance_at_20c=_stack(circuits, "resistance"),
        outside_diameter=_stack(circuits, "outside_diameter"),
        air_temperature=_stack(circuits, "air"),
        bundle_factor=_stack(circuits, "bundle"),
    )
    rows = _by_name(circuits, found)
    return {name: replace(one, temperature=rows[name]) for name, one in circuits.items()}


def _area(given: Circuit, usual: StandardCircuit | None, wiring: Wiring) -> Values:
    return given.area if given.has("area") or not usual else _steady(wiring, usual.area)


def _as_built(
    given: Circuit,
    usual: StandardCircuit | None,
    wiring: Wiring,
    drawn: Values | None,
    area: Values,
    cable: tuple[Values, Values],
) -> CircuitAsBuilt:
    in_cabin = (
        given.place == CABIN if given.has("place") else (usual.place if usual else CABIN) == CABIN
    )
    wires = float(given.wires[0]) if given.has("wires") else float(wiring.bundle_wires[0])
    run = given.run if given.has("run") or not usual else _steady(wiring, usual.run)
    by_wire = wiring.return_path == "wire"
    return CircuitAsBuilt(
        current=_current(given, usual, drawn),
        wire_length=2.0 * run if by_wire else run,
        body_return=_steady(wiring, 0.0) if by_wire else wiring.body_return,
        area=area,
        fuse=given.fuse if given.has("fuse") or not usual else _steady(wiring, usual.fuse),
        drop=given.drop if given.has("drop") else _steady(wiring, usual.drop if usual else 0.5),
        duty=tuple(
            getattr(given, field)
            if given.has(field)
            else _steady(wiring, usual.duty[place] if usual else 0.0)
            for place, field in enumerate(("idle_night", "cruise_day", "cruise_night"))
        ),
        in_cabin=in_cabin,
        air=wiring.cabin_air if in_cabin else wiring.engine_bay_air,
        bundle=bundle_factor(wires),
        resistance=cable[0],
        outside_diameter=cable[1],
        temperature=np.empty(0),  # `_warmed` finds it for all circuits at once
    )


def _steady(wiring: Wiring, value: float) -> Values:
    """Return a number without spread over all samples."""
    return _even(value, wiring.cabin_air.size)


@lru_cache(maxsize=1024)
def _even(value: float, size: int) -> Values:
    found = np.full(size, value)
    found.flags.writeable = False  # shared by every circuit with this number
    return found


def _current(given: Circuit, usual: StandardCircuit | None, drawn: Values | None) -> Values:
    if given.has("current") or (usual is None and drawn is None):
        return given.current
    if drawn is not None:
        return drawn
    assert usual is not None
    return handbook(given, "current", usual.current)


def _cables(areas: dict[str, Values]) -> dict[str, tuple[Values, Values]]:
    """Return resistance per metre and outside diameter, between the sizes of ISO 6722-1."""
    if not areas:
        return {}
    cables = iso_cables()
    area = np.array(np.broadcast_arrays(*areas.values()))
    sizes = np.log([cable.area for cable in cables])
    inside = (area * WIRE_STEP >= cables[0].area) & (area <= cables[-1].area * WIRE_STEP)
    log = np.log(np.clip(area, cables[0].area, cables[-1].area))
    resistance = np.exp(np.interp(log, sizes, np.log([cable.resistance for cable in cables])))
    outside = np.exp(np.interp(log, sizes, np.log([cable.outside_diameter for cable in cables])))
    found = np.where(inside, resistance, np.nan), np.where(inside, outside, np.nan)
    return dict(zip(areas, zip(*found, strict=True), strict=True))


def _loop(
    circuits: dict[str, CircuitAsBuilt], per_metre: Values | float, temperature: Values
) -> Values:
    """Return the resistance of wire at a temperature and return path together."""
    wire = resistance_when_warm(
        resistance_at_20c=per_metre * _stack(circuits, "wire_length"), temperature=temperature
    )
    return np.asarray(wire + _stack(circuits, "body_return"))


def _stack(circuits: dict[str, CircuitAsBuilt], name: str) -> Values:
    """Return one row for each circuit, over all samples."""
    values = [getattr(one, name) for one in circuits.values()]
    found = np.empty((len(values), max(map(np.size, values))))
    for row, value in zip(found, values, strict=True):
        row[:] = value
    return found


def _by_name(circuits: dict[str, CircuitAsBuilt], rows: Values | float) -> Labelled:
    """Return each circuit's row under its name."""
    return dict(zip(circuits, np.atleast_2d(rows), strict=True))
