"""The drawing of both brakes, the map of bore and ratio, and the words on the servo."""

from __future__ import annotations

from xml.etree import ElementTree as ET

import numpy as np
import pytest
from tests.quantities.test_brakes import car

from drybuild.present.brakes import bounds
from drybuild.present.brakes_drawing import Face, faces_drawing
from drybuild.present.brakes_sizing import (
    adhesion_band_plot,
    odds_words,
    pedal_curve,
    sizing_map,
    unassisted_words,
)

DISC = Face(title="Front: disc", disc=True, diameter=0.256, radius=0.105, pad_height=0.046,
            pistons=2, piston=0.038, wall=0.011, arc=1.92)  # fmt: skip
DRUM = Face(title="Rear: simplex drum", disc=False, diameter=0.229, radius=0.1145,
            pad_height=0.04, pistons=1, piston=0.0206, wall=0.011, arc=1.92)  # fmt: skip
TOLD = {0.256: "256 mm", 0.105: "105 mm", 0.046: "46 mm", 0.038: "38 mm", 0.229: "229 mm",
        0.1145: "114.5 mm", 0.04: "40 mm", 0.0206: "20.6 mm"}  # fmt: skip


@pytest.mark.parametrize(("front", "rear"), [(DISC, DRUM), (DRUM, DISC), (DISC, DISC)])
def test_both_brakes_are_drawn_with_their_sizes(front: Face, rear: Face) -> None:
    svg = faces_drawing(front, rear, TOLD)
    words = " ".join(one.text or "" for one in ET.fromstring(svg).iter() if one.text)
    for one in (front, rear):
        assert f"⌀ {TOLD[one.diameter]}" in words
        assert TOLD[one.piston] in words
        assert ("110°" in words) or one.disc


def test_map_curve_and_corridor_are_drawn() -> None:
    found = car()
    feel, sizing, line, stance = (
        found.result(name).value
        for name in ("pedal_feel", "pedal_sizing", "brake_line", "kerb_stance")
    )
    map_ = sizing_map(sizing, 0.0222, 6.0, "metric")
    assert "as picked" in map_
    assert "500 N" in map_
    assert "60 %" in map_
    assert "floor" in pedal_curve(feel, sizing, feel.bore, feel.ratio, "metric")
    assert "UN R13-H" in adhesion_band_plot(line, stance, bounds())


def test_odds_leave_the_nominal_aside() -> None:
    assert odds_words(np.array([False, True, True, True, False])) == "in 75 of 100"


@pytest.mark.parametrize(("friction", "words"), [("0.15", "They will not do"), ("0.50", "They ")])
def test_the_paragraph_begins_with_its_verdict(friction: str, words: str) -> None:
    found = car(friction=friction)
    unassisted = found.result("unassisted_brakes").value
    limit = found.result("lining_temperature_limit").labelled()
    told = unassisted_words(unassisted, limit, "metric")
    assert told.startswith(words)
    assert "Down the mountain" in told
