"""How long clearances and the search for a place take: python benchmarks/bench_fit.py.

An engine of some 25 pieces in an engine bay of 20,000 triangles with random dents, so that no
two are in one plane: each piece's clearance, the least margin, the spread, and the whole search
with mounts, sump over the road and both joints of the propshaft as limits.
"""

from __future__ import annotations

import os
import sys
import time
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")

import numpy as np

sys.path.insert(0, str(Path(__file__).resolve().parents[1]))

from tests.truth.test_solids_placing import OUTLINE, sampled_scene

from drybuild.physics.placement.near import Near
from drybuild.physics.placement.question import Question
from drybuild.physics.placement.search import best_place
from drybuild.physics.solids.engines import bell_pieces, engine_pieces
from drybuild.physics.solids.nearest import Nearest
from drybuild.physics.solids.sampled import sampled_gaps
from drybuild.physics.solids.scene import Movement, Pose, Scene
from drybuild.physics.solids.shapes import Sheet, Solid
from drybuild.quantities.packaging_place_limits import (
    MOUNTS,
    line_from_angles,
    mount_points,
    reach_limits,
    road_limit,
    shaft_limits,
)
from drybuild.quantities.packaging_shapes import proportions_of

TRIANGLES = 20_000
ROCK = Movement(name="rock", positions=(0.0, 0.04, -0.04), words=("", "right", "left"))


def bay() -> Sheet:
    """Return an open trough of a bay with dents: floor, walls, bonnet."""
    n = int(np.sqrt(TRIANGLES / 2.0))
    rng = np.random.default_rng(1)
    along, round_ = np.meshgrid(np.linspace(-0.3, 1.0, n + 1), np.linspace(0.0, 2.0 * np.pi, n + 1))
    across = 0.46 * np.sign(np.cos(round_)) * np.abs(np.cos(round_)) ** 0.4
    up = 0.12 + 0.46 * np.sign(np.sin(round_)) * np.abs(np.sin(round_)) ** 0.4
    points = np.stack([along, across, up], axis=2).reshape(-1, 3)
    points += rng.normal(size=points.shape) * 0.002
    corner = (np.arange(n)[:, None] * (n + 1) + np.arange(n)).ravel()
    triangles = np.concatenate(
        [
            np.stack([corner, corner + 1, corner + n + 2], axis=1),
            np.stack([corner, corner + n + 2, corner + n + 1], axis=1),
        ]
    )
    return Sheet(points=points, triangles=triangles.astype(np.int64))


def engine(*, apart: bool) -> tuple[Solid, ...]:
    """Return a usual four; with `apart`, every piece is a solid with a row of its own."""
    kinds = engine_pieces(
        proportions=proportions_of("inline four", "narrow"), outline=OUTLINE, mirrored=False
    )
    pieces = [one for kind in kinds.values() for one in kind]
    pieces += bell_pieces(length=0.35, width=0.36, top=0.18)
    if not apart:
        return (Solid(name="engine", pieces=tuple(pieces), movement="rock"),)
    return tuple(
        Solid(name=one.name, group=f"{one.name} {k}", pieces=(one,), movement="rock")
        for k, one in enumerate(pieces)
    )


def question(scene: Scene) -> Question:
    """Return where the engine may be put, with every kind of limit."""
    start = np.array([0.0, 0.0, 0.0, -0.05, 0.0])
    far = np.array([0.12, 0.04, 0.10, 0.05, 0.02])
    pose = Pose(z=0.0, pitch=-0.05)
    angles = (np.radians([1.8]), np.radians([0.3]))
    line = line_from_angles(
        pose=pose,
        behind=0.8,
        length=np.array([1.1]),
        front=angles,
        rear=angles,
        axle_height=-0.05,
        largest=np.radians([3.2]),
        travel=0.08,
    )
    pieces = [piece for one in scene.moving for piece in one.pieces]
    sump = [one for one in pieces if "sump" in one.name]
    mounts = reach_limits(
        name="mounts",
        alters=MOUNTS,
        points=mount_points(scene.moving),
        reach=0.08,
        start=start,
        roll=0.0,
    )
    road = road_limit(sump=sump, ride_height=np.array([0.4]), need=0.13, roll=0.0)
    held = [road, *shaft_limits(line=line, roll=0.0)]
    return Question(
        scene=replace(scene, needed=lambda _moving, _fixed: 0.015),
        low=start - far,
        high=start + far,
        start=start,
        limits=(*mounts, *(one.limit for one in held)),
    )


def told(words: str, task: Callable[[int], object], runs: int = 20) -> None:
    """Print the middle time of some runs."""
    times = []
    for k in range(runs):
        began = time.perf_counter()
        task(k)
        times.append(time.perf_counter() - began)
    print(f"{words:62} {np.median(times) * 1e3:8.1f} ms")


def main() -> None:
    """Print the figures."""
    sheet = Solid(name="bay", sheet=bay())
    whole = Scene(moving=engine(apart=False), fixed=(sheet,), movements={"rock": ROCK})
    rows = replace(whole, moving=engine(apart=True))
    still = replace(rows, moving=tuple(replace(one, movement="") for one in rows.moving))
    count = len(rows.moving)
    print(f"{count} pieces, {len(sheet.sheet.triangles) if sheet.sheet else 0} triangles")
    told("make the scene ready (once)", lambda _: Nearest(whole), 3)
    for words, scene in (("at rest", still), ("rocking, 3 positions", rows)):
        near = Nearest(scene)
        told(
            f"every piece's clearance, {words}",
            lambda k, near=near: near.clearances(Pose(z=0.001 * k, pitch=-0.05)),
        )
    near = Nearest(whole)
    told("least margin only, rocking", lambda k: near.margin(Pose(z=0.001 * k, pitch=-0.05)))
    told("the same, driven into the floor", lambda k: near.margin(Pose(z=0.001 * k - 0.2)))
    asked = question(whole)
    told(
        "the whole search: making ready, grid, climbs, 9 limits",
        lambda _: best_place(question=asked, near=Near(asked.scene)),
        5,
    )
    began = time.process_time()
    found = best_place(question=asked)
    print(f"    of it on the processor {(time.process_time() - began) * 1e3:.0f} ms")
    print(f"    margin {found.spot.margin * 1e3:.1f} mm, limits kept: {found.spot.keeps}")
    scene, pose = sampled_scene(2000)
    told(
        "all pairs among plain walls over 2,000 samples",
        lambda _: sampled_gaps(scene=scene, pose=pose),
    )


if __name__ == "__main__":
    main()
