"""Time what a click on a choice costs on the demo build, warm.

Walks the picks of the demo one after the other, and reads the whole state after each: remaining
count, possible options, reasons, what each option rules out.
"""

from __future__ import annotations

import statistics
import time
from pathlib import Path

from drybuild.session import Session

DEMO = Path(__file__).resolve().parents[1] / "examples" / "estate"
WALKS = 5


def main() -> None:
    """Print counts and times."""
    session = Session.open(DEMO)
    began = time.perf_counter()
    total = session.chooser.state({}).total
    print(f"first state {time.perf_counter() - began:.2f} s; {total} complete builds")
    walk = list(session.build.picks.items())
    taken: list[float] = []
    for _ in range(WALKS):
        picks: dict[str, str] = {}
        for system, option in walk:
            picks[system] = option
            began = time.perf_counter()
            session.chooser.state(picks)
            taken.append((time.perf_counter() - began) * 1e3)
    warm = taken[len(walk) :]
    p95 = statistics.quantiles(warm, n=20)[-1]
    print(f"{len(warm)} clicks warm: median {statistics.median(warm):.1f} ms, p95 {p95:.1f} ms")
    print(f"first walk, reasons not yet told: worst {max(taken[: len(walk)]):.1f} ms")


if __name__ == "__main__":
    main()
