"""An electric conversion: energy, range, and what its voltage asks for."""

from __future__ import annotations

import numpy as np

from drybuild.physics.conversion import energy_per_distance, least_isolation_resistance
from drybuild.project.engine import Engine
from drybuild.project.samples import Values
from drybuild.quantities.quantity import quantity


@quantity("V", "Voltage of the traction bus", source="un-r100")
def traction_voltage(engine: Engine) -> Values:
    """Take it as given; a piston engine has none."""
    engine.require_electric()
    return engine.battery_voltage


@quantity("J/m", "Battery energy at the cruising speed", source="definition", shown="Wh/km")
def electric_use_at_cruise(
    engine: Engine, road_load_at_cruise: Values, driveline_efficiency: Values
) -> Values:
    """Run steady on the level, without heating."""
    engine.require_electric()
    return np.asarray(
        energy_per_distance(
            road_load=road_load_at_cruise,
            efficiency=engine.drive_efficiency * driveline_efficiency,
        )
    )


@quantity("m", "Electric range at the cruising speed", source="definition", shown="km")
def electric_range(engine: Engine, electric_use_at_cruise: Values) -> Values:
    """Divide the usable energy; some 30 % less in hard frost."""
    engine.require_electric()
    return engine.battery_energy / electric_use_at_cruise


@quantity("ohm", "Least isolation of the traction bus to the body", source="un-r100")
def least_bus_isolation(engine: Engine) -> Values:
    """Multiply the regulation's figure by the working voltage.

    High voltage begins at 60 V of direct and 30 V of alternating current: licensed practice only.
    """
    engine.require_electric()
    return np.asarray(
        least_isolation_resistance(
            voltage=engine.battery_voltage, alternating_parts=engine.alternating_parts
        )
    )
