"""Every system, car section and top-level section that a build file can have: one line each."""

from __future__ import annotations

from drybuild.project.body import Body
from drybuild.project.mass import Mass
from drybuild.project.option import Option
from drybuild.project.sections import Section
from drybuild.project.steering import Steering
from drybuild.project.suspension import Dampers, FrontSuspension, RearSuspension

SYSTEMS: dict[str, type[Option]] = {
    "front_suspension": FrontSuspension,
    "rear_suspension": RearSuspension,
    "dampers": Dampers,
    "steering": Steering,
}

CAR_SECTIONS: dict[str, type[Section]] = {
    "body": Body,
    "mass": Mass,
}

TOPS: dict[str, type[Section]] = {}

NAMED: dict[str, type[Section]] = {}


def system_class(system: str) -> type[Option]:
    """Return the class of a system's options; systems of the person's own have the common one."""
    return SYSTEMS.get(system, Option)
