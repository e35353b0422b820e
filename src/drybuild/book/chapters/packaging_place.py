"""Where the engine sits best: its place, what holds it, what would have to give."""

from __future__ import annotations

from drybuild.book.pages import Block, Caution, Chapter, Figure, Sheet, Words
from drybuild.book.sheets import path_words
from drybuild.next_steps.placing import to_measure, where_to_measure
from drybuild.physics.placement.question import DIRECTIONS
from drybuild.present import packaging_place as present
from drybuild.present.packaging_place_map import map_words, place_map
from drybuild.quantities.packaging_place_search import Placement, placement_of
from drybuild.session import Session

INTRO = (
    "The search moves and tilts the engine with its gearbox as far as mounts, support, propshaft, "
    "road and axle load allow, for the most room to spare over every movement."
)
CAPTIONS = {
    "z": "Room to spare over place and height, the rest as at the best place. Dots: room lacks.",
    "pitch": "Room to spare over place and tilt. Hatched: room enough, but a limit is broken.",
}


def placement_chapter(session: Session) -> Chapter:
    """Return the best place of the picked engine, or why there is nothing to place."""
    title = "Fit: where the engine sits best"
    found = placement_of(session.evaluation)
    if isinstance(found, str):
        words = Words(text=f"Nothing is placed: {found}.")
        return Chapter(title=title, intro=INTRO, blocks=(Caution(text=present.CAUTION), words))
    units, currency = session.build.units, session.build.currency
    length = float(session.evaluation.result("engine_size").value[0])
    blocks: list[Block] = [
        Caution(text=present.CAUTION),
        Words(text=present.verdict_words(found, units)),
        _sheet("Its place", present.PLACE_COLUMNS, present.place_rows(found, length, units)),
        *_maps(found, units),
        _sheet("What holds it", present.PAIR_COLUMNS, present.pair_rows(found.found, units)),
        _sheet("Limits of the place", present.LIMIT_COLUMNS,
               present.limit_rows(found.limits, units)),
        *_ways(found, units, currency),
        *_measuring(session, found, units),
        *_words(found),
    ]  # fmt: skip
    return Chapter(title=title, intro=INTRO, blocks=tuple(blocks))


def _sheet(title: str, columns: tuple[str, ...], rows: list[tuple[str, ...]]) -> Sheet:
    return Sheet(title=title, columns=columns, rows=tuple(rows))


def _maps(found: Placement, units: str) -> list[Block]:
    figures: list[Block] = []
    for one in found.maps:
        across, up = DIRECTIONS.index(one.across), DIRECTIONS.index(one.up)
        now, best = found.now.spot.at, found.found.spot.at
        stands = (float(now[across]), float(now[up]))
        wanted = (float(best[across]), float(best[up]))
        figures.append(
            Figure(
                svg=place_map(one, stands, wanted, units),
                caption=CAPTIONS[one.up],
                words=map_words(one),
            )
        )
    return figures


def _ways(found: Placement, units: str, currency: str) -> list[Block]:
    if found.ways is None:
        return []
    rows = present.way_rows(found, units, currency)
    if not rows:
        return [Words(text=present.ways_title(found) + ".")]
    sheet = Sheet(
        title=present.ways_title(found),
        columns=present.WAY_COLUMNS,
        rows=tuple(rows),
        widths=(2.0, 0.8, 1.0, 0.8, 2.4),
        note="Each was proven by a search with it done. Hours and costs are typical ranges.",
    )
    return [sheet]


def _measuring(session: Session, found: Placement, units: str) -> list[Block]:
    readings = to_measure(found, session.evaluation)
    blocks: list[Block] = []
    if readings:
        blocks.append(
            Sheet(
                title="What to measure next to settle it",
                columns=present.MEASURE_COLUMNS,
                rows=tuple(present.measure_rows(readings, path_words(session))),
                widths=(3.4, 1.0, 0.9, 0.9),
                note="The odds are those of the whole fit, if the reading turns out in its lowest "
                "or highest third.",
            )
        )
    blocks.append(
        Sheet(
            title="Where it is decided",
            columns=present.SPOT_COLUMNS,
            rows=tuple(present.spot_rows(where_to_measure(found), units)),
            note="Points on what stands, at the best place: x forward of the front wheel centres, "
            "y left, z over the sill seam.",
        )
    )
    return blocks


def _words(found: Placement) -> list[Block]:
    points = [
        f"In the way of {room.words}: {room.against}." for room in found.rooms if room.gap < 0.0
    ]
    if found.made_to_suit:
        points.append(f"Taken as made to suit: {', '.join(found.made_to_suit)}.")
    points += [f"Not counted: {one}." for one in found.unasked]
    return [Words(points=tuple(points))] if points else []
