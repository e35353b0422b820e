"""The list of modules with quantities; the graph is assembled from it."""

from __future__ import annotations

from functools import cache
from types import ModuleType

from drybuild.quantities import (
    body,
    brakes,
    brakes_fade,
    brakes_failure,
    brakes_heat,
    brakes_parking,
    brakes_pedal,
    cabin,
    condition,
    cooling,
    cooling_heat,
    driveline,
    driveline_propshaft,
    electrics,
    electrics_circuits,
    engine,
    exhaust,
    fuel,
    handling,
    handling_limit,
    mass,
    packaging,
    paint,
    performance,
    performance_electric,
    ride,
    shell,
    shell_frame,
    shell_frame_parts,
    steering,
    steering_linkage,
    suspension,
    suspension_linkage,
    tyres,
    wheels,
    work,
    work_dates,
    work_plan,
)
from drybuild.quantities.graph import Graph

MODULES: tuple[ModuleType, ...] = (
    body,
    brakes,
    brakes_fade,
    brakes_failure,
    brakes_heat,
    brakes_parking,
    brakes_pedal,
    cabin,
    condition,
    cooling,
    cooling_heat,
    driveline,
    driveline_propshaft,
    electrics,
    electrics_circuits,
    engine,
    exhaust,
    fuel,
    handling,
    handling_limit,
    mass,
    packaging,
    paint,
    performance,
    performance_electric,
    ride,
    shell,
    shell_frame,
    shell_frame_parts,
    steering,
    steering_linkage,
    suspension,
    suspension_linkage,
    tyres,
    wheels,
    work,
    work_dates,
    work_plan,
)


@cache
def graph() -> Graph:
    """Return the graph of every quantity."""
    return Graph(MODULES)
