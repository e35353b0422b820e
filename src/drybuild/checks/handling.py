"""Handling: roll, understeer, balance at the limit, and tipping over."""

from __future__ import annotations

from drybuild.checks.check import Check

TRIAL = "Try a changed car on closed ground first; the road needs an inspected and approved car."

CHECKS = (
    Check(
        id="handling.roll-gradient",
        asks="Does the body roll no more than soft cars of its day?",
        quantity="roll_gradient",
        at_most="8.5 deg/g",
        band="0.5 deg/g",
        source="milliken",
        mend="A stiffer anti-roll bar, stiffer springs, or a lower centre of gravity.",
        advice=True,
    ),
    Check(
        id="handling.understeer",
        asks="Does the car understeer, so that it stays stable at speed?",
        quantity="understeer_gradient",
        at_least="0 deg/g",
        band="0.5 deg/g",
        source="gillespie-handling",
        caution=TRIAL,
        mend="More roll stiffness in front or less behind, more front mass, or better rear tyres.",
    ),
    Check(
        id="handling.dullness",
        asks="Does the car still answer the steering wheel?",
        quantity="understeer_gradient",
        at_most="5 deg/g",
        source="common-practice",
        mend="Less roll stiffness in front, or tyres with more cornering stiffness.",
        advice=True,
    ),
    Check(
        id="handling.limit-balance",
        asks="Does the front slide before the rear?",
        quantity="limit_balance",
        at_least="0 g",
        source="milliken",
        caution=TRIAL,
        mend="More roll stiffness in front, or less behind.",
        advice=True,
    ),
    Check(
        id="handling.load-transfer",
        asks="Does the front take a little more of the load transfer than of the weight?",
        quantity="load_transfer_lead",
        at_least="0 %",
        at_most="12 %",
        source="milliken",
        mend="Shift roll stiffness from one end to the other with the anti-roll bars.",
        advice=True,
    ),
    Check(
        id="handling.yaw-damping",
        asks="Does a swing at 100 km/h die away at once?",
        quantity="yaw_damping",
        at_least="0.4",
        source="common-practice",
        caution=TRIAL,
        mend="Less understeer, or tyres with more cornering stiffness.",
        advice=True,
    ),
    Check(
        id="handling.tipping",
        asks="Is the car wide enough for its height not to tip over?",
        quantity="static_stability_factor",
        at_least="1.04",
        band="0.03",
        source="nhtsa-rollover-stars",
        caution="A tall car can roll over before it slides: do not raise it further.",
        mend="Lower the mass, or widen the track.",
    ),
)
