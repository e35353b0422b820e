"""What the hardpoints say, for the suspension's chapter; nothing where none are given."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from drybuild.book.numbers import length_text, shown_array, shown_unit
from drybuild.book.pages import Block, Figure, Section, Sheet
from drybuild.book.sheets import beside, figures, path_words, text_of
from drybuild.checks.verdicts import doubt_shares
from drybuild.present.linkage import linkage_drawing
from drybuild.present.plots import Line, lines_plot
from drybuild.quantities.suspension_linkage import known
from drybuild.session import Session

if TYPE_CHECKING:
    from drybuild.physics.linkage.layouts import Swept
    from drybuild.project.samples import Values

GEOMETRY = (
    "linkage_travel",
    "camber_gain",
    "camber_at_bump",
    "bump_steer",
    "toe_change",
    "caster_change",
    "linkage_roll_centre",
    "roll_centre_at_bump",
    "contact_scrub",
    "wheel_recession",
)
DOUBTED = ("bump_steer", "camber_gain", "linkage_roll_centre")
SHAFTS = ("half_shaft_angle", "half_shaft_plunge")
MOST_JOINTS = 8
UNDER_LOAD = ("anti_dive", "anti_lift", "anti_squat")
CURVES = (
    ("camber", "Camber", "rad", "deg"),
    ("toe_in", "Toe-in of a wheel", "rad", "deg"),
    ("roll_centre_height", "Roll centre over the road", "m", "mm"),
)


def geometry(session: Session) -> list[Block]:
    """Return drawings, curves and figures of each end whose hardpoints are given."""
    ends: dict[str, Swept] = {}
    for axle in ("front", "rear"):
        ends |= session.evaluation.result(f"{axle}_rolling").value or {}
    if not ends:
        return []
    blocks: list[Block] = [Section(title="Geometry from the hardpoints")]
    for axle, swept in ends.items():
        blocks.append(_picture(session, axle, swept))
    blocks += beside(session, "Each end", GEOMETRY)
    blocks += figures(session, "Under brakes and drive", UNDER_LOAD)
    blocks += _joints(session)
    blocks += _measure_again(session)
    for axle, swept in ends.items():
        blocks += _curves(session, axle, swept)
    return blocks


def _joints(session: Session) -> list[Block]:
    """Return the joints that come nearest to their limits."""
    result = session.quantities["joint_tilt"]
    worst = sorted(result.labelled().items(), key=lambda pair: -float(pair[1][0]))[:MOST_JOINTS]
    rows = tuple((label, text_of(session, result, values)) for label, values in worst)
    sheet = Sheet(
        title="Joints that tilt most, of what they may",
        columns=("joint", "at full bump or droop"),
        rows=rows,
        widths=(2.4, 1.4),
    )
    return [*([sheet] if rows else []), *figures(session, "Half-shafts", SHAFTS)]


def _measure_again(session: Session) -> list[Block]:
    """Return the readings whose errors matter most to the geometry, worst first."""
    words, rows = path_words(session), []
    for name in DOUBTED:
        result = session.quantities[name]
        for axle, values in result.labelled().items():
            if not np.ptp(values) > 0.0:
                continue
            found = doubt_shares(values, result.inputs, session.evaluation)[:3]
            told = "; ".join(f"{words.of(one.path)} {one.share:.0%}" for one in found)
            rows.append((f"{result.quantity.label}, {axle}", told))
    sheet = Sheet(
        title="Which point's error matters most",
        columns=("figure", "measure again first: share of the doubt"),
        rows=tuple(rows),
        widths=(1.6, 3.0),
    )
    return [sheet] if rows else []


def _picture(session: Session, axle: str, swept: Swept) -> Figure:
    def told(metres: float) -> str:
        return length_text(session, metres)

    stop = swept.motion.stop
    words = f"The {axle} {swept.linkage.mechanism.layout} over its travel."
    return Figure(
        svg=linkage_drawing(swept, told),
        caption=f"{words} Heavy as it stands, dashed at full bump and droop.",
        words=f"{words} {f'Here {stop}.' if stop else 'Every link follows.'}",
    )


def _curves(session: Session, axle: str, swept: Swept) -> list[Block]:
    travel = shown_array(session, swept.motion.travel, "m", "mm")
    found: list[Block] = []
    for name, label, unit, shown in CURVES:
        values = known(getattr(swept.left, name)[:, 0, 0])
        if np.nanmax(np.abs(values), initial=0.0) == 0.0:
            continue  # the wheels of an axle keep camber and toe while it stays level
        low, high = _band(values)
        middle, low, high = (
            shown_array(session, one, unit, shown) for one in (values[:, 0], low, high)
        )
        gap = np.array([np.nan])
        band = Line(
            label="5 % and 95 %",
            x=np.concatenate((travel, gap, travel)),
            y=np.concatenate((low, gap, high)),
        )
        svg = lines_plot(
            [Line(label=label, x=travel, y=middle), band],
            x_label=f"Wheel travel, bump positive [{shown_unit(session, 'mm')}]",
            y_label=f"{label} [{shown_unit(session, shown)}]",
            from_zero=False,
            height=170.0,
        )
        ends = [f"{one:.3g}".replace("-", "−") for one in (middle[0], middle[-1])]
        found.append(
            Figure(
                svg=svg,
                caption=f"{label}, {axle}, over the wheel's travel, with what the tape's spread "
                "makes of it.",
                words=f"From {ends[0]} at full droop to {ends[1]} {shown_unit(session, shown)} at "
                "full bump.",
            )
        )
    return found


def _band(values: Values) -> tuple[Values, Values]:
    """Return the 5 and 95 % of each position; nan where no sample has a solution."""
    there = np.isfinite(values).any(axis=1)
    low, high = np.full(len(values), np.nan), np.full(len(values), np.nan)
    low[there], high[there] = np.nanquantile(values[there], (0.05, 0.95), axis=1)
    return low, high
