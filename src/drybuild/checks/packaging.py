"""The engine in its bay, rocking on its mounts."""

from __future__ import annotations

from drybuild.checks.check import Check

CAUTION = (
    "Usual shapes and boxes are larger than the parts in them: before cutting or buying, try a "
    "template or a bare block in the bay. Lift engines with rated gear and nobody below."
)
STEERING = (
    "Steering: shaft and joints must turn freely in every position, with the engine at full rock; "
    "have the finished system inspected."
)

CHECKS = (
    Check(
        id="packaging.place",
        asks="Is there any place in the bay where the engine has its room?",
        quantity="place_margin",
        at_least="0 mm",
        source="trade-clearances",
        caution=f"{CAUTION} {STEERING}",
        fails="wherever it sits, room is lacking: {value} over its need{kept}",
        mend="Ask drybuild place for the least to alter: sump, intake, mounts, tunnel, bonnet.",
    ),
    Check(
        id="packaging.bay",
        asks="Does the rocking engine keep clear of everything round it?",
        quantity="bay_clearance",
        at_least="bay_clearance_needed",
        source="trade-clearances",
        caution=f"{CAUTION} {STEERING}",
        mend="Move or tilt the engine; another sump, stiffer mounts, or a thinner radiator.",
    ),
    Check(
        id="packaging.bonnet",
        asks="Does the bonnet close over the rocking engine?",
        quantity="bonnet_clearance",
        at_least="bonnet_clearance_needed",
        caution=CAUTION,
        mend="Lower the engine (watch the sump), tilt it, or take a flatter intake or bonnet.",
    ),
    Check(
        id="packaging.gearbox",
        asks="Does the gearbox keep clear of tunnel and floor while it rocks?",
        quantity="gearbox_clearance",
        at_least="gearbox_clearance_needed",
        source="trade-clearances",
        caution=CAUTION,
        mend="Lower its support, turn the engine's tail, another gearbox, or open the tunnel.",
    ),
    Check(
        id="packaging.radiator",
        asks="Does the rocking engine keep clear of the radiator that is picked?",
        quantity="radiator_clearance",
        at_least="radiator_clearance_needed",
        source="trade-clearances",
        caution="Fans and belts catch fingers and hoses; hot parts age both. "
        "Hold the real radiator, or one of card, in its place.",
        mend="A thinner radiator or fan, one ahead of its panel, or the engine further back.",
    ),
    Check(
        id="packaging.scan",
        asks="Do the points of each mesh lie where they were measured on the car?",
        quantity="mesh_point_stray",
        at_most="12 mm",
        mend="Measure the point that strays most again, here and in the mesh; add a fourth.",
        advice=True,
    ),
    Check(
        id="packaging.sump",
        asks="Does the sump keep off the road?",
        quantity="sump_ground_clearance",
        at_least="130 mm",
        caution=CAUTION,
        mend="A shallower sump, a higher engine, more ride height; a guard is no clearance.",
    ),
)
