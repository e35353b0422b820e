"""The survey on drawings of the body: the skin unfolded, floor and frame from above.

Each zone has the pattern and the letter of what was found there, so that nothing rests on colour.
With addresses each zone is a link; the book draws the same without.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass

from drybuild.physics.condition import thickness_likelihood
from drybuild.present.body_shape import WHEEL, BodyShape, body_shape
from drybuild.present.drawing import WIDTH, Drawing, Point
from drybuild.project.build import Build
from drybuild.project.readings import Reading
from drybuild.project.samples import HALF_BAND
from drybuild.tables.body_place import Place, places
from drybuild.tables.condition import GRADES, left_by_state, zones

MARGIN, GAP, KEY = 16.0, 20.0, 24.0
LETTERS = {"sound": "S", "patch": "P", "replace": "R", "": "?"}
WORDS = {"sound": "sound", "patch": "wants a patch", "replace": "to be replaced", "": "not known"}
FILLS = {"sound": "pale-green", "patch": "pale-amber", "replace": "pale-orange", "": "paper"}
EDGES = {"sound": "green", "patch": "amber", "replace": "orange", "": "faint"}
Box = tuple[float, float, float, float]


@dataclass(frozen=True, kw_only=True)
class Look:
    """What is known of a zone."""

    found: str
    """sound, patch, replace, or nothing."""
    judged: str
    carries: bool

    @property
    def words(self) -> str:
        """What a reader is told of it."""
        how = f", {self.judged}" if self.judged and self.found else ""
        return WORDS[self.found] + how + (", carries load" if self.carries else "")


@dataclass(frozen=True, kw_only=True)
class Survey:
    """What a drawing of the survey shows."""

    shape: BodyShape
    kind: str
    looks: Mapping[str, Look]
    address: Callable[[str], str] | None = None
    """Where a zone leads; without it nothing is a link."""
    chosen: str = ""
    marks: Mapping[str, str] | None = None
    """What is written on each zone instead of the letter of its finding."""

    def mark(self, zone: str) -> str:
        """Return what is written on a zone."""
        found = LETTERS[self.looks[zone].found]
        return found if self.marks is None else self.marks.get(zone, "")


def survey_of(
    build: Build, address: Callable[[str], str] | None = None, chosen: str = ""
) -> Survey:
    """Return what a build's survey says, ready to be drawn."""
    given = build.tops["survey"].given.get("zones")
    findings = given if isinstance(given, dict) else {}
    looks = {}
    for zone, row in zones(build.zone_kind).items():
        one = findings[zone].given if zone in findings else {}
        found, judged = str(one.get("found") or ""), str(one.get("judged") or "looked")
        gauge = one.get("thickness")
        if not found and isinstance(gauge, Reading):
            found, judged = likeliest(gauge, one.get("new_thickness"), row.thickness), "measured"
        looks[zone] = Look(
            found=found if found in FILLS else "",
            judged=judged if zone in findings else "",
            carries=row.carries,
        )
    return Survey(
        shape=body_shape(build), kind=build.zone_kind, looks=looks, address=address, chosen=chosen
    )


def likeliest(gauge: Reading, new: object, usual: float) -> str:
    """Return the grade that a gauge's reading is likeliest in."""
    sheet = new.value if isinstance(new, Reading) else usual
    means, spreads = left_by_state()
    chances = thickness_likelihood(
        left=gauge.value / sheet,
        left_spread=gauge.spread / HALF_BAND / sheet,
        means=means,
        spreads=spreads,
    )
    return GRADES[chances.index(max(chances))]


def skin_drawing(survey: Survey) -> str:
    """Return the skin unfolded: the right side, from above, the left side; front to the left."""
    shape, scale = survey.shape, _scale(survey.shape)
    side, across = shape.height * scale, shape.width * scale
    low = 0.06 * shape.height * scale
    tops = (MARGIN + low, MARGIN + low + side + GAP, MARGIN + low + side + across + 2.0 * GAP)
    drawing = Drawing(height=tops[2] + side + low + KEY + 8.0)

    def right(height: float) -> float:
        return tops[0] + height * scale

    def left(height: float) -> float:
        return tops[2] + (shape.height - height) * scale

    for name, up in (("right", right), ("left", left)):
        _side(drawing, survey, name, up)
    _from_above(drawing, survey, "top", tops[1])
    for words, at in (("Right side, roof down", MARGIN - 4.0), ("Left side", tops[2] - 4.0)):
        drawing.words((MARGIN, at), words, size=7.5, tone="faint")
    drawing.words((MARGIN, tops[1] - 5.0), "From above", size=7.5, tone="faint")
    _key(drawing, survey, drawing.height - 10.0)
    return drawing.svg()


def structure_drawing(survey: Survey) -> str:
    """Return floor and frame as seen from above through the skin, front to the left."""
    across = survey.shape.width * _scale(survey.shape)
    drawing = Drawing(height=MARGIN + across + KEY + 10.0)
    _from_above(drawing, survey, "under", MARGIN)
    drawing.words((MARGIN, MARGIN - 4.0), "Floor and frame, from above", size=7.5, tone="faint")
    _key(drawing, survey, drawing.height - 10.0)
    return drawing.svg()


