"""Shell and body: the survey on a drawing, zone by zone; stiffness, body, cabin and paint."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from drybuild.present.body_survey import (
    Look,
    skin_drawing,
    structure_drawing,
    survey_of,
    survey_words,
)
from drybuild.project.condition import Survey
from drybuild.quantities.quantity import Labelled
from drybuild.tables.condition import GRADES, looks, zones
from drybuild.workbench.desk import Desk
from drybuild.workbench.entries import Reader, typed_at
from drybuild.workbench.pages.matters import Topic, draw_topics, of_topics
from drybuild.workbench.pages.measured import measured_shell
from drybuild.workbench.pages.members import chosen_member, frame_of, members_of, view_of_members
from drybuild.workbench.pages.page import Asked, Page
from drybuild.workbench.places import zone_page

TOPICS = (
    Topic(
        title="Rust and what it takes",
        asks="What is left of the body, and what has to be let in?",
        matters=("condition",),
        chapters=("condition", "repair"),
        leads=("rust_repair_hours", "rust_repair_cost", "rust_sheet_area", "rust_zones_replaced"),
    ),
    Topic(
        title="Straight and square",
        asks="Is the shell straight, square and level, and do the readings agree?",
        matters=("datum",),
        chapters=("datum",),
        leads=("datum_twist", "datum_wheelbase"),
    ),
    Topic(
        title="Stiffness and frame",
        asks="Is the shell stiff and strong enough for what it shall carry?",
        matters=("shell",),
        chapters=("shell",),
        leads=(
            "shell_torsional_stiffness", "shell_stiffness_ratio", "reinforcement_mass",
            "shell_first_mode", "shell_state_torsion", "shell_state_bending",
            "shell_twist_over_bump",
        ),
    ),
    Topic(
        title="Body and cabin",
        asks="Do people, seats and belts fit and hold?",
        matters=("body", "cabin"),
        leads=("effective_headroom", "hip_height", "seat_mount_pull"),
    ),
    Topic(
        title="Paint and blasting",
        asks="How much paint, air and time does the surface take?",
        matters=("paint",),
        chapters=("paint",),
        leads=("painted_area", "paint_volume_total", "paint_mass", "blast_area", "blast_time"),
    ),
)  # fmt: skip
ODDS = ("rust_sound_odds", "rust_patch_odds", "rust_replace_odds")
AT = ("survey", "zones")


@dataclass(frozen=True, kw_only=True)
class Zone:
    """A zone of the body as its form shows it."""

    name: str
    words: str
    look: Look
    note: str
    thickness: str
    """What a gauge read, as typed."""
    new_thickness: str
    """What the sheet was when new, as typed."""
    typed: str
    """The whole finding as it stands in the file."""
    odds: tuple[tuple[str, str], ...]
    """What is believed of it: sound, patch, replace."""


def fill(desk: Desk, asked: Asked) -> dict[str, Any]:  # a template takes anything
    """Return what the page shows."""
    build, chosen = desk.build, asked.get("zone", "")
    reader = Reader(build, desk.session.evaluation, desk.doubts())
    survey = survey_of(build, zone_page, chosen)
    odds = _odds(desk)
    told = {name: _zone(desk, name, survey.looks[name], odds) for name in survey.looks}
    life = reader.group("life of the body", Survey, build.tops["survey"], ("survey",), "survey")
    return {
        "zones": list(told.values()),
        "chosen": told.get(chosen),
        "grades": GRADES,
        "ways": looks(),
        "skin": skin_drawing(survey),
        "structure": structure_drawing(survey),
        "seen": survey_words(survey),
        "life": [one for one in life.entries if one.name != "zones"],
        "looked": sum(bool(one.look.found) for one in told.values()),
        "measured": measured_shell(reader),
        **_frame(desk, reader, asked.get("member", "")),
        **of_topics(desk, TOPICS),
    }


def _frame(desk: Desk, reader: Reader, name: str) -> dict[str, Any]:  # a template takes anything
    """Return the view of the frame, its members, and the one that is chosen."""
    frame = frame_of(desk)
    if frame is None:
        return {"view": "", "members": [], "member": None}
    members = members_of(frame.parts)
    return {
        "view": view_of_members(frame.parts, members, name),
        "members": list(members.values()),
        "member": chosen_member(reader, members, name, frame.template),
    }


def _odds(desk: Desk) -> dict[str, Labelled]:
    """Return what is believed of every zone, by grade."""
    results = [desk.session.evaluation.result(one) for one in ODDS]
    return {
        grade: one.labelled() for grade, one in zip(GRADES, results, strict=True) if not one.open
    }


def _zone(desk: Desk, name: str, look: Look, odds: Mapping[str, Labelled]) -> Zone:
    return Zone(
        name=name,
        words=zones(desk.build.zone_kind)[name].words,
        look=look,
        note=typed_at(desk.build, (*AT, name, "note")),
        thickness=typed_at(desk.build, (*AT, name, "thickness")),
        new_thickness=typed_at(desk.build, (*AT, name, "new_thickness")),
        typed=typed_at(desk.build, (*AT, name)),
        odds=tuple((grade, f"{100.0 * float(one[name][0]):.0f} %") for grade, one in odds.items()),
    )


PAGE = Page(
    path="/shell",
    title="Shell and body",
    asks="What is left of the body, what has to be let in, and what does that take?",
    template="shell.html.j2",
    fill=fill,
    before=lambda desk, asked: draw_topics(desk, TOPICS, asked),
    islands=("frame",),
)
