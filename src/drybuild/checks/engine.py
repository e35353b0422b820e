"""The engine: whether its figures agree, and whether it lives, shakes, or is live."""

from __future__ import annotations

from drybuild.checks.check import Check

CHECKS = (
    Check(
        id="engine.peaks-agree",
        asks="Do the quoted power and torque belong to one engine?",
        quantity="torque_rise",
        at_least="0.95",
        source="gtcars",
        mend="Ask for a dynamometer sheet: no peak of torque lies below that at peak power.",
    ),
    Check(
        id="engine.piston-speed",
        asks="Are the pistons no faster at peak power than in engines that last?",
        quantity="mean_piston_speed",
        at_most="18 m/s",
        source="cars93",
        mend="Check the speed quoted for peak power; else an engine with a shorter stroke.",
        advice=True,
    ),
    Check(
        id="engine.mount-frequency",
        asks="Is the engine soft enough on its mounts not to shake the car at idle?",
        quantity="mount_roll_frequency",
        at_most="mount_frequency_limit",
        source="den-hartog",
        mend="Softer mounts, or mounts closer together, nearer to the roll axis.",
        advice=True,
    ),
    Check(
        id="engine.high-voltage",
        asks="Is the traction bus below high voltage?",
        quantity="traction_voltage",
        at_most="60 V",
        source="un-r100",
        caution="High voltage kills: orange cables, isolation, service disconnect and contactors "
        "are work for licensed people; local codes decide.",
        mend="Plan licensed work and its inspection; live parts need touch guards and isolation.",
        advice=True,
    ),
)
