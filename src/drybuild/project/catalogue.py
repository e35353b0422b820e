"""Every system, car section and top-level section that a build file can have: one line each."""

from __future__ import annotations

from drybuild.project.advice import Advice
from drybuild.project.arches import Arches
from drybuild.project.body import Body
from drybuild.project.brakes import BrakeHydraulics, FrontBrakes, ParkingBrake, RearBrakes
from drybuild.project.cabin import Belts, Cabin, RollBar, Seats, Trim
from drybuild.project.condition import Survey
from drybuild.project.cooling import AirConditioning, Cooling, Radiator
from drybuild.project.datum import Datum
from drybuild.project.driveline import Axle, Clutch, Gearbox, Propshaft
from drybuild.project.electrics import Alternator, Battery, Wiring
from drybuild.project.engine import Engine
from drybuild.project.exhaust import Exhaust, Intake
from drybuild.project.fuel import FuelSystem
from drybuild.project.mass import Mass
from drybuild.project.option import Option
from drybuild.project.packaging import Bay
from drybuild.project.paint import Paint, Panels
from drybuild.project.performance import Running
from drybuild.project.sections import Section
from drybuild.project.shell import Glass, Shell, Structure
from drybuild.project.steering import Steering
from drybuild.project.suspension import Dampers, FrontSuspension, RearSuspension
from drybuild.project.tyres import Tyres
from drybuild.project.wheels import Wheels
from drybuild.project.work import Job, Work

SYSTEMS: dict[str, type[Option]] = {
    "engine": Engine,
    "gearbox": Gearbox,
    "clutch": Clutch,
    "propshaft": Propshaft,
    "axle": Axle,
    "front_suspension": FrontSuspension,
    "rear_suspension": RearSuspension,
    "dampers": Dampers,
    "steering": Steering,
    "tyres": Tyres,
    "wheels": Wheels,
    "front_brakes": FrontBrakes,
    "rear_brakes": RearBrakes,
    "brake_hydraulics": BrakeHydraulics,
    "parking_brake": ParkingBrake,
    "shell": Shell,
    "glass": Glass,
    "seats": Seats,
    "belts": Belts,
    "roll_bar": RollBar,
    "trim": Trim,
    "paint": Paint,
    "radiator": Radiator,
    "air_conditioning": AirConditioning,
    "fuel_system": FuelSystem,
    "exhaust": Exhaust,
    "alternator": Alternator,
    "battery": Battery,
    "wiring": Wiring,
}

CAR_SECTIONS: dict[str, type[Section]] = {
    "body": Body,
    "mass": Mass,
    "arches": Arches,
    "running": Running,
    "cooling": Cooling,
    "intake": Intake,
    "structure": Structure,
    "bay": Bay,
    "cabin": Cabin,
    "panels": Panels,
}

TOPS: dict[str, type[Section]] = {
    "work": Work,
    "survey": Survey,
    "datum": Datum,
}

NAMED: dict[str, type[Section]] = {
    "jobs": Job,
    "advice": Advice,
}


def system_class(system: str) -> type[Option]:
    """Return the class of a system's options; systems of the person's own have the common one."""
    return SYSTEMS.get(system, Option)
