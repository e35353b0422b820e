"""Time the wheel's room, its gaps over the samples, and the widest-tyre search on the estate.

Run it with ``.venv/bin/python benchmarks/bench_envelope.py``. Beside the clock it tells the
processor's time, which a busy machine disturbs less.
"""

from __future__ import annotations

import time
from collections.abc import Callable
from functools import partial
from pathlib import Path

from drybuild.session import Session

ESTATE = Path(__file__).resolve().parents[1] / "examples" / "estate"
NEEDED = ("laden_axle_load", "fitted_tyres", "measured_fit", "tyre_outside_diameter")


def timed(work: Callable[[], object]) -> tuple[float, float]:
    """Return how long one run takes, by the clock and by the processor, in seconds."""
    begun = (time.perf_counter(), time.process_time())
    work()
    return time.perf_counter() - begun[0], time.process_time() - begun[1]


def run(samples: int) -> dict[str, tuple[float, float]]:
    """Return the best of three times of each stage."""
    best: dict[str, tuple[float, float]] = {}
    for _ in range(3):
        evaluation = Session.open(ESTATE, samples).evaluation
        for name in NEEDED:
            evaluation.result(name)
        for name in (
            "front_wheel_room",
            "front_envelope",
            "rear_wheel_room",
            "rear_envelope",
            "widest_tyres",
        ):
            took = timed(partial(evaluation.result, name))
            known = best.get(name, took)
            best[name] = (min(known[0], took[0]), min(known[1], took[1]))
    return best


if __name__ == "__main__":
    for stage, (clock, processor) in run(2000).items():
        print(f"{stage}: {clock * 1e3:.0f} ms by the clock, {processor * 1e3:.0f} ms of processor")
