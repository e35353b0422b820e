"""Time the sweep of a double wishbone: a fine grid, and many sampled geometries.

Run it with ``.venv/bin/python benchmarks/bench_linkage.py``. The geometry is invented. Beside the
clock it tells the processor's time, which a busy machine disturbs less.
"""

from __future__ import annotations

import time

import numpy as np

from drybuild.physics.linkage.layout import Setting
from drybuild.physics.linkage.layouts import Linkage, Swept, linkage
from drybuild.physics.linkage.wheels import WheelMotion

POINTS = {
    "wheel_centre": (0.0, 0.720, 0.290),
    "lower_front": (0.16, 0.330, 0.205),
    "lower_rear": (-0.22, 0.330, 0.210),
    "lower_outer": (0.01, 0.690, 0.165),
    "upper_front": (0.11, 0.430, 0.500),
    "upper_rear": (-0.10, 0.430, 0.480),
    "upper_outer": (-0.02, 0.640, 0.455),
    "tie_inner": (-0.14, 0.360, 0.245),
    "tie_outer": (-0.13, 0.660, 0.215),
}
OUTPUTS = [name for name, one in vars(WheelMotion).items() if isinstance(one, property)]


def suspension(samples: int) -> Linkage:
    """Return the suspension, its points as found with a tape."""
    rng = np.random.default_rng(1)
    points = {
        name: np.array(one)[:, np.newaxis] + rng.normal(0.0, 1e-3, (3, samples)) * (samples > 1)
        for name, one in POINTS.items()
    }
    setting = Setting(camber=np.zeros(1), toe_in=np.zeros(1), radius=np.array([0.29]))
    return linkage(layout="double wishbone", points=points, setting=setting, spring_arm="")


def everything(swept: Swept) -> int:
    """Read every output; return how many."""
    return len([getattr(swept.left, name) for name in OUTPUTS])


def timed(samples: int, travel: int, steer: int, repeats: int) -> tuple[float, float]:
    """Return the best of some runs, by the clock and by the processor, in seconds."""
    best = (np.inf, np.inf)
    for _ in range(repeats):
        begun = (time.perf_counter(), time.process_time())
        swept = suspension(samples).motion(
            travel=np.linspace(-0.08, 0.08, travel),
            steer=np.linspace(-0.07, 0.07, steer) if steer > 1 else np.zeros(1),
            roll=np.zeros(1),
        )
        everything(swept)
        took = (time.perf_counter() - begun[0], time.process_time() - begun[1])
        best = (min(best[0], took[0]), min(best[1], took[1]))
    return best


def _told(took: tuple[float, float], scale: float, unit: str) -> str:
    clock, processor = took
    return f"{clock * scale:.3g} {unit} by the clock, {processor * scale:.3g} {unit} of processor"


if __name__ == "__main__":
    grid = timed(samples=1, travel=41, steer=21, repeats=20)
    many = timed(samples=2000, travel=21, steer=1, repeats=3)
    print(f"41 travel x 21 steer, {len(OUTPUTS)} outputs: {_told(grid, 1e3, 'ms')}")
    print(f"2,000 samples x 21 travel: {_told(many, 1.0, 's')}")
