"""Questions about cooling: does it keep its coolant, standing, climbing and running."""

from __future__ import annotations

from drybuild.checks.check import Check

HOT = (
    "Hot coolant scalds, and a cap opened on a hot engine lets it boil out; electric fans start "
    "without warning."
)

CHECKS = (
    Check(
        id="cooling.idle",
        asks="Does the coolant stay short of boiling in traffic on a hot day?",
        quantity="boil_margin",
        label="idle",
        at_least="10 K",
        band="15 K",
        source="common-practice",
        caution=HOT,
        mend="A shroud around the whole core, a stronger fan, or a deeper or cleaner core.",
    ),
    Check(
        id="cooling.climb",
        asks="Does the car climb its steepest long grade on a hot day without boiling?",
        quantity="boil_margin",
        label="climb",
        at_least="5 K",
        band="10 K",
        source="common-practice",
        caution=HOT,
        mend="A larger or cleaner core, a higher cap pressure that the system stands, sealed air "
        "paths to the core, or a slower climb.",
    ),
    Check(
        id="cooling.fast-road",
        asks="Does the coolant stay short of boiling at the usual fast speed on a hot day?",
        quantity="boil_margin",
        label="fast road",
        at_least="10 K",
        band="15 K",
        source="common-practice",
        caution=HOT,
        mend="A larger or cleaner core, sealed air paths to it, or less in front of it.",
    ),
    Check(
        id="cooling.full-power",
        asks="Could the car run flat out on a hot day without boiling?",
        quantity="boil_margin",
        label="full power",
        at_least="5 K",
        source="common-practice",
        caution=HOT,
        mend="A larger core; or do not hold full power for minutes on a hot day.",
        advice=True,
    ),
    Check(
        id="cooling.fan-air",
        asks="Does the fan draw enough air through the core at idle?",
        quantity="cooling_reserve",
        label="idle",
        at_least="1.3",
        source="common-practice",
        caution=HOT,
        mend="A shroud, a larger fan, or a faster one.",
        advice=True,
    ),
    Check(
        id="cooling.freezing",
        asks="Does the coolant stay liquid on a cold day?",
        quantity="freeze_margin",
        at_least="5 K",
        source="melinder-2010",
        caution="Glycol is poisonous and tastes sweet: keep it from children and animals.",
        mend="More glycol, up to 60 % by mass.",
    ),
    Check(
        id="cooling.hose-velocity",
        asks="Are the radiator hoses wide enough for the coolant's flow?",
        quantity="coolant_hose_velocity",
        at_most="3.5 m/s",
        source="common-practice",
        mend="Wider hoses and radiator stubs.",
        advice=True,
    ),
    Check(
        id="cooling.coolant-warming",
        asks="Does the coolant's flow keep the engine evenly warm?",
        quantity="coolant_warming",
        at_most="12 K",
        source="common-practice",
        mend="A larger pump or a faster one, or less resistance in hoses, thermostat and core.",
        advice=True,
    ),
    Check(
        id="cooling.oil-warming",
        asks="Does the oil carry its heat without warming too much on its way?",
        quantity="oil_warming",
        at_most="20 K",
        source="common-practice",
        caution="Hot oil burns skin and catches fire on an exhaust: route and shield its lines.",
        mend="An oil cooler with a thermostat, and a pump that moves more oil.",
        advice=True,
    ),
)
