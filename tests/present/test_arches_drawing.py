"""The sketch of the arches: every measure leads to its entry; places lie as they were measured."""

import math
import re

import pytest

from drybuild.present.arches_drawing import SIDES, LipPlace, arches_drawing
from drybuild.present.body_dimensions import Measure


def measure(name: str, value: str = "", **more) -> Measure:
    return Measure(name=name, value=value, given=bool(value), to=f"#e-{name}", **more)


def places(svg: str, tone: str = "ink") -> list[tuple[float, float]]:
    spots = re.findall(r'<circle cx="([\d.]+)" cy="([\d.]+)" r="1.8" class="s-(\w+)', svg)
    return [(float(x), float(y)) for x, y, one in spots if one == tone]


def test_every_measure_leads_to_its_entry_with_its_words():
    known = {
        "front_inner_clearance": measure("front inner clearance", "26 ± 3 mm"),
        "rear_outer_clearance": measure("rear outer clearance", weighs=True, most=True),
        "section_width": measure("section width", "165 mm"),
        "offset": measure("offset", "30 mm"),
    }
    svg = arches_drawing(known, {}, 0.6)
    assert re.findall(r'href="#e-([^"]+)"', svg) == [
        "section width", "offset", "front inner clearance", "rear outer clearance",
    ]  # fmt: skip
    assert ">front 26 ± 3 mm<" in svg
    assert ">rear ?<" in svg
    assert 'class="measure weighs lacking"' in svg


# By hand: from the left the front of the car is to the left, so a place 0 deg round the wheel's
# centre lies to the left of it, one at 90 deg over it. The wheel of 0.6 m is drawn 66 pt wide, so
# a lip at 0.36 m lies 39.6 pt from its centre.
def test_places_round_the_lip_lie_where_they_were_measured():
    taken = [
        LipPlace(angle=math.radians(one), lip=0.36, measure=measure(f"lip {one}", "360 ± 3 mm"))
        for one in (90, 0)
    ]
    svg = arches_drawing({}, {"rear": taken}, 0.6)
    ahead, above = places(svg)
    x, y = SIDES["rear"]
    assert ahead[1] == y
    assert above[0] == x
    assert x - ahead[0] == pytest.approx(y - above[1]) == pytest.approx(39.6)
    assert svg.count(">360 mm<") == 2


def test_where_no_place_was_taken_the_sketch_shows_where_they_would_be():
    svg = arches_drawing({"front": measure("front lip")}, {}, 0.6)
    assert len(places(svg, "blue")) == 3
    assert svg.count(">lip ?<") == 3
