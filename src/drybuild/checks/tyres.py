"""Tyres: whether they carry the car, at its speed, on these rims."""

from __future__ import annotations

from drybuild.checks.check import Check

CAUTION = (
    "Tyres: have them fitted by a licensed shop; local codes and the tyre maker's list decide."
)

CHECKS = (
    Check(
        id="tyres.load",
        asks="Do the tyres carry the laden car?",
        quantity="tyre_load_margin",
        at_least="0 kg",
        band="20 kg",
        source="iso-4000-1",
        caution=CAUTION,
        mend="Tyres with a higher load index, or a larger size.",
    ),
    Check(
        id="tyres.speed",
        asks="Are the tyres rated for the speed the car is cruised at?",
        quantity="tyre_speed_rating",
        at_least="tyre_speed_needed",
        source="un-r30",
        caution=CAUTION,
        mend="Tyres with a higher speed symbol.",
    ),
    Check(
        id="tyres.pressure",
        asks="Is the cold pressure enough for the laden axle?",
        quantity="tyre_pressure",
        at_least="tyre_pressure_needed",
        source="etrto-passenger-pages",
        caution=CAUTION,
        mend="Raise the pressure, up to what the tyre bears, or take a larger tyre.",
    ),
    Check(
        id="tyres.pressure-limit",
        asks="Does the laden axle need no more pressure than the tyres stand?",
        quantity="tyre_pressure_needed",
        at_most="300 kPa",
        source="common-practice",
        caution=CAUTION,
        mend="A larger tyre or a higher load index.",
        advice=True,
    ),
    Check(
        id="tyres.rim-diameter",
        asks="Do the tyres fit the wheels' diameter?",
        quantity="tyre_rim_mismatch",
        at_least="-0.04 in",
        at_most="0.04 in",
        source="un-r30",
        caution=CAUTION,
        mend="Tyres for the wheels' diameter, or wheels for the tyres'.",
    ),
    Check(
        id="tyres.rim-least",
        asks="Are the rims wide enough for the tyres?",
        quantity="wheel_width",
        at_least="least_rim_width",
        source="etrto-standards-manual",
        caution=CAUTION,
        mend="A narrower tyre or a wider rim; look the pair up in the tyre maker's list.",
    ),
    Check(
        id="tyres.rim-largest",
        asks="Are the rims narrow enough for the tyres?",
        quantity="wheel_width",
        at_most="largest_rim_width",
        source="etrto-standards-manual",
        caution=CAUTION,
        mend="A wider tyre or a narrower rim; look the pair up in the tyre maker's list.",
    ),
)
