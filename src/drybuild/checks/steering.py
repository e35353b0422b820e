"""Steering: effort, turns and the turning circle."""

from __future__ import annotations

from drybuild.checks.check import Check

LICENSED = "Steering parts: no welding or heating; have the work inspected; local codes decide."

CHECKS = (
    Check(
        id="steering.effort",
        asks="Can the car be steered into a bend with the force that the regulation allows?",
        quantity="turning_effort",
        at_most="turning_effort_limit",
        source="un-r79",
        caution=LICENSED,
        mend="A slower ratio, a larger steering wheel, less scrub radius, or assistance.",
    ),
    Check(
        id="steering.parking-effort",
        asks="Can the car be parked without strain?",
        quantity="parking_effort",
        label="as fitted",
        at_most="250 N",
        source="common-practice",
        caution=LICENSED,
        mend="Narrower tyres, more pressure, a slower ratio, or assistance.",
        advice=True,
    ),
    Check(
        id="steering.turns",
        asks="Is the steering quick enough?",
        quantity="steering_wheel_turns",
        at_most="5",
        source="common-practice",
        caution=LICENSED,
        mend="A quicker rack or box; the effort grows as much.",
        advice=True,
    ),
    Check(
        id="steering.turning-circle",
        asks="Does the car turn within a usual street?",
        quantity="turning_circle",
        at_most="12.5 m",
        source="common-practice",
        caution=LICENSED,
        mend="More lock, if tyres and arches have room for it.",
        advice=True,
    ),
)
