"""The body's frame in space, to be turned: every member leads to where its section is changed.

What is drawn here stands still; each line carries its places in the car's axes, so that a script
can draw it anew from wherever a person looks.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from html import escape

from drybuild.present.drawing import TONES
from drybuild.present.shell_drawing import band_of
from drybuild.quantities.shell_families import PartLine

WIDTH, HEIGHT = 480.0, 250.0
TURN, TILT = math.radians(58.0), math.radians(24.0)
"""From where it is looked at first: from ahead of the left side, a little from above. [rad]"""
FILLED = 0.92
"""How much of the sheet the frame takes at first, across or up."""
TOUCH = 12.0
"""Width of the stripe along a member that answers a finger or a pointer. [pt]"""
Place = tuple[float, float, float]


def frame_view(parts: Sequence[PartLine], links: Mapping[str, str], chosen: str) -> str:
    """Return the frame as SVG: panels below, members above, those of one name as one link.

    Parameters
    ----------
    parts : sequence of PartLine
        Members and panels. [m]
    links : mapping
        Where each member leads, by its name without the side.
    chosen : str
        Name of the member that is chosen.

    Returns
    -------
    str
        The drawing.

    """
    corners = [corner for part in parts for corner in part.corners]
    middle = _middle(corners)
    scale = _scale(corners, middle)
    drawn = [_panel(part, middle, scale) for part in parts if len(part.corners) == 4]
    families: dict[str, list[PartLine]] = {}
    for part in sorted(parts, key=lambda one: one.family == chosen):
        if len(part.corners) == 2:
            families.setdefault(part.family, []).append(part)
    for family, members in families.items():
        lines = "".join(_member(one, middle, scale) for one in members)
        current = ' aria-current="true"' if family == chosen else ""
        words = escape(member_words(family, members))
        drawn.append(
            f'<a href="{escape(links[family])}" class="member" tabindex="-1"{current} '
            f'aria-label="{words}"><title>{words}</title>{lines}</a>'
        )
    where = " ".join(f"{one:.4f}" for one in (*middle, scale, TURN, TILT))
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {WIDTH:g} {HEIGHT:g}" '
        f'width="{WIDTH:g}pt" height="{HEIGHT:g}pt" data-frame="{where}">{"".join(drawn)}</svg>'
    )


def member_words(family: str, members: Sequence[PartLine]) -> str:
    """Return what a member is, and how much of the strain in torsion is in it."""
    share = 100.0 * sum(one.share for one in members)
    return f"{family}: section {members[0].section}, {share:.1f} % of the strain in torsion"


def _middle(corners: Sequence[Place]) -> Place:
    """Return the middle of all corners."""
    x, y, z = ((min(axis) + max(axis)) / 2.0 for axis in zip(*corners, strict=True))
    return x, y, z


def _scale(corners: Sequence[Place], middle: Place) -> float:
    """Return how large the frame is drawn so that the sheet holds it. [pt/m]."""
    spots = [_seen(one, middle) for one in corners]
    across, up = (max(abs(one) for one in axis) or 1.0 for axis in zip(*spots, strict=True))
    return FILLED / 2.0 * min(WIDTH / across, HEIGHT / up)


def _seen(at: Place, middle: Place) -> tuple[float, float]:
    """Return where a place is seen from far away, across and up from the middle. [m]."""
    x, y, z = (a - b for a, b in zip(at, middle, strict=True))
    across = -x * math.sin(TURN) + y * math.cos(TURN)
    depth = x * math.cos(TURN) + y * math.sin(TURN)
    return across, z * math.cos(TILT) - depth * math.sin(TILT)


def _path(part: PartLine, middle: Place, scale: float) -> str:
    """Return the path of a part, and its places for whoever turns it."""
    spots = [_seen(one, middle) for one in part.corners]
    line = "M" + "L".join(
        f"{WIDTH / 2.0 + x * scale:.1f} {HEIGHT / 2.0 - y * scale:.1f}" for x, y in spots
    )
    places = " ".join(f"{value:.3f}" for corner in part.corners for value in corner)
    return f'd="{line}{"Z" if len(spots) == 4 else ""}" data-at="{places}"'


def _panel(part: PartLine, middle: Place, scale: float) -> str:
    return (
        f'<path {_path(part, middle, scale)} class="panel s-rule f-band" '
        f'stroke="{TONES["rule"]}" stroke-width="0.4" fill="{TONES["band"]}" fill-opacity="0.35"/>'
    )


def _member(part: PartLine, middle: Place, scale: float) -> str:
    tone, weight = ("green", 3.0) if part.added else band_of(part.share)
    tone = "faint" if tone == "rule" else tone  # a line to point at must be seen
    path = _path(part, middle, scale)
    return (
        f'<path {path} class="touch" stroke-width="{TOUCH:g}" fill="none"/>'
        f'<path {path} class="s-{tone}" stroke="{TONES[tone]}" stroke-width="{weight + 0.4:g}" '
        'fill="none" stroke-linecap="round"/>'
    )
