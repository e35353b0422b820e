"""Fit: the engine in its bay, with what is left round it."""

from __future__ import annotations

from drybuild.book.numbers import length_text, nominal_of
from drybuild.book.pages import Block, Chapter, Figure, Sheet, Words
from drybuild.book.sheets import cautions, figures, path_words, unknown, verdicts_of
from drybuild.present.nominal import number
from drybuild.present.packaging import BayView, behind_drawing, boxes_of, side_drawing
from drybuild.present.packaging_pairs import STEPS, near, pair_cells, pairs_of
from drybuild.project.packaging import Bay
from drybuild.project.sections import Section
from drybuild.session import Session

SIDES = ("rear", "front", "right", "left", "bottom", "top")
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
    gaps = {name: session.evaluation.result(name).value for name in set(STEPS.values())}
    pairs = pairs_of(session.verdicts, gaps)
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
    placed = session.evaluation.result("placed_engine").value
    bay = session.build.car.get("bay")
    view = _bay(session, bay) if isinstance(bay, Bay) else None
    if placed is None or view is None:
        return [Words(text="The engine is not drawn: it stays, or its outline is not measured.")]
    rest = boxes_of(placed)
    gaps = {}
    clearance = session.quantities["bay_clearance"]
    for name in clearance.labelled():
        gap = nominal_of(session, "bay_clearance", name)
        if gap is not None:
            gaps[name] = gap
    bonnet = nominal_of(session, "bonnet_clearance")
    if bonnet is not None:
        gaps["bonnet"] = bonnet

    def told(metres: float) -> str:
        return length_text(session, metres)

    words = "; ".join(f"{name} {told(gap)}" for name, gap in gaps.items())
    return [
        Figure(
            svg=side_drawing(rest, view, gaps, told),
            caption="From the left, front of the car to the left. Blue: engine, green: sump, "
            "dashed: what stays in the bay. Gaps are the least ones with the engine rocking.",
            words=f"Side view. Gaps round the engine: {words}.",
        ),
        Figure(
            svg=behind_drawing(rest, view, gaps, told),
            caption="From behind, the car's left to the left. The bonnet is drawn at its highest "
            "and, dashed, at its lowest.",
            words=f"View from behind. Gaps: {words}.",
        ),
    ]


def _bay(session: Session, bay: Bay) -> BayView | None:
    build = session.build
    names = ("bulkhead", "radiator", "tower_width", "rail_width", "rail_top")
    found = {name: number(bay, name, build) for name in names}
    known = {name: value for name, value in found.items() if value is not None}
    if len(known) < len(names):
        return None
    cross = [number(bay, f"crossmember_{end}", build) for end in ("rear", "front", "top")]
    cross_known = [one for one in cross if one is not None]
    ride = nominal_of(session, "ride_height", "front")
    return BayView(
        **known,
        crossmember=(cross_known[0], cross_known[1], cross_known[2])
        if len(cross_known) == 3
        else None,
        bonnet=_bonnet(session, bay, known),
        boxes={
            name: (box[0], box[1], box[2], box[3], box[4], box[5])
            for name, section in _named(bay, "boxes").items()
            if len(box := _sides(session, section)) == len(SIDES)
        },
        ground=None if ride is None else -ride,
    )


def _bonnet(session: Session, bay: Bay, known: dict[str, float]) -> list[tuple[float, float]]:
    stations = [
        (x, z)
        for one in _named(bay, "bonnet").values()
        if (x := number(one, "x", session.build)) is not None
        and (z := number(one, "height", session.build)) is not None
    ]
    if len(stations) > 1:
        return stations
    ends = (("bulkhead", "bonnet_rear"), ("radiator", "bonnet_front"))
    return [(known[at], number(bay, height, session.build) or 0.5) for at, height in ends]


def _named(bay: Bay, name: str) -> dict[str, Section]:
    given = bay.given.get(name)
    return given if isinstance(given, dict) else {}


def _sides(session: Session, section: Section) -> list[float]:
    values = (number(section, side, session.build) for side in SIDES)
    return [one for one in values if one is not None]
