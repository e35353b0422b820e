"""The list of modules with checks, and the person's own must lines beside them."""

from __future__ import annotations

from types import ModuleType

from drybuild.checks import (
    brakes,
    cabin,
    condition,
    cooling,
    datum,
    driveline,
    electrics,
    engine,
    exhaust,
    fuel,
    handling,
    mass,
    packaging,
    paint,
    performance,
    ride,
    shell,
    steering,
    suspension,
    suspension_linkage,
    tyres,
    wheels,
    work,
)
from drybuild.checks.check import Check
from drybuild.checks.must import must_checks
from drybuild.project.build import Build
from drybuild.quantities.graph import Graph

MODULES: tuple[ModuleType, ...] = (
    brakes,
    cabin,
    condition,
    cooling,
    datum,
    driveline,
    electrics,
    engine,
    exhaust,
    fuel,
    handling,
    mass,
    packaging,
    paint,
    performance,
    ride,
    shell,
    steering,
    suspension,
    suspension_linkage,
    tyres,
    wheels,
    work,
)


def standing_checks() -> tuple[Check, ...]:
    """Return every check that drybuild asks of any build."""
    return tuple(check for module in MODULES for check in module.CHECKS)


def checks_of(build: Build, graph: Graph) -> tuple[Check, ...]:
    """Return the person's must lines, then every standing check."""
    return (*must_checks(build, graph), *standing_checks())
