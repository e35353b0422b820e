"""The best place of an engine in words, tables and JSON: what holds it, what would have to give."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

import numpy as np

from drybuild.next_steps.placing import Spot, ToMeasure, to_measure, where_to_measure
from drybuild.physics.placement.alterations import Way
from drybuild.physics.placement.search import Found
from drybuild.physics.solids.nearest import Clearance
from drybuild.present.numbers import in_units, unit_for
from drybuild.quantities.graph import Evaluation, summary
from drybuild.quantities.packaging_place import file_place
from drybuild.quantities.packaging_place_alterations import Offered
from drybuild.quantities.packaging_place_search import LimitLeft, Placement

PLACE_COLUMNS = ("direction", "in the file", "best", "move")
DIRECTIONS = {
    "nose": "nose, forward of the front wheels",
    "crank_offset": "crankshaft, left of the middle",
    "crank_height": "crankshaft at the nose, over the sill seam",
    "nose_up": "tilt, nose up",
    "yaw": "turn of the nose to the left",
}
PAIR_COLUMNS = ("what holds it", "gap", "needs", "when")
LIMIT_COLUMNS = ("limit", "left now", "left there", "odds")
WAY_COLUMNS = ("alter", "hours", "cost", "margin then", "take care")
MEASURE_COLUMNS = ("measure", "share of the doubt", "odds if low", "odds if high")
SPOT_COLUMNS = ("pair", "margin", "odds", "at x, y, z")
CAUTION = (
    "Usual shapes and boxes stand in for parts: before cutting or buying, try a template or a bare "
    "block in the bay. Cutting floor, tunnel, bulkhead, towers or cross-member changes what "
    "carries the car: local codes and licensed practice decide. Lift engines with rated gear and "
    "nobody below."
)
Json = dict[str, Any]  # JSON is free-form
Row = tuple[str, ...]


def verdict_words(placement: Placement, units: str) -> str:
    """Return in one or two sentences whether the engine can be placed, and what holds it."""
    found, name = placement.found, placement.engine
    margin = length(found.spot.margin, units)
    if not found.spot.keeps:
        broken = [one.name for one in placement.limits if one.left < -1e-6]
        return f"{name}: no place keeps {_and(broken)} and the clearances at once."
    if found.spot.margin < 0.0:
        lacking = length(-found.spot.margin, units)
        by_wall = {one.fixed: one for one in reversed(found.pairs)}
        held = _and(pair_words(one, units) for one in reversed(by_wall.values()))
        return f"{name}: there is no place for it. Wherever it sits, {lacking} lack: {held}."
    return (
        f"{name}: at the best place {margin} is left over every need, and all of it holds with a "
        f"chance of {placement.chance:.0%}; in the file's place {placement.chance_now:.0%}."
    ).replace("%", " %")


def pair_words(contact: Clearance, units: str) -> str:
    """Return a contact as a person says it."""
    piece, fixed = contact.piece, contact.fixed
    if contact.gap < 0.0:
        return f"the {piece} is {length(-contact.gap, units)} inside the {fixed}"
    return f"the {piece} keeps {length(contact.gap, units)} of the {fixed}"


def place_rows(placement: Placement, engine_length: float, units: str) -> list[Row]:
    """Return where the engine stands and where it would stand best."""
    now = file_place(placement.now.spot.at, engine_length)
    best = file_place(placement.found.spot.at, engine_length)
    rows = []
    for name, words in DIRECTIONS.items():
        unit = "rad" if name in ("nose_up", "yaw") else "m"
        told = [_told(value, unit, units) for value in (now[name], best[name])]
        rows.append((words, *told, _told(best[name] - now[name], unit, units, sign=True)))
    return rows


def pair_rows(found: Found, units: str) -> list[Row]:
    """Return the pairs that hold the place."""
    return [
        (
            f"{one.piece} to {one.fixed}",
            length(one.gap, units),
            length(one.need, units),
            one.position or "at rest",
        )
        for one in found.pairs
    ]


def limit_rows(limits: Iterable[LimitLeft], units: str) -> list[Row]:
    """Return the limits of the place."""
    return [
        (
            one.name,
            _told(one.now, one.unit, units),
            _told(one.left, one.unit, units),
            f"{one.odds:.0%}".replace("%", " %"),
        )
        for one in limits
    ]


def way_rows(placement: Placement, units: str, currency: str) -> list[Row]:
    """Return what would have to be altered, the cheapest first; what is kept is marked."""
    rows: list[Row] = []
    for way in _ways(placement):
        offered = [_offered(placement, one.name) for one in way.alterations]
        words = [
            alteration_words(one, amount, units)
            for one, amount in zip(offered, way.amounts, strict=True)
        ]
        hours = [sum(one.hours[k] for one in offered) / 3600.0 for k in (0, 2)]
        cost = [sum(one.cost[k] for one in offered) for k in (0, 2)]
        rows.append(
            (
                " and ".join(words),
                f"{hours[0]:.0f} to {hours[1]:.0f} h",
                f"{cost[0]:.0f} to {cost[1]:.0f} {currency}",
                length(way.found.spot.margin, units),
                " ".join(dict.fromkeys(one.caution for one in offered if one.caution)),
            )
        )
    return rows


def way_lines(placement: Placement, units: str, currency: str) -> list[str]:
    """Return what would have to be altered as sentences."""
    return [
        f"{words}: {hours}, {cost}; {margin} left then." + (f" {care}" if care else "")
        for words, hours, cost, margin, care in way_rows(placement, units, currency)
    ]


def alteration_words(one: Offered, amount: float, units: str) -> str:
    """Return an alteration with how far it is done."""
    how = ""
    if one.length:
        how = f", {length(amount, units)}"
    elif one.alteration.most < 1.0 and amount > 0.01:
        how = f", by {amount:.0%}".replace("%", " %")
    kept = f" (the brief keeps the {' and the '.join(one.against)})" if one.against else ""
    return f"{one.words}{how}{kept}"


def ways_title(placement: Placement) -> str:
    """Return what stands over the table of ways."""
    if placement.ways and placement.ways.ways:
        return "The least to alter, the cheapest first"
    if placement.ways_against and placement.ways_against.ways:
        return "Nothing that the brief allows will do; what would, against the brief"
    return "Nothing that was tried will do"


def measure_rows(readings: Iterable[ToMeasure], words: Any) -> list[Row]:  # PathWords
    """Return the readings that would settle the fit."""
    return [
        (
            words.of(one.path),
            f"{one.share:.0%}".replace("%", " %"),
            f"{one.if_low:.0%}".replace("%", " %"),
            f"{one.if_high:.0%}".replace("%", " %"),
        )
        for one in readings
    ]


def spot_rows(spots: Iterable[Spot], units: str) -> list[Row]:
    """Return where the tape goes: points in body axes."""
    return [
        (
            one.pair,
            length(one.margin, units),
            f"{one.odds:.0%}".replace("%", " %"),
            ", ".join(
                f"{_number(v, 'm', 'mm', units):.0f}".replace("-", "−") for v in one.at_fixed
            ),
        )
        for one in spots
    ]


def placement_json(placement: Placement, evaluation: Evaluation, engine_length: float) -> Json:
    """Return a placement for other programs, all numbers in SI."""
    nominal, low, high = summary(placement.margin)
    return {
        "engine": placement.engine,
        "fits": placement.found.fits,
        "margin": nominal,
        "low": low,
        "high": high,
        "probability": placement.chance,
        "probability in the file's place": placement.chance_now,
        "place": file_place(placement.found.spot.at, engine_length),
        "place in the file": file_place(placement.now.spot.at, engine_length),
        "held by": [_pair_json(one) for one in placement.found.pairs],
        "held by limits": list(placement.found.limits),
        "limits": [
            {"limit": one.name, "unit": one.unit, "left": one.left, "left now": one.now,
             "probability": one.odds}
            for one in placement.limits
        ],
        "not asked": list(placement.unasked),
        "taken as made to suit": list(placement.made_to_suit),
        "access": [{"part": r.words, "against": r.against, "gap": r.gap} for r in placement.rooms],
        "alter": [_way_json(placement, way) for way in _ways(placement)],
        "measure": [
            {"path": one.path, "share": one.share, "probability if low": one.if_low,
             "probability if high": one.if_high}
            for one in to_measure(placement, evaluation)
        ],
        "where": [
            {"pair": one.pair, "margin": one.margin, "probability": one.odds,
             "point on the engine": list(one.at_moving), "point against": list(one.at_fixed)}
            for one in where_to_measure(placement)
        ],
        "maps": [
            {"across": one.across, "up": one.up, "xs": one.xs.tolist(), "ys": one.ys.tolist(),
             "margins": one.margins.tolist(), "limits kept": (one.kept > 0.5).tolist()}
            for one in placement.maps
        ],
    }  # fmt: skip


def length(metres: float, units: str) -> str:
    """Return a length as the person reads it."""
    return _told(metres, "m", units)


def _ways(placement: Placement) -> tuple[Way, ...]:
    if placement.ways and placement.ways.ways:
        return placement.ways.ways
    return placement.ways_against.ways if placement.ways_against else ()


def _way_json(placement: Placement, way: Way) -> Json:
    parts = []
    for one, amount in zip(way.alterations, way.amounts, strict=True):
        offered = _offered(placement, one.name)
        parts.append(
            {
                "alteration": one.name,
                "words": offered.words,
                "amount": amount,
                "hours": list(offered.hours),
                "cost": list(offered.cost),
                "against": list(offered.against),
                "caution": offered.caution,
            }
        )
    return {
        "parts": parts,
        "cost with hours": way.cost,
        "margin": way.found.spot.margin,
        "held by": [_pair_json(one) for one in way.found.pairs],
    }


def _pair_json(one: Clearance) -> Json:
    return {
        "part": one.piece,
        "against": one.fixed,
        "gap": one.gap,
        "needed": one.need,
        "position": one.position,
        "point on the engine": [float(v) for v in one.at_moving],
        "point against": [float(v) for v in one.at_fixed],
    }


def _offered(placement: Placement, name: str) -> Offered:
    if placement.offers is None:
        raise AssertionError("ways come from offers")
    return placement.offers.offered[name]


def _told(value: float, unit: str, units: str, *, sign: bool = False) -> str:
    shown, digits = {"m": ("mm", 0), "rad": ("deg", 1)}.get(unit, ("%", 1))
    number = _number(value, unit, shown, units) if unit != "-" else value * 100.0
    if unit == "m" and units != "metric":
        digits = 2
    text = f"{number:{'+' if sign else ''}.{digits}f}"
    text = text.removeprefix("-") if float(text) == 0.0 else text.replace("-", "−")
    named = "%" if unit == "-" else unit_for(shown, units, "")
    return f"{text}°" if named in ("deg", "°") else f"{text} {named}"


def _number(value: float, unit: str, shown: str, units: str) -> float:
    return float(in_units(np.array(value), unit, shown, units))


def _and(words: Iterable[str]) -> str:
    *others, last = list(words) or ["nothing"]
    return f"{', '.join(others)} and {last}" if others else last
