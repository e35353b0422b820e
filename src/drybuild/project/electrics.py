"""The twelve-volt system as a person gives it: alternator, battery, wiring with its circuits."""

from __future__ import annotations

from drybuild.project.fields import choice, flag, reading
from drybuild.project.groups import named
from drybuild.project.option import Option
from drybuild.project.sections import Section


class Alternator(Option):
    """What charges the battery."""

    output = reading("A", "Rated current, at 6000 rpm of its shaft", typical=True)
    rated_speed = reading("rad/s", "Shaft speed of that rating", typical=True)
    cut_in_speed = reading("rad/s", "Shaft speed at which it begins to charge", typical=True)
    pulley_ratio = reading("-", "Shaft speed over engine speed", typical=True)
    hot_share = reading("-", "Share of its rating that it gives when hot", typical=True, most=1.0)
    efficiency = reading("-", "Electrical over mechanical power", typical=True, most=1.0)
    voltage = reading("V", "Voltage that the regulator holds", typical=True)


class Battery(Option):
    """What starts the engine, and carries the loads while nothing charges."""

    capacity = reading("C", "Capacity at the twenty-hour rate", typical=True)
    cold_cranking_current = reading("A", "Current for 30 s at -18 °C above 7.2 V", typical=True)
    reserve_capacity = reading("s", "Time at 25 A down to 10.5 V", typical=True)
    rest_voltage = reading("V", "Voltage at rest, charged", typical=True)
    usable_share = reading(
        "-", "Share that may go before it will not start", typical=True, most=1.0
    )
    peukert = reading("-", "Peukert's exponent", typical=True, least=1.0)
    parked_drain = reading("A", "Current with everything switched off", typical=True)


class Circuit(Section):
    """One circuit: what it feeds, and the wire and fuse that it has."""

    current = reading("A", "Continuous current at 13.5 V")
    run = reading("m", "Length of wire one way")
    area = reading("m²", "Copper section of the wire", exact=True)
    fuse = reading("A", "Rating of its fuse", exact=True)
    drop = reading("V", "Voltage that may be lost, out and back")
    place = choice("Where most of it lies", "cabin", "engine bay")
    wires = reading(
        "-", "Wires in its bundle, itself included, some of them loaded", exact=True, least=1.0
    )
    idle_night = reading("-", "Share of the time it is on at idle, at night in rain", most=1.0)
    cruise_day = reading("-", "Share of the time it is on, cruising by day", most=1.0)
    cruise_night = reading("-", "Share of the time it is on, cruising by night", most=1.0)


class Wiring(Option):
    """Wires, fuses, battery cables and earths.

    Circuits that the file does not name are those of an ordinary car, unless `only_these`.
    """

    circuits = named(Circuit, "Circuits by name; a standard name changes that circuit")
    only_these = flag("The named circuits are all there are")
    insulation_limit = reading("K", "Temperature that the insulation stands for good", typical=True)
    cabin_air = reading("K", "Air around wires in the cabin on a hot day", typical=True)
    engine_bay_air = reading("K", "Air around wires in the engine bay on a hot day", typical=True)
    bundle_wires = reading(
        "-", "Wires in a usual bundle, some of them loaded", typical=True, exact=True, least=1.0
    )
    return_path = choice("How circuits return to the battery", "body", "wire", usual="body")
    body_return = reading(
        "Ω", "One circuit's return through the body, joints included", typical=True
    )
    fuse_loading = reading(
        "-", "Share of its rating that a fuse may carry for good", typical=True, most=1.0
    )
    fault_resistance = reading("Ω", "Battery, cables and earth in a short circuit", typical=True)
    starter_current = reading("A", "Current while the starter cranks a cold engine", typical=True)
    battery_cable_area = reading(
        "m²", "Copper section of the battery cables", typical=True, exact=True
    )
    battery_cable_length = reading(
        "m", "Battery cable from battery to starter, one way", typical=True
    )
    earth_resistance = reading(
        "Ω", "Earth path from engine to battery, joints included", typical=True
    )
    charging_cable_area = reading(
        "m²", "Copper section of the alternator's cable", typical=True, exact=True
    )
    charging_cable_length = reading("m", "Alternator's cable to the battery, one way", typical=True)
