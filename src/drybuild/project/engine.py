"""The engine: its power and torque, how it is built, and how it hangs on its mounts."""

from __future__ import annotations

from drybuild.errors import DoesNotApply
from drybuild.project.fields import choice, flag, reading
from drybuild.project.groups import curve as curve_entry
from drybuild.project.groups import rated
from drybuild.project.option import Option


class Engine(Option):
    """An engine with what hangs on it, or an electric motor with its battery."""

    kind = choice("Piston engine or electric motor", "piston", "electric", usual="piston")
    power = rated("W", "rad/s", "Greatest power at the flywheel and its speed")
    torque = rated("N·m", "rad/s", "Greatest torque at the flywheel and the speeds it holds at")
    curve = curve_entry("rad/s", "N·m", "Full-load torque over engine speed")
    displacement = reading("m³", "Swept volume", typical=True, exact=True)
    cylinders = reading("-", "Number of cylinders", typical=True, exact=True, least=1.0, most=24.0)
    specific_power = reading(
        "W/m³", "Greatest power for the swept volume, where the power is not known", typical=True
    )
    stroke = reading("m", "Stroke", exact=True)
    piston_speed = reading("m/s", "Mean piston speed at the greatest power", typical=True)
    limit_speed = reading("rad/s", "Highest speed that it is run to")
    idle_speed = reading("rad/s", "Idle speed", typical=True)
    inertia = reading("kg·m²", "Inertia of crankshaft, flywheel and clutch")
    fuel = choice("Fuel", "petrol", "diesel", "E85", "ethanol", "methanol", "LPG", usual="petrol")
    aspiration = choice(
        "How it breathes", "natural", "turbocharged", "supercharged", usual="natural"
    )
    boost = reading("Pa", "Boost over the atmosphere at full load")
    indicated_efficiency = reading(
        "-", "Share of the fuel's heat that reaches the pistons", typical=True, most=0.6
    )
    specific_consumption = reading("kg/J", "Fuel for each unit of work at full power")
    mount_spacing = reading("m", "Distance between the two front mounts", typical=True)
    mount_roll_frequency = reading("Hz", "Roll frequency of engine and gearbox on their mounts")
    battery_energy = reading("J", "Usable energy of the traction battery, full")
    battery_voltage = reading("V", "Working voltage of the traction battery")
    drive_efficiency = reading(
        "-", "Efficiency from battery to motor shaft", typical=True, most=1.0
    )
    alternating_parts = flag("Alternating-current parts joined to the traction bus", usual=True)

    def require_piston(self) -> None:
        """Say that there is nothing to compute when this is an electric motor.

        Raises
        ------
        DoesNotApply
            The engine is electric.

        """
        if self.kind == "electric":
            raise DoesNotApply(
                self.path_of("kind"), "an electric motor has no cylinders, no fuel and no starter"
            )

    def require_electric(self) -> None:
        """Say that there is nothing to compute when this is a piston engine.

        Raises
        ------
        DoesNotApply
            The engine is not electric.

        """
        if self.kind != "electric":
            raise DoesNotApply(self.path_of("kind"), "the engine is not electric")
