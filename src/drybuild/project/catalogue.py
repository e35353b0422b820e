"""Every system, car section and top-level section that a build file can have: one line each."""

from __future__ import annotations

from drybuild.project.body import Body
from drybuild.project.mass import Mass
from drybuild.project.option import Option
from drybuild.project.sections import Section

SYSTEMS: dict[str, type[Option]] = {}

CAR_SECTIONS: dict[str, type[Section]] = {
    "body": Body,
    "mass": Mass,
}

TOPS: dict[str, type[Section]] = {}

NAMED: dict[str, type[Section]] = {}


def system_class(system: str) -> type[Option]:
    """Return the class of a system's options; systems of the person's own have the common one."""
    return SYSTEMS.get(system, Option)
