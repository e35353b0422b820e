"""The frame in space: places as they are seen, members as links, panels below them."""

import re

from drybuild.present.frame_view import HEIGHT, WIDTH, frame_view
from drybuild.quantities.shell_families import PartLine


def member(name: str, family: str, *corners, share=0.0, added=False) -> PartLine:
    return PartLine(
        name=name, corners=corners, share=share, added=added, family=family, section="sill"
    )


PARTS = (
    member("sill left", "sill", (-0.5, 0.6, 0.0), (-2.0, 0.6, 0.0), share=0.04),
    member("sill right", "sill", (-0.5, -0.6, 0.0), (-2.0, -0.6, 0.0), share=0.03),
    member("bow <1>", "bow <1>", (-1.2, 0.5, 1.0), (-1.2, -0.5, 1.0)),
    PartLine(
        name="roof", share=0.1, added=False, family="roof",
        corners=((-0.8, 0.5, 1.0), (-0.8, -0.5, 1.0), (-1.6, -0.5, 1.0), (-1.6, 0.5, 1.0)),
    ),
)  # fmt: skip
SVG = frame_view(PARTS, {"sill": "/a", "bow <1>": "/b"}, "sill")


def drawn(svg: str) -> dict[str, list[tuple[float, float]]]:
    """Return where each line runs, by its places in the car's axes."""
    return {
        at: [(float(x), float(y)) for x, y in re.findall(r"([\d.]+) ([\d.]+)", path)]
        for path, at in re.findall(r' d="([^"]+)" data-at="([^"]+)"', svg)
    }


# By hand, from ahead of the left side and above: the front lies to the left, what is higher lies
# higher, the left side is nearer and so lower than the right.
def test_it_is_seen_from_ahead_of_the_left_side():
    lines = drawn(SVG)
    front, rear = lines["-0.500 0.600 0.000 -2.000 0.600 0.000"]
    assert front[0] < rear[0]
    right, _ = lines["-0.500 -0.600 0.000 -2.000 -0.600 0.000"]
    assert front[1] > right[1]
    bow = lines["-1.200 0.500 1.000 -1.200 -0.500 1.000"]
    assert max(y for _, y in bow) < min(front[1], rear[1])
    assert all(0.0 < x < WIDTH and 0.0 < y < HEIGHT for line in lines.values() for x, y in line)


def test_both_sides_are_one_link_and_the_chosen_one_is_said_and_drawn_last():
    links = re.findall(r'<a href="(/\w)" class="member" tabindex="-1"( aria-current="true")?', SVG)
    assert links == [("/b", ""), ("/a", ' aria-current="true"')]
    assert "sill: section sill, 7.0 % of the strain in torsion" in SVG
    assert "bow &lt;1&gt;" in SVG
    assert SVG.index('class="panel') < SVG.index("<a ")
