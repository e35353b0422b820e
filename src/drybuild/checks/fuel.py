"""Questions about the fuel system: pump, lines, vapour, injectors."""

from __future__ import annotations

from drybuild.checks.check import Check

FIRE = (
    "Fuel burns and its vapour explodes: work cold, outdoors, with an extinguisher at hand; use "
    "hose and clips rated for the fuel and pressure, and have the finished system tested for leaks."
)

CHECKS = (
    Check(
        id="fuel.pump-flow",
        asks="Does the pump deliver enough fuel at full power?",
        quantity="pump_margin",
        at_least="1.2",
        source="common-practice",
        caution=FIRE,
        mend="A pump with more flow at the pressure in the car, or thicker wires to it.",
    ),
    Check(
        id="fuel.pressure-line-loss",
        asks="Does the pressure line pass the fuel without losing pressure?",
        quantity="fuel_line_loss",
        label="pressure line",
        at_most="20 kPa",
        source="common-practice",
        caution=FIRE,
        mend="A line of larger bore, fewer tight fittings, or a filter that passes more.",
    ),
    Check(
        id="fuel.line-velocity",
        asks="Is the pressure line wide enough?",
        quantity="fuel_line_velocity",
        label="pressure line",
        at_most="3 m/s",
        source="common-practice",
        caution=FIRE,
        mend="A line of larger bore.",
    ),
    Check(
        id="fuel.suction-velocity",
        asks="Is the line to the pump wide enough?",
        quantity="fuel_line_velocity",
        label="suction line",
        at_most="1 m/s",
        source="common-practice",
        caution=FIRE,
        mend="A suction line of larger bore, or the pump in or beside the tank.",
    ),
    Check(
        id="fuel.vapour",
        asks="Does the fuel stay liquid at the pump on a hot day?",
        quantity="fuel_vapour_margin",
        at_least="5 kPa",
        source="ap-42-7-1",
        caution=FIRE,
        mend="The pump lower and nearer the tank, a wider suction line, or lines away from heat.",
    ),
    Check(
        id="fuel.injectors",
        asks="Are the injectors large enough?",
        quantity="injector_duty",
        at_most="85 %",
        source="common-practice",
        caution=FIRE,
        mend="Larger injectors, or more rail pressure with a pump that holds it.",
    ),
)
