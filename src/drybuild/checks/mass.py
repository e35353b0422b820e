"""Mass: what the axles and the car may carry, and how it is spread."""

from __future__ import annotations

from drybuild.checks.check import Check

CHECKS = (
    Check(
        id="mass.axle-load",
        asks="Does each axle carry no more than it may on a usual journey?",
        quantity="laden_axle_load",
        at_most="axle_load_limit",
        source="the-build-file",
        caution="An overloaded axle, hub or tyre can break: local codes and the papers decide.",
        mend="Move or leave out mass at that end, or fit axle, springs and tyres rated for it.",
    ),
    Check(
        id="mass.gross",
        asks="Does the loaded car stay within its permitted mass?",
        quantity="laden_mass",
        at_most="gross_mass_limit",
        source="the-build-file",
        caution="Changing the permitted mass needs the authority that registers the car.",
        mend="Leave mass out, or have the car approved for more.",
    ),
    Check(
        id="mass.front-share",
        asks="Is the mass spread usefully between the axles?",
        quantity="front_axle_share",
        at_least="42 %",
        at_most="62 %",
        band="1 %",
        source="nhtsa-ncap-2004",
        mend="Move battery, tank or radiator, or set the engine further back.",
        advice=True,
    ),
)
