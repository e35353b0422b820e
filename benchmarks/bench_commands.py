"""Time the commands on the demo build, each in a process of its own, best and median of a few.

``.venv/bin/python benchmarks/bench_commands.py``
"""

from __future__ import annotations

import statistics
import subprocess
import sys
import tempfile
import time
from pathlib import Path

ROOT = Path(__file__).resolve().parents[1]
DEMO = str(ROOT / "examples" / "estate")
TIMES = 5
TARGETS = {"check": 3.0, "schedule": 5.0, "book": 10.0}
"""Seconds on 2 cores, with 2,000 samples and 10,000 runs."""


def main() -> None:
    """Print one line a command."""
    with tempfile.TemporaryDirectory() as out:
        commands = {
            "check": ["check", DEMO],
            "quantities": ["quantities", DEMO, "--json"],
            "schedule": ["schedule", DEMO],
            "next": ["next", DEMO],
            "options": ["options", DEMO],
            "book": ["book", DEMO, "--output", out],
        }
        for name, words in commands.items():
            taken = [once(words) for _ in range(TIMES)]
            target = f", target {TARGETS[name]:.0f} s" if name in TARGETS else ""
            print(
                f"{name:<12} best {min(taken):5.2f} s, median {statistics.median(taken):5.2f} s"
                f"{target}"
            )


def once(words: list[str]) -> float:
    """Run a command in a new process and return the seconds it took."""
    began = time.perf_counter()
    subprocess.run(
        [sys.executable, "-m", "drybuild", *words], check=True, stdout=subprocess.DEVNULL
    )
    return time.perf_counter() - began


if __name__ == "__main__":
    main()
