"""Clutch, gearbox, propshaft and axle: whether they carry the engine and turn true."""

from __future__ import annotations

from drybuild.checks.check import Check

SHAFT_CAUTION = (
    "A propshaft that whips or breaks comes through the floor: have it made and balanced by a "
    "driveline shop, and fit a guard loop where local codes ask for one."
)
LIFT_CAUTION = (
    "Gearboxes and axles are heavy: lift them with gear rated for it, never by hand alone."
)
DUST_CAUTION = "Old clutch linings can hold asbestos: no blowing out; wet methods and a mask."

CHECKS = (
    Check(
        id="driveline.clutch-reserve",
        asks="Does the clutch hold the engine with something in hand?",
        quantity="clutch_reserve",
        at_least="1.2",
        source="bosch-handbook-driveline",
        caution=DUST_CAUTION,
        mend="A stronger cover, a larger plate or another lining; 1.5 or more for towing.",
    ),
    Check(
        id="driveline.clutch-pressure",
        asks="Is the pressure on the lining low enough for it to last?",
        quantity="clutch_pressure",
        at_most="clutch_pressure_allowed",
        source="bosch-handbook-driveline",
        caution=DUST_CAUTION,
        mend="A larger plate, or a sintered lining.",
        advice=True,
    ),
    Check(
        id="driveline.gearbox-torque",
        asks="Is the gearbox rated for the engine?",
        quantity="gearbox_torque_margin",
        at_least="1.0",
        caution=LIFT_CAUTION,
        mend="A stronger gearbox, or an engine map that limits the torque in the low gears.",
    ),
    Check(
        id="driveline.axle-torque",
        asks="Is the axle rated for first gear's torque, or for the most that the tyres hold?",
        quantity="axle_torque_margin",
        at_least="1.0",
        caution=LIFT_CAUTION,
        mend="A stronger axle; grippier tyres make it worse.",
    ),
    Check(
        id="driveline.half-shaft",
        asks="Do the half-shafts stand the torque?",
        quantity="half_shaft_stress",
        at_most="half_shaft_stress_allowed",
        source="shigley-torsion",
        caution="A broken half-shaft can let a wheel go on some live axles.",
        mend="Thicker or better shafts; a locked differential loads one shaft most.",
    ),
    Check(
        id="driveline.propshaft-stress",
        asks="Does the propshaft's tube stand the torque?",
        quantity="propshaft_stress",
        at_most="propshaft_stress_allowed",
        source="driveline-manual-j3311",
        caution=SHAFT_CAUTION,
        mend="A larger or thicker tube.",
    ),
    Check(
        id="driveline.propshaft-joints",
        asks="Are the propshaft's joints rated for the torque?",
        quantity="propshaft_joint_margin",
        at_least="1.0",
        source="driveline-manual-j3311",
        caution=SHAFT_CAUTION,
        mend="The next larger joint series at both ends.",
    ),
    Check(
        id="driveline.propshaft-whirl",
        asks="Does the propshaft stay well below its critical speed?",
        quantity="propshaft_speed_share",
        at_most="0.75",
        source="sae-ae-7",
        caution=SHAFT_CAUTION,
        mend="A shaft in two pieces with a bearing, a larger tube, or less overdrive.",
    ),
    Check(
        id="driveline.joint-angle",
        asks="Is each joint bent enough for its needles to roll?",
        quantity="propshaft_joint_angle",
        at_least="0.5 deg",
        source="driveline-manual-j3311",
        mend="Shim the gearbox or the axle until each joint has at least half a degree.",
        advice=True,
    ),
    Check(
        id="driveline.joint-angles-equal",
        asks="Are the two joint angles alike?",
        quantity="propshaft_angle_difference",
        at_most="1 deg",
        source="driveline-manual-j3311",
        mend="Turn the axle's nose with wedges or link lengths until both angles agree.",
        advice=True,
    ),
    Check(
        id="driveline.joint-excitation",
        asks="Is each joint bent little enough for its speed?",
        quantity="propshaft_joint_excitation",
        at_most="1000 rad/s²",
        source="driveline-manual-j3311",
        caution=SHAFT_CAUTION,
        mend="Straighten the line: raise or lower the gearbox, tilt the axle, or split the shaft.",
    ),
    Check(
        id="driveline.residual-excitation",
        asks="Does the rear joint undo what the front joint does?",
        quantity="propshaft_residual_excitation",
        at_most="400 rad/s²",
        source="sae-ae-7",
        mend="Make the two angles equal and set the yokes in one plane.",
        advice=True,
    ),
)
