"""Suspension: frequencies, damping and travel."""

from __future__ import annotations

from drybuild.checks.check import Check

SPRINGS = "Compressed springs can kill: use proper compressors, or leave it to a workshop."

CHECKS = (
    Check(
        id="suspension.ride-frequency",
        asks="Do the springs suit the mass: neither wallowing nor harsh?",
        quantity="ride_frequency",
        at_least="0.9 Hz",
        at_most="2.0 Hz",
        source="gillespie-ride",
        caution=SPRINGS,
        mend="Softer springs lower it, stiffer ones raise it: the rate goes with its square.",
    ),
    Check(
        id="suspension.flat-ride",
        asks="Does the body settle flat after a bump?",
        quantity="flat_ride_ratio",
        at_least="1.05",
        at_most="1.35",
        source="gillespie-ride",
        caution=SPRINGS,
        mend="Spring the rear 10 % to 30 % quicker than the front.",
        advice=True,
    ),
    Check(
        id="suspension.bounce-and-pitch",
        asks="Are bounce and pitch about equally quick?",
        quantity="bounce_pitch_ratio",
        at_most="1.2",
        source="gillespie-ride",
        caution=SPRINGS,
        mend="Bring front and rear frequencies closer together.",
        advice=True,
    ),
    Check(
        id="suspension.damping",
        asks="Do the dampers stop the body without making it harsh?",
        quantity="damping_ratio",
        at_least="0.2",
        at_most="0.5",
        source="gillespie-ride",
        caution=SPRINGS,
        mend="Match the dampers to the springs and the mass; stiffer springs need more damping.",
    ),
    Check(
        id="suspension.wheel-hop",
        asks="Do the wheels hop at a usual frequency?",
        quantity="wheel_hop_frequency",
        at_least="7 Hz",
        at_most="16 Hz",
        source="gillespie-ride",
        mend="Less unsprung mass raises it.",
        advice=True,
    ),
    Check(
        id="suspension.bump-travel",
        asks="Is there bump travel left with everybody aboard?",
        quantity="bump_travel_left",
        at_least="35 mm",
        band="5 mm",
        source="common-practice",
        caution=SPRINGS,
        mend="Lower the car less, fit stiffer springs, or shorten the stops.",
    ),
    Check(
        id="suspension.ground-clearance",
        asks="Does the car clear the road?",
        quantity="ground_clearance",
        at_least="100 mm",
        band="10 mm",
        source="common-practice",
        mend="Lower the car less, or tuck exhaust and sump up.",
    ),
)
