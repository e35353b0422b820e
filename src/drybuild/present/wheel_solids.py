"""The front wheels as solids to draw: where they stand, straight ahead, in body axes."""

from __future__ import annotations

import numpy as np
import numpy.typing as npt

from drybuild.quantities.graph import Evaluation

SIDES = 32
"""Corners of a drawn wheel."""
NEEDED = ("tyre_outside_diameter", "tyre_section_width", "track", "ride_height")

Mesh = tuple[npt.NDArray[np.float64], npt.NDArray[np.int64]]
"""Points (points, 3) [m], and corners of triangles (triangles, 3)."""


def front_wheels(evaluation: Evaluation) -> dict[str, Mesh]:
    """Return both front wheels by name; none while their size or place is not known."""
    found = [evaluation.result(name).labelled().get("front") for name in NEEDED]
    known = [float(one[0]) for one in found if one is not None]
    if len(known) < len(NEEDED):
        return {}
    diameter, width, track, ride = known
    up = diameter / 2.0 - ride
    return {
        f"{word} front wheel": _wheel(diameter / 2.0, width, np.array((0.0, y, up)))
        for word, y in (("left", track / 2.0), ("right", -track / 2.0))
    }


def _wheel(radius: float, width: float, middle: npt.NDArray[np.float64]) -> Mesh:
    turn = np.linspace(0.0, 2.0 * np.pi, SIDES, endpoint=False)
    rim = np.stack([radius * np.cos(turn), np.zeros(SIDES), radius * np.sin(turn)], axis=1)
    sides = [middle + np.array((0.0, end * width / 2.0, 0.0)) for end in (-1.0, 1.0)]
    k, after = np.arange(SIDES), (np.arange(SIDES) + 1) % SIDES
    hubs = [np.full(SIDES, 2 * SIDES + side) for side in (0, 1)]
    faces = [
        (k, after, k + SIDES),
        (after, after + SIDES, k + SIDES),
        (hubs[0], after, k),
        (hubs[1], k + SIDES, after + SIDES),
    ]
    points = np.concatenate([rim + sides[0], rim + sides[1], np.array(sides)])
    return points, np.concatenate([np.stack(one, axis=1) for one in faces])
