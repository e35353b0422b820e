from __future__ import annotations

import xml.etree.ElementTree as ET

import numpy as np
import pytest
from tests.linkages import ALL, BOOK, moved

from drybuild.present.linkage import linkage_drawing

TRAVEL = np.linspace(-0.05, 0.05, 5)


@pytest.mark.parametrize("layout", ALL)
def test_every_layout_has_a_drawing(layout: str) -> None:
    svg = linkage_drawing(
        moved(layout, ALL[layout], travel=TRAVEL), lambda metres: f"{metres * 1e3:.0f} mm"
    )
    root = ET.fromstring(svg)
    lines = [one for one in root.iter() if one.tag.endswith("path")]
    wheels = 2 if "axle" in layout and layout != "swing axle" else 1
    assert len(lines) >= 6 * (wheels + 1)
    assert "bump 50 mm" in svg
    assert "nan" not in svg


def test_rods_keep_their_lengths_over_the_travel() -> None:
    swept = moved("double wishbone", BOOK, travel=TRAVEL)
    lengths = [
        [np.linalg.norm(one.end - one.start) for one in swept.rods(place)] for place in range(5)
    ]
    assert np.ptp(np.array(lengths), axis=0).max() < 1e-9


def test_the_wheel_is_drawn_standing_on_the_road() -> None:
    swept = moved("double wishbone", BOOK, travel=TRAVEL)
    lowest = min(point[2] for point in swept.left.outline(2, corners=720))
    assert lowest == pytest.approx(float(swept.left.contact_height[2, 0, 0, 0]), abs=1e-5)
