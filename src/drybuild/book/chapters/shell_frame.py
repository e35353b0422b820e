"""The body as a frame in the book: every option side by side, where it strains, what would help."""

from __future__ import annotations

from drybuild.book.pages import Block, Figure, Section, Sheet
from drybuild.book.sheets import by_label, figures, short_of, text_of
from drybuild.present.shell_drawing import shell_drawing, strain_words
from drybuild.project.groups import ThreePoint
from drybuild.project.option import Option
from drybuild.project.readings import Reading
from drybuild.session import Session

FRAME = (
    "shell_frame_torsion",
    "shell_frame_bending",
    "shell_frame_bending_ratio",
    "shell_frame_gain",
    "shell_frame_as_found",
    "shell_frame_joint_rate",
    "shell_frame_tower_spread",
    "shell_frame_modes",
)
COMPARED = ("shell_stiffness_ratio", "shell_frame_bending_ratio", "reinforcement_mass")
MOST = 14
"""Parts that are listed."""
HEADINGS = ("option", "torsion over the original's", "bending", "adds", "price", "waiting", "hours")


def frame_blocks(session: Session) -> list[Block]:
    """Return the comparison of options, the drawing of the strain, and what would help."""
    result = session.evaluation.result("shell_picture")
    if result.open:
        return []
    blocks: list[Block] = [Section(title="The body as a frame"), *_compared(session)]
    blocks.append(
        Figure(
            svg=shell_drawing(result.value),
            caption="Where twisting strains the body: a frame of beams and panels that stands for "
            "it, front to the left, with the work that is picked.",
            words=strain_words(result.value),
        )
    )
    blocks += figures(session, "By the frame model", FRAME)
    blocks += by_label(
        session,
        "What each usual measure would give alone",
        "measure",
        {"torsion": "shell_frame_candidate_gain", "for its steel": "shell_frame_candidate_yield"},
        bands=True,
        widths=(1.6, 1.5, 1.9),
        note="Together they give less or more than their sum. Cutting and welding a body belongs "
        "to licensed practice.",
    )
    blocks += _hardest(session)
    return blocks


def _hardest(session: Session) -> list[Block]:
    """Return the parts whose loss would cost most, with their strain and what metal is worth."""
    names = ("shell_frame_loss", "shell_frame_energy", "shell_frame_worth")
    loss, energy, worth = (session.evaluation.result(name) for name in names)
    if loss.open or energy.open or worth.open:
        return []
    ranked = sorted(loss.labelled(), key=lambda part: -loss.labelled()[part][0])[:MOST]
    rows = tuple(
        (
            part,
            *(
                short_of(session, one, one.labelled()[part]) if part in one.labelled() else ""
                for one in (loss, energy, worth)
            ),
        )
        for part in ranked
    )
    return [
        Sheet(
            title="Parts that twisting leans on most",
            columns=("part, both sides", "lost without it", "share of strain", "worth of metal"),
            rows=rows,
            numeric=(1, 2, 3),
            widths=(2.0, 1.2, 1.2, 1.6),
            note="Worth holds for a little metal; a part with little strain may still be needed.",
        )
    ]


def _compared(session: Session) -> list[Block]:
    """Return a row an option: what it changes, weighs, costs and takes."""
    rows = []
    for name, option in session.build.options.get("shell", {}).items():
        picks = {**session.build.assumed_picks(), "shell": name}
        cells = []
        for quantity in COMPARED:
            result = session.evaluation.result(quantity, picks)
            cells.append("" if result.open else text_of(session, result, result.value))
        rows.append((name, *cells, *_given(option)))
    sheet = Sheet(
        title="Every option for the shell, side by side",
        columns=HEADINGS,
        rows=tuple(rows),
        widths=(1.6, 1.6, 1.4, 1.3, 0.9, 0.9, 1.2),
        note="Change against the original first: it is surer than any stiffness on its own.",
    )
    return [sheet] if len(rows) > 1 else []


def _given(option: Option) -> tuple[str, str, str]:
    """Return price, lead time and hours of fitting as the file has them."""
    price, wait, fitting = (option.given.get(key) for key in ("price", "lead_time", "fitting"))
    hours = ""
    if isinstance(fitting, ThreePoint):
        three = (fitting.least, fitting.likely, fitting.most)
        hours = " / ".join(f"{one / 3600.0:g}" for one in three) + " h"
    return (
        price.text if isinstance(price, Reading) else "",
        wait.text if isinstance(wait, Reading) else "",
        hours,
    )
