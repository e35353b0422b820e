"""Performance: hills, cruising at ease, the use of its power, range."""

from __future__ import annotations

from drybuild.checks.check import Check

CHECKS = (
    Check(
        id="performance.hill-start",
        asks="Does the laden car start on a steep hill?",
        quantity="gradeability",
        at_least="25 %",
        mend="A lower first gear or final drive, more torque, or more weight on the driven wheels.",
    ),
    Check(
        id="performance.cruise-climb",
        asks="Does top gear hold the cruising speed on a motorway climb?",
        quantity="cruise_gradeability",
        at_least="3 %",
        mend="A shorter top gear or final drive, or more torque at low speed.",
        advice=True,
    ),
    Check(
        id="performance.cruise-engine-speed",
        asks="Is the engine at ease at the cruising speed?",
        quantity="cruise_speed_share",
        at_most="70 %",
        mend="A taller final drive, an overdrive or a gearbox with one more gear.",
        advice=True,
    ),
    Check(
        id="performance.launch-grip",
        asks="Can the driven tyres use first gear?",
        quantity="launch_grip_use",
        at_most="1.5",
        source="gillespie-acceleration",
        caution="More drive than grip spins the wheels on a wet road.",
        mend="A taller first gear, grippier tyres, a limited-slip differential, or a gentle map.",
        advice=True,
    ),
    Check(
        id="performance.gearing",
        asks="Does some gear let the car reach the speed that its power allows?",
        quantity="top_speed_share",
        at_least="90 %",
        source="naunheimer",
        mend="A final drive that brings peak power to the top speed in one of the upper gears.",
        advice=True,
    ),
    Check(
        id="performance.range",
        asks="Does a tank last between fuel stops?",
        quantity="fuel_range",
        at_least="350 km",
        mend="A larger tank, a taller top gear or less drag.",
        advice=True,
    ),
)
