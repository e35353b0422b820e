"""The body as stiff as it was, and the reinforcement's joints."""

from __future__ import annotations

from drybuild.checks.check import Check

CAUTION = (
    "Body structure carries people: these sums size, they approve nothing. Structural welding and "
    "any change of frame belong to licensed practice and local codes. Disconnect the battery, keep "
    "fuel and sealer away, watch for fire for an hour."
)

CHECKS = (
    Check(
        id="shell.stiffness-kept",
        asks="Is the body at least as stiff as it was?",
        quantity="shell_stiffness_ratio",
        at_least="1.0",
        caution=CAUTION,
        mend="Close what was cut: a brace across the opening, closed sills, a member put back.",
    ),
    Check(
        id="shell.bending-kept",
        asks="Is the body at least as stiff in bending as it was?",
        quantity="shell_frame_bending_ratio",
        at_least="1.0",
        caution=CAUTION,
        mend="Make the sills or rails good along their whole length, or carry the load past the "
        "cut by a rail underneath.",
    ),
    Check(
        id="shell.bump-stress",
        asks="Are the body's members far from yielding with one wheel on a bump?",
        quantity="shell_frame_bump_stress",
        at_most="120 MPa",
        source="mild-sheet-yield",
        caution=CAUTION,
        mend="Spread the load over a second member, double the wall, or close the section; look "
        "for cracks at the ends of the part that is named.",
        advice=True,
    ),
    Check(
        id="shell.case-stress",
        asks="Does the work leave no load case with more stress than before?",
        quantity="shell_case_stress_ratio",
        at_most="1.0",
        caution=CAUTION,
        mend="Stress gathers where the work ends: taper its ends, carry them on to the next "
        "member, or spread them by a plate.",
        advice=True,
    ),
    Check(
        id="shell.work-joints",
        asks="Do the work's bolts and welds carry what the load cases bring to them?",
        quantity="shell_work_joint_use",
        at_most="100 %",
        source="en-1993-1-8",
        caution=CAUTION,
        mend="More or larger bolts, a longer weld, or a plate that spreads the force over more "
        "sheet.",
    ),
    Check(
        id="shell.belt-points",
        asks="Is the frame round belts and seats far from tearing in an approval test?",
        quantity="shell_belt_stress",
        at_most="270 MPa",
        source="mild-sheet-strength",
        caution="Belts and seats: original or approved anchorages only. An approval pulls at the "
        "whole car; licensed practice judges it, and every weld near an anchorage.",
        mend="Carry the anchorage into a second member, or double the part that is named.",
        advice=True,
    ),
    Check(
        id="shell.bolts",
        asks="Do the reinforcement's bolts carry their force in shear?",
        quantity="shell_bolt_use",
        at_most="100 %",
        source="en-1993-1-8",
        caution=CAUTION,
        mend="More or larger bolts, or a higher class; spread the force over more sheet.",
    ),
    Check(
        id="shell.weld",
        asks="Does the reinforcement's weld carry its force?",
        quantity="shell_weld_use",
        at_most="100 %",
        source="en-1993-1-8",
        caution=CAUTION,
        mend="A longer weld; below 3 mm the code only indicates, so test a piece to destruction.",
    ),
    Check(
        id="shell.weld-sheet",
        asks="Does the sheet beside the weld carry its force?",
        quantity="shell_weld_sheet_use",
        at_most="100 %",
        source="en-1993-1-8",
        caution=CAUTION,
        mend="A spreader plate, a longer weld, or thicker sheet.",
    ),
    Check(
        id="shell.weld-life",
        asks="Does the weld bear its stress two million times?",
        quantity="shell_weld_life",
        at_least="2e6",
        source="iiw-1823-07",
        caution=CAUTION,
        mend="Less stress range (more section, a longer weld), or a kinder detail.",
    ),
    Check(
        id="shell.windscreen-light",
        asks="Does the windscreen let enough light through?",
        quantity="windscreen_light",
        at_least="70 %",
        source="un-r43",
        caution="Sight: laminated glass with an approval mark; local codes decide on tints.",
        mend="A clearer pane.",
    ),
)
