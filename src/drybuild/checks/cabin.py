"""Belts, seats and roll bar where the rules want them, and room for the head."""

from __future__ import annotations

from drybuild.checks.check import Check

BELTS = (
    "Belt and seat mounts hold a person in a crash: these sums compare places with a rule, they "
    "approve nothing. Have the mounts made and inspected by licensed practice; local codes decide."
)
HOOP = (
    "A roll bar near a head without a helmet can kill: pad it, keep it away, and have its mounts "
    "made and inspected by licensed practice; local codes decide."
)

CHECKS = (
    Check(
        id="cabin.lap-belt-flat",
        asks="Does the lap belt pull steeply enough to stay on the hips?",
        quantity="lap_belt_angle",
        at_least="lap_belt_angle_least",
        source="eec-76-115",
        caution=BELTS,
        mend="Move the lower anchorage forward or down.",
    ),
    Check(
        id="cabin.lap-belt-steep",
        asks="Does the lap belt lie flat enough to hold the body back?",
        quantity="lap_belt_angle",
        at_most="lap_belt_angle_most",
        source="eec-76-115",
        caution=BELTS,
        mend="Move the lower anchorage rearward or up.",
    ),
    Check(
        id="cabin.belt-spacing",
        asks="Are the lower anchorages far enough apart?",
        quantity="belt_anchorage_spacing",
        at_least="belt_anchorage_spacing_least",
        source="eec-76-115",
        caution=BELTS,
        mend="Move the anchorages apart, each to its side of the seat.",
    ),
    Check(
        id="cabin.belt-aside",
        asks="Is each lower anchorage beside the hip, not under it?",
        quantity="belt_anchorage_aside",
        at_least="120 mm",
        source="eec-76-115",
        caution=BELTS,
        mend="Move the anchorage out.",
    ),
    Check(
        id="cabin.shoulder-aside",
        asks="Does the shoulder belt pass beside the neck?",
        quantity="shoulder_anchorage_aside",
        at_least="140 mm",
        source="eec-76-115",
        caution=BELTS,
        mend="Move the shoulder anchorage out.",
    ),
    Check(
        id="cabin.shoulder-height",
        asks="Is the shoulder anchorage high enough not to press the spine?",
        quantity="shoulder_anchorage_height",
        at_least="0 mm",
        source="eec-76-115",
        caution=BELTS,
        mend="Raise the shoulder anchorage, or lower the seat.",
    ),
    Check(
        id="cabin.shoulder-behind",
        asks="Is the shoulder anchorage behind the shoulder?",
        quantity="shoulder_anchorage_behind",
        at_least="0 mm",
        source="eec-76-115",
        caution=BELTS,
        mend="Move the shoulder anchorage rearward, or the seat forward.",
    ),
    Check(
        id="cabin.harness-straps",
        asks="Do the harness straps leave the shoulders nearly level?",
        quantity="harness_strap_angle",
        at_most="45 deg",
        source="fia-appendix-j-loads",
        caution=BELTS,
        mend="Raise the anchorage or bring it nearer; 10° or less is better.",
    ),
    Check(
        id="cabin.seat-bolts",
        asks="Do the seat's rear bolts hold in the seat test?",
        quantity="seat_bolt_use",
        at_most="100 %",
        source="fmvss-207",
        caution=BELTS,
        mend="Larger or more bolts with spread plates, mounts further apart, belts on the body.",
    ),
    Check(
        id="cabin.headroom",
        asks="Does a tall driver fit under the roof?",
        quantity="effective_headroom",
        at_least="930 mm",
        mend="A lower seat or runners, a thinner headlining.",
        advice=True,
    ),
    Check(
        id="cabin.roll-bar-tube",
        asks="Is the main hoop's tube at least as strong as the weakest that is listed?",
        quantity="roll_bar_tube_share",
        at_least="1.0",
        source="fia-appendix-j-253",
        caution=HOOP,
        mend="Cold-drawn seamless tube, 45 × 2.5 mm or 50 × 2.0 mm at least.",
    ),
    Check(
        id="cabin.roll-bar-plate",
        asks="Does each foot spread its load over enough sheet?",
        quantity="roll_bar_foot_area",
        at_least="120 cm²",
        source="fia-appendix-j-loads",
        caution=HOOP,
        mend="Larger spread plates, over a sill or a rail.",
    ),
    Check(
        id="cabin.roll-bar-plate-thickness",
        asks="Are the spread plates thick enough?",
        quantity="roll_bar_foot_thickness",
        at_least="3 mm",
        source="fia-appendix-j-loads",
        caution=HOOP,
        mend="Plates of 3 mm or more.",
    ),
    Check(
        id="cabin.roll-bar-bolts",
        asks="Does each foot have enough bolts?",
        quantity="roll_bar_foot_bolts",
        at_least="3",
        source="fia-appendix-j-loads",
        caution=HOOP,
        mend="Three M8 8.8 bolts or more in each foot.",
    ),
)
