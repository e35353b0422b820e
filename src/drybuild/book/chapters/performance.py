"""The engine, gearing and performance sheet."""

from __future__ import annotations

from drybuild.book.numbers import label_value, nominal_of
from drybuild.book.pages import Block, Chapter, Figure, Section
from drybuild.book.sheets import by_label, cautions, figures, verdicts_of
from drybuild.present import performance as pictures
from drybuild.session import Session

ENGINE = (
    "peak_power",
    "engine_rated_speed",
    "peak_torque",
    "peak_torque_speed",
    "engine_limit_speed",
    "power_to_weight",
    "specific_power",
    "peak_mean_pressure",
    "mean_piston_speed",
)
GOING = (
    "test_mass",
    "zero_to_60_mph",
    "zero_to_100_kmh",
    "eighty_to_120_kmh",
    "quarter_mile_time",
    "quarter_mile_speed",
    "top_speed",
    "top_speed_by_power",
    "cruise_engine_speed",
    "cruise_gradeability",
    "gradeability",
    "launch_grip_use",
    "drag_area",
    "road_load_power_at_110_kmh",
    "fuel_use_at_cruise",
    "fuel_range",
    "electric_use_at_cruise",
    "electric_range",
)
DRIVELINE = (
    "clutch_capacity",
    "clutch_reserve",
    "clutch_pressure",
    "gearbox_torque_margin",
    "axle_torque_margin",
    "half_shaft_stress",
    "mount_reaction",
    "mount_roll_frequency",
    "mount_frequency_limit",
)
SHAFT = (
    "propshaft_design_torque",
    "propshaft_stress",
    "propshaft_joint_margin",
    "propshaft_critical_speed",
    "propshaft_highest_speed",
    "propshaft_speed_share",
    "propshaft_angle_difference",
    "propshaft_residual_excitation",
)
MATTERS = ("engine", "driveline", "performance")


def performance_chapter(session: Session) -> Chapter:
    """Return engine, gears, performance and driveline."""
    blocks: list[Block] = [*cautions(session, *MATTERS), *_engine(session)]
    blocks += figures(session, "Engine", ENGINE)
    blocks += [Section(title="Gearing"), *_drive(session)]
    blocks += by_label(
        session,
        "Gear by gear",
        "gear",
        {
            "gearbox ratio": "gearbox_ratio",
            "overall ratio": "overall_ratio",
            "speed at 1000 rpm": "speed_per_1000_rpm",
            "speed at the limit": "speed_in_gear",
        },
    )
    blocks += by_label(session, "", "shift", {"step": "gear_step"}, widths=(1.0, 1.0))
    blocks += [Section(title="Performance"), *_run(session)]
    blocks += figures(session, "How it goes", GOING)
    blocks += [Section(title="Driveline"), *figures(session, "What it carries", DRIVELINE)]
    blocks += [*_shaft(session), *figures(session, "Propshaft", SHAFT)]
    blocks += by_label(
        session,
        "Its joints",
        "joint",
        {"angle": "propshaft_joint_angle", "fluctuation": "propshaft_fluctuation",
         "excitation": "propshaft_joint_excitation"},
        bands=True,
    )  # fmt: skip
    blocks += verdicts_of(session, "The questions on engine, driveline and performance", *MATTERS)
    return Chapter(
        title="Engine, gearing and performance sheet",
        intro="From the flywheel to the road. Runs are from standstill with two people's weight "
        "aboard, on a dry level road.",
        blocks=tuple(blocks),
    )


def _engine(session: Session) -> list[Block]:
    curve = session.evaluation.result("engine_curve").value
    if curve is None:
        return []
    torque, power = pictures.engine_plot(curve, session.build.units)
    peaks = {name: label_value(session, name) for name in ENGINE[:4]}
    return [
        Figure(
            svg=torque,
            caption="Full-load torque at the flywheel.",
            words=f"Torque peaks at {peaks['peak_torque']} at {peaks['peak_torque_speed']}.",
        ),
        Figure(
            svg=power,
            caption="Full-load power at the flywheel.",
            words=f"Power peaks at {peaks['peak_power']} at {peaks['engine_rated_speed']}.",
        ),
    ]


def _drive(session: Session) -> list[Block]:
    names = ("gearbox_drive", "overall_ratios", "driveline_efficiency", "driven_radius",
             "road_load")  # fmt: skip
    drive, ratios, efficiency, radius, load = (
        session.evaluation.result(name).value for name in names
    )
    grip = nominal_of(session, "launch_traction_limit")
    found = (drive, ratios, efficiency, radius, load)
    if grip is None or any(one is None for one in found):
        return []
    svg = pictures.drive_plot(drive, ratios, efficiency, radius, load, grip, session.build.units)
    return [
        Figure(
            svg=svg,
            caption="Drive force at the road in each gear at full load, against the road load on "
            "the level: where a gear meets it, that gear's top speed lies.",
            words=f"Top speed {label_value(session, 'top_speed')}; the driven tyres hold "
            f"{label_value(session, 'launch_traction_limit')}.",
        )
    ]


def _run(session: Session) -> list[Block]:
    run = session.evaluation.result("acceleration_run").value
    if run is None or nominal_of(session, "zero_to_60_mph") is None:
        return []
    return [
        Figure(
            svg=pictures.run_plot(run, session.build.units),
            caption="Speed from rest at full throttle, shifts included.",
            words=f"To 60 mph in {label_value(session, 'zero_to_60_mph')}, to 100 km/h in "
            f"{label_value(session, 'zero_to_100_kmh')}.",
        )
    ]


def _shaft(session: Session) -> list[Block]:
    angles = [nominal_of(session, "propshaft_joint_angle", end) for end in ("front", "rear")]
    if angles[0] is None or angles[1] is None:
        return []
    told = [label_value(session, "propshaft_joint_angle", end) for end in ("front", "rear")]
    difference = label_value(session, "propshaft_angle_difference")
    words = [
        f"front joint {told[0]}",
        f"rear joint {told[1]}",
        f"joint angles differ by {difference}",
    ]
    return [
        Figure(
            svg=pictures.shaft_drawing(angles[0], angles[1], words),
            caption="Propshaft from the side; angles are drawn three times as steep.",
            words="; ".join(words),
        )
    ]
