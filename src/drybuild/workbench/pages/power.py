"""Power and services: engine, gears, cooling, fuel, exhaust, wiring, cabin heat."""

from __future__ import annotations

from typing import Any

from drybuild.workbench.desk import Desk
from drybuild.workbench.pages.matters import Topic, draw_topics, of_topics
from drybuild.workbench.pages.page import Asked, Page

TOPICS = (
    Topic(
        title="Going",
        asks="How hard does it pull, and how fast does it go?",
        matters=("engine", "performance"),
        chapters=("performance",),
        leads=(
            "peak_power", "peak_torque", "power_to_weight", "zero_to_100_kmh",
            "eighty_to_120_kmh", "top_speed", "cruise_engine_speed", "fuel_use_at_cruise",
        ),
    ),
    Topic(
        title="From the engine to the wheels",
        asks="Do clutch, gearbox, shafts and axle stand the torque?",
        matters=("driveline",),
        leads=(
            "clutch_reserve", "gearbox_torque_margin", "axle_torque_margin",
            "propshaft_critical_speed", "propshaft_highest_speed",
        ),
    ),
    Topic(
        title="Staying cool",
        asks="Does the heat get out, on the worst day and hill?",
        matters=("cooling",),
        chapters=("cooling",),
        leads=("coolant_heat", "radiator_area", "fan_air_flow", "coolant_boiling_point"),
    ),
    Topic(
        title="Fuel, breath and exhaust",
        asks="Is there fuel and air enough, and does the burnt gas get out?",
        matters=("fuel", "exhaust"),
        chapters=("fuel", "exhaust"),
        leads=("pump_margin", "injector_duty", "fuel_range", "exhaust_back_pressure"),
    ),
    Topic(
        title="Current",
        asks="Do battery, alternator and wiring carry what is asked of them?",
        matters=("electrics",),
        chapters=("electrics",),
        leads=("alternator_output_wanted", "cranking_reserve", "battery_reserve_time"),
    ),
)  # fmt: skip


def fill(desk: Desk, asked: Asked) -> dict[str, Any]:  # a template takes anything
    """Return what the page shows."""
    return of_topics(desk, TOPICS)


PAGE = Page(
    path="/power",
    title="Power and services",
    asks="Does it go, stay cool, and have fuel and current enough?",
    template="matters.html.j2",
    fill=fill,
    before=lambda desk, asked: draw_topics(desk, TOPICS, asked),
    islands=("plots",),
)
