"""How long frames take: python benchmarks/bench_frame.py. A general frame library beside it.

One thread for both: on matrices of some three hundred rows, threads cost more than they bring.
"""

from __future__ import annotations

import os
import sys
import time
from collections.abc import Callable
from pathlib import Path

os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")

import numpy as np

sys.path.insert(0, str(Path(__file__).resolve().parents[1]))

from tests.cross.test_frame_pynite import library_motion
from tests.truth.frames import BOX, beams

from drybuild.physics.frame.assembly import Factors, Frame, prepare, unit_factors
from drybuild.physics.frame.cases import Case, torsion_case
from drybuild.physics.frame.modes import free_modes, lumped_mass
from drybuild.physics.frame.reduced import reduced_basis, reduced_stiffness
from drybuild.physics.frame.sampled import sampled_stiffness
from drybuild.physics.frame.sensitivity import slopes
from drybuild.physics.frame.solve import solve

SAMPLES = 2000


def tube_of_panels() -> tuple[Frame, Case]:
    """Return a car-sized frame: about 80 members, 27 panels, some 50 nodes."""
    rng = np.random.default_rng(3)
    ring = [(0.7, 0.0), (0.75, 0.55), (0.5, 1.1), (-0.5, 1.1), (-0.75, 0.55), (-0.7, 0.0)]
    nodes: dict[str, tuple[float, float, float]] = {}
    for k in range(7):
        for side, (y, z) in enumerate(ring):
            x, shift, lift = -0.5 * k, *(0.02 * rng.standard_normal(2))
            nodes[f"{k}{side}"] = (x, y + shift, z + lift)
    nodes["middle"] = (0.0, 0.0, 0.0)
    members = [(f"{k}{s}", f"{k + 1}{s}", BOX) for k in range(6) for s in range(6)]
    members += [(f"{k}{s}", f"{k}{(s + 1) % 6}", BOX) for k in range(1, 7) for s in range(6)]
    members += [(f"0{s}", f"0{s + 1}", BOX) for s in range(5)]
    members += [("00", "middle", BOX), ("middle", "05", BOX)]
    panels = [
        (f"{k}{s}", f"{k + 1}{s}", f"{k + 1}{(s + 1) % 6}", f"{k}{(s + 1) % 6}", 0.0009)
        for k in range(6)
        for s in range(6)
    ][:27]
    frame = beams(nodes, members, panels=panels, joint=1e5)
    case = torsion_case(frame=frame, front=("00", "05"), centre="middle", rear=("60", "65"))
    return frame, case


def timed(words: str, work: Callable[[], object], times: int = 5) -> float:
    """Print and return the best of a few times."""
    best = np.inf
    for _ in range(times):
        start = time.perf_counter()
        work()
        best = min(best, time.perf_counter() - start)
    print(f"{words:58} {1e3 * best:9.1f} ms")
    return float(best)


def main() -> None:
    """Print the table."""
    frame, case = tube_of_panels()
    members, panels = len(frame.members.names), len(frame.panels.names)
    print(f"{members} members, {panels} panels, {6 * len(frame.nodes)} freedoms")

    def whole() -> None:
        elements = prepare(frame=frame)
        factors = unit_factors(elements=elements)
        found = solve(elements=elements, factors=factors, case=case)
        slopes(elements=elements, solution=found)
        mass = lumped_mass(elements=elements, factors=factors) + 1.0
        free_modes(elements=elements, factors=factors, mass=mass, count=3)

    def stiffness() -> None:
        elements = prepare(frame=frame)
        solve(elements=elements, factors=unit_factors(elements=elements), case=case)

    timed("stiffness, three modes, all sensitivities, from nothing", whole)
    ours = timed("stiffness and energies, from nothing", stiffness)
    theirs = timed(
        "the same in PyNiteFEA, two springs for each panel", lambda: library_motion(frame, case), 2
    )
    print(f"{'as many times faster':58} {theirs / ours:9.1f}")
    elements, rng = prepare(frame=frame), np.random.default_rng(1)
    factors = Factors(
        member=np.exp(0.1 * rng.standard_normal((SAMPLES, 1))) * np.ones(members),
        joint=np.exp(0.7 * rng.standard_normal((SAMPLES, 1))) * np.ones(members),
        panel=rng.uniform(0.4, 1.0, (SAMPLES, 1)) * np.ones(panels),
    )

    def full() -> None:
        sampled_stiffness(elements=elements, factors=factors, case=case)

    def blended() -> None:
        some = np.argsort(factors.joint[:, 0])[np.linspace(0, SAMPLES - 1, 12).astype(int)]
        few = Factors(
            member=factors.member[some], joint=factors.joint[some], panel=factors.panel[some]
        )
        basis = reduced_basis(elements=elements, factors=few, case=case)
        reduced_stiffness(basis=basis, factors=factors)

    timed(f"{SAMPLES} sampled frames, each solved in full", full, 1)
    timed(f"{SAMPLES} sampled frames from twelve full solutions", blended, 2)


if __name__ == "__main__":
    main()
