"""The shell, cabin and belts sheet."""

from __future__ import annotations

from drybuild.book.chapters.shell_frame import frame_blocks
from drybuild.book.figures import labelled_bars
from drybuild.book.pages import Block, Chapter, Section
from drybuild.book.sheets import by_label, cautions, figures, verdicts_of
from drybuild.session import Session

STIFFNESS = (
    "shell_original_stiffness",
    "shell_torsional_stiffness",
    "shell_stiffness_ratio",
    "reinforcement_mass",
    "reinforcement_yield",
    "shell_first_mode",
    "shell_twist_over_bump",
    "frame_torsional_stiffness",
    "frame_bending_stiffness",
    "rail_closing_gain",
    "glass_stiffness_share",
    "windscreen_mass",
    "windscreen_light",
)
JOINTS = (
    "shell_bolt_use",
    "shell_weld_use",
    "shell_weld_sheet_use",
    "shell_weld_life",
    "shell_welding_current",
)
SEATS = (
    "effective_headroom",
    "hip_height",
    "seat_mount_force",
    "seat_mount_pull",
    "seat_bolt_use",
    "damping_mass",
)
BELTS = (
    "belt_anchorage_spacing",
    "belt_anchorage_spacing_least",
    "shoulder_anchorage_aside",
    "shoulder_anchorage_height",
    "shoulder_anchorage_behind",
    "harness_strap_angle",
)
BAR = (
    "roll_hoop_test_load",
    "roll_bar_tube_area",
    "roll_bar_tube_modulus",
    "roll_bar_tube_weight",
    "roll_bar_tube_share",
    "roll_bar_foot_area",
    "roll_bar_foot_thickness",
    "roll_bar_foot_bolts",
)


def shell_chapter(session: Session) -> Chapter:
    """Return stiffness, joints, seats, belts and bar."""
    blocks: list[Block] = [*cautions(session, "shell", "cabin"), Section(title="Shell")]
    blocks += figures(session, "Stiffness", STIFFNESS)
    blocks += by_label(
        session, "Measure by measure", "measure", {"adds": "reinforcement_stiffness"}, bands=True,
        widths=(1.5, 2.0),
    )  # fmt: skip
    blocks += labelled_bars(
        session, "body_load", caption="Loads that the body has to carry, case by case."
    )
    blocks += frame_blocks(session)
    blocks += figures(session, "Joints of the reinforcement", JOINTS)
    blocks += [Section(title="Cabin and seats"), *figures(session, "Room and mounts", SEATS)]
    blocks += [Section(title="Belts"), *figures(session, "Anchorages", BELTS)]
    blocks += by_label(
        session,
        "Lap belt, side by side",
        "side",
        {"angle": "lap_belt_angle", "at least": "lap_belt_angle_least",
         "at most": "lap_belt_angle_most", "beside the middle": "belt_anchorage_aside"},
        bands=True,
    )  # fmt: skip
    blocks += by_label(session, "", "strap", {"pulled in approval tests with": "belt_test_force"},
                       widths=(1.0, 2.0))  # fmt: skip
    blocks += figures(session, "Roll bar", BAR)
    blocks += verdicts_of(session, "The questions on shell, cabin and belts", "shell", "cabin")
    return Chapter(
        title="Shell, cabin and belts sheet",
        intro="What carries the car and holds its people. These figures size; they approve "
        "nothing.",
        blocks=tuple(blocks),
    )
