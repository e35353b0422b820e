"""Fit: the engine in its bay, with what is left round it."""

from __future__ import annotations

from drybuild.book.numbers import length_text
from drybuild.book.pages import Block, Chapter, Figure, Sheet, Words
from drybuild.book.sheets import cautions, figures, path_words, unknown, verdicts_of
from drybuild.book.tape import tape_blocks
from drybuild.present.packaging import fit_drawing, titles_of, words_of
from drybuild.present.packaging_pairs import STEPS, judged_pairs, near, pair_cells
from drybuild.present.packaging_views import LOOKS, bay_scene_of, view_of
from drybuild.session import Session

CAPTIONS = {
    "side": "From the left, front of the car to the left. Numbers are gaps, the worst first, with "
    "the engine rocking; a full heavy line fails, dashes are tight, dots open, a thin line good.",
    "front": "From the front, the car's left to the right. Heavy lines are walls where they are "
    "cut; parts beyond the cut are drawn too.",
    "plan": "From above, front of the car to the left and its left side below.",
}
TRUE_WIDTH = 170.0 / 175.9
"""Share of a letter sheet's text width that keeps the drawings at their scale. [-]"""
FIGURES = (
    "bay_length",
    "engine_length",
    "engine_width_rocking",
    "engine_rock",
    "bonnet_clearance",
    "sump_ground_clearance",
    "smallest_bay_clearance",
    "bay_margin",
    "bay_fit_chance",
)


def packaging_chapter(session: Session) -> Chapter:
    """Return the engine bay in two views and its clearances."""
    blocks: list[Block] = [*cautions(session, "packaging"), *_drawings(session)]
    blocks += [*_pairs(session), *_settling(session)]
    blocks += tape_blocks(session)
    blocks += figures(session, "Engine and bay", FIGURES)
    blocks += verdicts_of(session, "The questions on fit", "packaging")
    return Chapter(
        title="Fit: the engine in its bay",
        intro="Boxes and usual shapes are drawn round the parts, so they are larger. A clash wants "
        "a template of card or a bare block in the bay before it is believed, and so does a gap.",
        blocks=tuple(blocks),
    )


def _pairs(session: Session) -> list[Block]:
    """Return the table of pairs, the worst first."""
    pairs = judged_pairs(session.evaluation, session.verdicts)
    if not pairs:
        return unknown(session, ("bay_clearance", "gearbox_clearance"))
    shown, far = near(pairs)
    others = f" {far} more pairs are well clear." if far else ""
    sheet = Sheet(
        title="Room round the engine, over every movement",
        columns=("against", "gap", "5 to 95 %", "needs", "verdict", "odds", "nearest there"),
        rows=tuple(pair_cells(one, session.build.units, session.build.currency) for one in shown),
        numeric=(1,),
        states=(4,),
        widths=(1.3, 0.8, 1.3, 0.7, 0.7, 0.6, 2.6),
        note="A gap is the shortest way between the skins, minus the depth where they clash, with "
        "the engine rocked to both sides, the wheels steered and the bonnet on its way down. "
        "Places are x forward of the front wheel centres, y left, z over the sill seam." + others,
    )
    return [sheet]


def _settling(session: Session) -> list[Block]:
    """Say which readings the worst pairs' doubt comes from."""
    told = []
    for verdict in session.verdicts:
        if verdict.check.id in STEPS and verdict.doubts and verdict.worst:
            against = verdict.worst.label or "bonnet"
            words = path_words(session)
            readings = ", ".join(
                f"{words.of(one.path)} ({one.share:.0%})".replace("%", " %")
                for one in verdict.doubts
            )
            told.append(f"Against {against} the doubt comes from {readings}.")
    return [Words(text="What to measure next to settle it. " + " ".join(told))] if told else []


def _drawings(session: Session) -> list[Block]:
    """Return the three views, at a scale that holds on paper."""
    scene = bay_scene_of(session.evaluation)
    if scene is None:
        return [Words(text="The engine is not drawn: it stays, or its outline is not measured.")]
    titles = titles_of(session.build, lambda metres: length_text(session, metres))
    pairs = judged_pairs(session.evaluation, session.verdicts)
    found: list[Block] = []
    for look in LOOKS:
        view = view_of(scene, look, pairs)
        found.append(
            Figure(
                svg=fit_drawing(view, titles),
                caption=CAPTIONS[look.name],
                words=words_of(view, titles),
                width=TRUE_WIDTH if session.build.units == "us" else 1.0,
            )
        )
    return found
