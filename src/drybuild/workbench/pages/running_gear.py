"""Running gear: wheels in their arches, brakes, suspension, steering, ride and handling."""

from __future__ import annotations

from typing import Any

from drybuild.workbench.desk import Desk
from drybuild.workbench.pages.matters import Topic, draw_topics, of_topics
from drybuild.workbench.pages.page import Asked, Page

TOPICS = (
    Topic(
        title="Stopping",
        asks="Does it stop, straight and again and again, and hold on a hill?",
        matters=("brakes",),
        chapters=("brakes",),
        leads=(
            "stopping_distance_100_kmh", "pedal_force_at_0_9g", "front_brake_share",
            "braking_efficiency", "attainable_deceleration", "critical_deceleration",
        ),
    ),
    Topic(
        title="Holding the road",
        asks="Does it steer, stay stable and grip in a bend?",
        matters=("handling",),
        chapters=("handling",),
        leads=(
            "cornering_limit", "understeer_gradient", "roll_gradient", "static_margin",
            "static_stability_factor",
        ),
    ),
    Topic(
        title="Springs, wheels' paths and steering",
        asks="How do the wheels move, and does the wheel in the hand tell of it?",
        matters=("suspension", "steering"),
        chapters=("suspension", "steering"),
        leads=(
            "flat_ride_ratio", "front_roll_stiffness_share", "turning_circle",
            "steering_wheel_turns", "scrub_radius",
        ),
    ),
    Topic(
        title="Ride",
        asks="Is it comfortable on the roads of the brief?",
        matters=("ride",),
        chapters=("ride",),
        leads=("ride_comfort",),
    ),
    Topic(
        title="Wheels and tyres in their arches",
        asks="Do the wheels fit, clear everything and carry the car?",
        matters=("wheels", "tyres"),
        chapters=("wheels",),
        leads=("rolling_circumference_ratio", "tyre_speed_needed", "wheel_fastener_torque"),
    ),
    Topic(
        title="Mass and where it lies",
        asks="What does it weigh, and where?",
        matters=("mass",),
        chapters=("mass",),
        leads=("kerb_mass", "laden_mass", "front_axle_share", "cg_height", "yaw_inertia"),
    ),
)  # fmt: skip


def fill(desk: Desk, asked: Asked) -> dict[str, Any]:  # a template takes anything
    """Return what the page shows."""
    return of_topics(desk, TOPICS)


PAGE = Page(
    path="/running-gear",
    title="Running gear",
    asks="Does it stop, steer, ride and hold the road as it should?",
    template="matters.html.j2",
    fill=fill,
    before=lambda desk, asked: draw_topics(desk, TOPICS, asked),
    islands=("plots",),
)
