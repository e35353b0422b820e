"""Questions about exhaust and intake: can the engine breathe."""

from __future__ import annotations

from drybuild.checks.check import Check

FUMES = (
    "Exhaust gas kills in a closed room, and a leak under the floor reaches the cabin. Hot pipes "
    "set fire to fuel, sound insulation and dry grass. Noise and emissions: local codes decide."
)

CHECKS = (
    Check(
        id="exhaust.back-pressure",
        asks="Does the exhaust let the gas out without much back pressure?",
        quantity="exhaust_back_pressure",
        at_most="25 kPa",
        source="common-practice",
        caution=FUMES,
        mend="A wider pipe, drawn instead of crushed bends, straight-through silencers, or two "
        "pipes.",
        advice=True,
    ),
    Check(
        id="exhaust.mach",
        asks="Is the gas slow enough in the pipe?",
        quantity="exhaust_mach_number",
        at_most="0.35",
        source="common-practice",
        caution=FUMES,
        mend="A wider pipe, or two.",
        advice=True,
    ),
    Check(
        id="exhaust.intake-duct",
        asks="Is the intake duct wide enough?",
        quantity="intake_duct_velocity",
        at_most="45 m/s",
        source="common-practice",
        mend="A wider duct from the filter to the engine.",
        advice=True,
    ),
    Check(
        id="exhaust.intake-air",
        asks="Does the engine get cool air?",
        quantity="intake_density_loss",
        at_most="15 %",
        source="common-practice",
        mend="Air from ahead of the radiator, and a larger filter.",
        advice=True,
    ),
)
