"""Suspension geometry from its hardpoints; not asked where none are given."""

from __future__ import annotations

from drybuild.checks.check import Check

CAREFUL = "Suspension and steering: have changed joints, arms and brackets inspected before use."

CHECKS = (
    Check(
        id="suspension.lock-up",
        asks="Do the links let the wheel through its whole travel?",
        quantity="linkage_travel",
        at_least="1",
        source="definition",
        caution=CAREFUL,
        mend="Measure the named link again, lengthen it, move its bracket, or limit the travel.",
    ),
    Check(
        id="suspension.bump-steer",
        asks="Do the wheels keep their direction over bumps?",
        quantity="bump_steer",
        at_least="-5 deg/m",
        at_most="5 deg/m",
        source="common-practice",
        caution=CAREFUL,
        mend="Raise or lower one end of the tie rod or toe link until it swings as the arm does.",
    ),
    Check(
        id="suspension.roll-centre",
        asks="Is the roll centre where such a suspension usually has it?",
        quantity="linkage_roll_centre",
        at_least="usual_roll_centre_low",
        at_most="usual_roll_centre_high",
        band="5 mm",
        source="reimpell-steering",
        mend="Mind the ride height: lowering drops a wishbone's roll centre faster than the body.",
        advice=True,
    ),
    Check(
        id="suspension.camber-gain",
        asks="Do the wheels lean inward in bump, against the roll?",
        quantity="camber_gain",
        at_least="0 deg/m",
        at_most="60 deg/m",
        source="common-practice",
        caution=CAREFUL,
        mend="A shorter upper arm, or one that falls toward the car, gains more.",
        advice=True,
    ),
    Check(
        id="suspension.anti-dive",
        asks="Does the geometry hold the nose without binding under brakes?",
        quantity="anti_dive",
        at_least="0 %",
        at_most="50 %",
        source="common-practice",
        caution=CAREFUL,
        mend="Incline the arms' axes seen from the side; much of it harshens and binds.",
        advice=True,
    ),
    Check(
        id="suspension.anti-squat",
        asks="Does the geometry hold the tail under power without hopping?",
        quantity="anti_squat",
        at_least="0 %",
        at_most="100 %",
        source="common-practice",
        caution=CAREFUL,
        mend="Raise or lower the front ends of the rear links.",
        advice=True,
    ),
    Check(
        id="suspension.joint-tilt",
        asks="Do ball joints and bushes tilt no further than they may?",
        quantity="joint_tilt",
        at_most="1",
        source="reimpell-steering",
        caution=CAREFUL,
        mend="Turn the named joint's housing to the middle of its swing, or limit the travel.",
    ),
    Check(
        id="suspension.half-shaft",
        asks="Do the half-shafts' joints follow the wheel?",
        quantity="half_shaft_angle",
        at_most="half_shaft_allowed",
        source="common-practice",
        caution=CAREFUL,
        mend="Raise the final drive, limit the droop by a strap, or take joints that bend more.",
    ),
)
