"""Ride: comfort, contact with the road, and travel in use."""

from __future__ import annotations

from drybuild.checks.check import Check

CHECKS = (
    Check(
        id="ride.comfort",
        asks="Does the floor shake little enough on the roads of the brief?",
        quantity="ride_comfort",
        at_most="0.63 m/s²",
        source="iso-2631-1-annex-c",
        mend="Softer springs, less unsprung mass, taller tyres, or dampers that suit.",
        advice=True,
    ),
    Check(
        id="ride.road-contact",
        asks="Do the tyres keep their hold on the roughest road of the brief?",
        quantity="dynamic_wheel_load_share",
        at_most="33 %",
        source="definition",
        caution="A wheel in the air neither brakes nor steers.",
        mend="Less unsprung mass, or more damping.",
    ),
    Check(
        id="ride.bump-stops",
        asks="Do the springs stay off their stops on the roughest road of the brief?",
        quantity="travel_in_hand",
        at_least="0 mm",
        band="5 mm",
        source="definition",
        mend="Lower the car less, or fit stiffer springs or more damping.",
    ),
)
