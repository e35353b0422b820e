"""Cooling as a person gives it: the radiator with its fan, the rest of the system, the cold air."""

from __future__ import annotations

from drybuild.project.by_choice import reading_by
from drybuild.project.fields import choice, flag, reading
from drybuild.project.groups import part
from drybuild.project.option import Option
from drybuild.project.packaging_solids import Shape
from drybuild.project.sections import Section


class Radiator(Option):
    """The radiator core, its pressure cap, and the fan that pulls air through it.

    `current` is what the electric fans draw at full speed.
    """

    width = reading("m", "Width of the core across its tubes", typical=True)
    height = reading("m", "Height of the core along its tubes", typical=True)
    depth = reading("m", "Depth of the core in the direction of the air", typical=True)
    fin_pitch = reading("m", "Distance from fin to fin", typical=True)
    fin_height = reading("m", "Gap between neighbouring tubes", typical=True)
    fin_thickness = reading("m", "Thickness of the fins", typical=True)
    tube_thickness = reading("m", "Thickness of a tube, across the air", typical=True)
    tube_wall = reading("m", "Thickness of the tubes' wall", typical=True)
    louvre_pitch = reading("m", "Distance from louvre to louvre", typical=True)
    louvre_angle = reading("rad", "Angle of the louvres to the fin", typical=True)
    metal = choice("Metal of the core", "copper and brass", "aluminium", usual="copper and brass")
    condition = reading(
        "-",
        "Share of a clean core's heat that it still passes: scale, dirt, bent fins",
        typical=True,
        most=1.0,
    )
    cap_pressure = reading("Pa", "Opening pressure of the cap over the atmosphere", typical=True)
    thermostat = reading("K", "Temperature at which the thermostat is open", typical=True)
    fan = choice("What turns the fan", "belt", "electric", "none", usual="belt")
    fan_flow = reading_by("m³/s", "Air that the fans move against no pressure", by="fan")
    fan_pressure = reading_by("Pa", "Pressure of the fans at no flow", by="fan")
    fan_speed = reading("rad/s", "Belt: fan speed that flow and pressure are for", typical=True)
    fan_ratio = reading("-", "Belt: fan speed over engine speed", typical=True)
    fan_diameter = reading("m", "Diameter of a fan", typical=True)
    fans = reading("-", "How many fans", typical=True, exact=True)
    shroud = flag("A shroud guides the air of the whole core to the fan")
    solid = part(Shape, "Its own solid, on the car's axes, with its fans: tried against the engine")


class Cooling(Section):
    """Coolant, pump, hoses, air path and oil; and how hard the engine works in the heat."""

    glycol = reading("-", "Share of glycol in the coolant, by mass", typical=True, most=0.6)
    coolant_volume = reading("m³", "Coolant in the whole system", typical=True)
    pump_flow = reading("m³/s", "Coolant that the pump moves at the speed of peak power")
    coolant_rise = reading(
        "K",
        "Warming of the coolant through the engine at full power, where no flow is known",
        typical=True,
    )
    hose_bore = reading("m", "Inside diameter of the radiator hoses", typical=True)
    ram_coefficient = reading(
        "-",
        "Pressure of the air at the grille less that behind the engine, over dynamic pressure",
        typical=True,
    )
    air_path_loss = reading(
        "-", "Loss of grille and engine bay on the velocity at the core", typical=True
    )
    idle_recirculation = reading(
        "K", "How much warmer the air at the core is than outside, standing still", typical=True
    )
    full_load_share = reading(
        "-", "Share of the fuel's heat that goes to the coolant at full power", typical=True
    )
    part_load_share = reading(
        "-", "Share of the fuel's heat that goes to the coolant at part load", typical=True
    )
    idle_share = reading(
        "-", "Share of the fuel's heat that goes to the coolant at idle", typical=True
    )
    idle_power = reading("W", "Power that alternator, fan and pump take at idle", typical=True)
    oil_share = reading("-", "Heat to the oil over power, at full power", typical=True)
    oil_flow = reading("m³/s", "Oil that the pump moves at full power", typical=True)
    idle_efficiency = reading(
        "-", "Work of the gas over heat of the fuel at idle", typical=True, most=0.6
    )
    climb_engine_speed = reading("rad/s", "Engine speed on the climb", typical=True)
    fast_road_engine_speed = reading("rad/s", "Engine speed at the usual fast speed", typical=True)
    driveline_efficiency = reading(
        "-", "Power at the wheels over engine power", typical=True, most=1.0
    )
    altitude = reading("m", "Height over the sea where it has to keep cool", typical=True)
    towed_mass = reading("kg", "Mass of a trailer on the climb")


class AirConditioning(Option):
    """Cooling for the cabin; its condenser warms the air that the radiator gets."""

    cooling_capacity = reading("W", "Heat that it takes from the cabin")
    efficiency = reading("-", "Heat taken from the cabin over compressor power", typical=True)
    condenser_loss = reading("-", "Loss of the condenser on the velocity at the core", typical=True)
