"""Wheels: whether they clear the brakes and the arches, and are held on."""

from __future__ import annotations

from drybuild.checks.check import Check

CAUTION = (
    "Wheels: offer up a real wheel with the brakes on, turn it through lock and bump, and torque "
    "it again after 50 km; local codes decide on altered wheels."
)


def _least_wheel(system: str, words: str, label: str) -> Check:
    return Check(
        id=f"wheels.least-diameter-{system.replace('_', '-')}",
        asks=f"Are the wheels as large as the {words} asks for?",
        quantity="wheel_diameter",
        at_least=f"least_wheel_diameter_{system}",
        source="the-build-file",
        caution=CAUTION,
        mend="Larger wheels, or another option that goes inside the present ones.",
        fails=f"the {words} needs wheels of {{limit}}, these are {{value}}",
        label=label,
    )


def _envelope(axle: str, through: str) -> Check:
    return Check(
        id=f"wheels.{axle}-envelope",
        asks=f"Does the {axle} tyre clear all that is round it, {through}?",
        quantity=f"{axle}_tyre_clearance",
        at_least=f"{axle}_tyre_air",
        band="2 mm",
        source="common-practice",
        caution=CAUTION,
        mend="Another offset or a narrower tyre; roll the lip, a longer bump stop, less lock: "
        "drybuild widest says what each buys.",
    )


CHECKS = (
    _least_wheel("front_brakes", "front brake kit", "front"),
    _least_wheel("rear_brakes", "rear brake kit", "rear"),
    _least_wheel("front_suspension", "front suspension", "front"),
    _least_wheel("rear_suspension", "rear suspension", "rear"),
    Check(
        id="wheels.rotor-clearance",
        asks="Do the wheels turn free of the brakes inside them?",
        quantity="rotor_clearance",
        at_least="3 mm",
        band="1 mm",
        source="common-practice",
        caution=CAUTION,
        mend="Larger wheels, a smaller disc, or a thinner caliper; measure the barrel itself.",
        fails="between brake and wheel there is {value} of air, wanted {limit}: by the outlines of "
        "barrel and caliper where both are measured, else by the drop centre, as if it lay over "
        "the caliper; an outline often finds 5 to 15 mm more",
    ),
    Check(
        id="wheels.rotor-practice",
        asks="Is the disc or drum one that goes inside such a wheel?",
        quantity="rotor_diameter",
        at_most="largest_rotor_in_practice",
        source="common-practice",
        caution=CAUTION,
        fails="a disc of {value} is larger than the {limit} that the trade gets inside such a "
        "wheel, whatever its caliper; measured outlines would say it for this very wheel",
        mend="Larger wheels or a smaller disc; settle wheels and tyres before the brakes.",
    ),
    Check(
        id="wheels.spoke-clearance",
        asks="Does the caliper stand clear of the spokes?",
        quantity="spoke_clearance",
        at_least="3 mm",
        band="1 mm",
        source="common-practice",
        caution=CAUTION,
        mend="Wheels whose spokes stand farther out, a thinner caliper, or a spacer that local "
        "codes allow; measure the spokes' back.",
    ),
    _envelope("front", "through travel and lock"),
    _envelope("rear", "through travel and roll"),
    Check(
        id="wheels.inner-clearance",
        asks="Does the tyre clear suspension and body on its inner side?",
        quantity="wheel_inner_clearance",
        at_least="6 mm",
        band="4 mm",
        source="common-practice",
        caution=CAUTION,
        mend="Less offset, a narrower tyre, or a spacer that local codes allow.",
    ),
    Check(
        id="wheels.outer-clearance",
        asks="Does the tyre clear the wing?",
        quantity="wheel_outer_clearance",
        at_least="6 mm",
        band="4 mm",
        source="common-practice",
        caution=CAUTION,
        mend="More offset, a narrower tyre, or work on the wing's edge.",
    ),
    Check(
        id="wheels.radial-clearance",
        asks="Does the tyre clear the arch at full bump?",
        quantity="wheel_radial_clearance",
        at_least="10 mm",
        band="5 mm",
        source="common-practice",
        caution=CAUTION,
        mend="A smaller tyre, or a longer bump stop.",
    ),
    Check(
        id="wheels.load",
        asks="Are the wheels rated for the laden axle?",
        quantity="wheel_load_margin",
        at_least="0 kg",
        source="the-build-file",
        caution=CAUTION,
        mend="Wheels with a higher load rating.",
    ),
    Check(
        id="wheels.fastener-strength",
        asks="Do the wheel fasteners stay well below their proof load?",
        quantity="wheel_fastener_proof_share",
        at_most="90 %",
        source="iso-898-1",
        caution=CAUTION,
        mend="The handbook's torque, dry threads, or a stronger class of stud.",
    ),
    Check(
        id="wheels.fastener-turns",
        asks="Do the wheel fasteners take hold of enough thread?",
        quantity="wheel_fastener_turns",
        at_least="least_fastener_turns",
        source="wheel-torque-trade-tables",
        caution=CAUTION,
        mend="Longer studs or bolts, above all behind spacers and thick alloy wheels.",
    ),
)