def survey_words(survey: Survey) -> str:
    """Return in words what the drawings show, for those who cannot see them."""
    known = [f"{zone} {look.words}" for zone, look in survey.looks.items() if look.found]
    rest = len(survey.looks) - len(known)
    return "; ".join([*known, f"{rest} zones not known"])


def _scale(shape: BodyShape) -> float:
    front, rear = shape.overhang
    return (WIDTH - 2.0 * MARGIN) / (shape.length + 0.2 * (front + rear))


def _across(survey: Survey, station: float) -> float:
    shape = survey.shape
    return MARGIN + (shape.along(station) + 0.2 * shape.overhang[0]) * _scale(shape)


def _side(drawing: Drawing, survey: Survey, name: str, up: Callable[[float], float]) -> None:
    shape, scale = survey.shape, _scale(survey.shape)
    shift = MARGIN + 0.2 * shape.overhang[0] * scale

    def drawn(points: Sequence[Point]) -> list[Point]:
        return [(shift + x * scale, up(z)) for x, z in points]

    drawing.line(drawn(shape.outline()), tone="faint", closed=True)
    if shape.shape != "roadster":
        drawing.line(drawn(shape.glass()), tone="rule", closed=True)
    for place in places(survey.kind):
        if place.view != "side" or place.side != name:
            continue
        rear = place.rear if place.low < 0.7 else shape.behind_roof(place.rear)
        top, bottom = sorted((up(shape.up(place.low)), up(shape.up(place.high))))
        _zone(
            drawing, survey, place,
            (_across(survey, place.front), _across(survey, rear), top, bottom),
        )  # fmt: skip
    for station in (1.0, 2.0):
        middle = (_across(survey, station), up(WHEEL))
        drawing.circle(middle, WHEEL * scale, tone="faint", fill="paper")
        drawing.circle(middle, 0.6 * WHEEL * scale, tone="rule")


def _from_above(drawing: Drawing, survey: Survey, view: str, top: float) -> None:
    shape, scale = survey.shape, _scale(survey.shape)
    half = shape.width * scale / 2.0
    middle = top + half
    corner = (_across(survey, 0.0), _across(survey, 3.0))
    drawing.box(
        corner[0], top, corner[1] - corner[0], 2.0 * half,
        tone="faint", round_=0.32 * half,
    )  # fmt: skip
    if view == "under":
        for station in (1.0, 2.0):
            for edge in (top + 2.0, top + 2.0 * half - 0.2 * half - 2.0):
                wide = 2.0 * WHEEL * scale
                left = _across(survey, station) - wide / 2.0
                drawing.box(left, edge, wide, 0.2 * half, tone="rule", round_=3.0)
    for place in places(survey.kind):
        if place.view != view:
            continue
        front, rear = place.front, place.rear
        if view == "top":
            front, rear = shape.behind_roof(front), shape.behind_roof(rear)
            front, rear = (place.front, place.rear) if place.front < 1.4 else (front, rear)
        ends = (middle + place.low * half, middle + place.high * half)
        _zone(drawing, survey, place, (_across(survey, front), _across(survey, rear), *ends))


def _zone(drawing: Drawing, survey: Survey, place: Place, ends: Box) -> None:
    """Draw a piece of a zone between left, right, top and bottom."""
    look = survey.looks[place.zone]
    left, right, top, bottom = ends
    wide, high = right - left, bottom - top
    chosen = survey.chosen == place.zone
    to = survey.address(place.zone) if survey.address else ""
    with drawing.linked(to, f"{place.zone}: {look.words}", classes="zone", current=chosen):
        fill, edge = FILLS[look.found], EDGES[look.found]
        drawing.box(left, top, wide, high, tone="", fill=fill, round_=1.5)
        for up in {"patch": (True,), "replace": (True, False)}.get(look.found, ()):
            drawing.hatch((left, top, wide, high), tone=edge, step=6.0, up=up)
        weight = 2.4 if chosen else 1.3 if look.carries else 0.7
        tone, dash = ("ink", "") if chosen else (edge, "" if look.found else "2 1.5")
        drawing.box(left, top, wide, high, tone=tone, weight=weight, dash=dash, round_=1.5)
        drawing.words((left + 3.0, top + 8.2), survey.mark(place.zone), size=7.0, bold=True)


def _key(drawing: Drawing, survey: Survey, base: float) -> None:
    at = MARGIN
    for found in ("sound", "patch", "replace", ""):
        box = (at, base - 8.0, 16.0, 10.0)
        drawing.box(*box, tone="", fill=FILLS[found])
        for up in {"patch": (True,), "replace": (True, False)}.get(found, ()):
            drawing.hatch(box, tone=EDGES[found], step=5.0, up=up)
        drawing.box(*box, tone=EDGES[found], dash="" if found else "2 1.5")
        words = f"{LETTERS[found]}  {WORDS[found]}"
        if survey.marks is not None:
            words = WORDS[found] if found else "not on the list"
        drawing.words((at + 20.0, base), words, size=7.5)
        at += 84.0
    drawing.box(at, base - 8.0, 16.0, 10.0, weight=1.3, tone="faint")
    drawing.words((at + 20.0, base), "thick edge: carries load", size=7.5)
