"""The fuel system as a person gives it: tank, pump, lines, injectors."""

from __future__ import annotations

from drybuild.project.by_choice import reading_by
from drybuild.project.fields import choice, reading
from drybuild.project.option import Option


class FuelSystem(Option):
    """Tank, pump, lines and what meters the fuel. `current` is what the pump draws."""

    delivery = choice("What meters the fuel", "carburettor", "injection", usual="carburettor")
    pump = choice(
        "What drives the pump; usually the engine for a carburettor", "engine", "electric"
    )
    tank_volume = reading("m³", "What the tank holds", typical=True)
    unusable_share = reading(
        "-", "Share of it that the pick-up cannot reach", typical=True, most=0.5
    )
    pressure = reading_by(
        "Pa", "Pressure that the regulator or float valve is set to", by="delivery"
    )
    pump_flow = reading_by("m³/s", "Flow of the pump at its rated pressure", by="delivery")
    pump_rated_pressure = reading_by(
        "Pa", "Pressure that the pump's flow is given at", by="delivery"
    )
    pump_stall_pressure = reading_by(
        "Pa", "Pressure at which the pump moves nothing", by="delivery"
    )
    pump_rated_voltage = reading("V", "Voltage that the pump's flow is given at", typical=True)
    pump_voltage = reading("V", "Voltage at the pump in the car, engine running", typical=True)
    boost = reading("Pa", "Boost pressure of a charged engine", typical=True)
    line_bore = reading("m", "Inside diameter of the pressure line", typical=True)
    line_length = reading("m", "Length of the pressure line", typical=True)
    line_fittings = reading(
        "-", "Loss coefficients of its bends, fittings and filter", typical=True
    )
    line_roughness = reading("m", "Roughness of the lines inside", typical=True)
    suction_bore = reading("m", "Inside diameter from tank to pump", typical=True)
    suction_length = reading_by("m", "Length from tank to pump", by="delivery")
    suction_fittings = reading("-", "Loss coefficients of pick-up and strainer", typical=True)
    lift = reading_by(
        "m",
        "Height of the pump over the fuel; below it counts negative",
        by="delivery",
        least=None,
    )
    hot_temperature = reading("K", "Fuel temperature on a hot day", typical=True)
    reid_pressure = reading("Pa", "Reid vapour pressure of the fuel", typical=True)
    injectors = reading("-", "Number of injectors, if not one for each cylinder", exact=True)
    injector_flow = reading("m³/s", "Static flow of one injector at its rated pressure")
    injector_rated_pressure = reading(
        "Pa", "Pressure across the injector at its rating", typical=True
    )
    injector_duty = reading(
        "-", "Share of the time that injectors may be open", typical=True, most=1.0
    )

    @property
    def pump_is_electric(self) -> bool:
        """Whether the pump has a motor: as given, else where the fuel is injected."""
        if self.has("pump"):
            return self.pump == "electric"
        return self.delivery == "injection"
