"""How long a click takes to show its verdicts: the demo build on the workbench.

Run: ``python benchmarks/bench_workbench.py [clicks]``. Each click takes another option of some
system, as a person would: it is sent to the running server, and the time counts until the whole
answer with the new verdicts has come (first look), and until every verdict is settled on all
draws. Memory is the server's largest resident size.
"""

from __future__ import annotations

import random
import re
import resource
import shutil
import socket
import statistics
import subprocess
import sys
import tempfile
import time
from collections.abc import Iterator
from pathlib import Path

import httpx

DEMO = Path(__file__).resolve().parents[1] / "examples" / "estate"


def main(clicks: int = 50) -> None:
    """Open the demo, click, and print the figures."""
    with tempfile.TemporaryDirectory() as room:
        folder = Path(room) / "estate"
        shutil.copytree(DEMO, folder)
        with socket.socket() as some:
            some.bind(("127.0.0.1", 0))
            port = some.getsockname()[1]
        command = [sys.executable, "-m", "drybuild", "open", str(folder), "--no-browser"]
        begun = time.perf_counter()
        server = subprocess.Popen(
            [*command, "--port", str(port)], stdout=subprocess.PIPE, text=True
        )
        try:
            assert server.stdout is not None
            address = re.search(r"http\S+", server.stdout.readline())
            assert address
            measure(address.group(), f"http://127.0.0.1:{port}", clicks, begun)
        finally:
            server.terminate()
            server.wait()
    used = resource.getrusage(resource.RUSAGE_CHILDREN).ru_maxrss / 1024.0
    print(f"largest memory of the server: {used:.0f} MB")


def measure(entrance: str, base: str, clicks: int, begun: float) -> None:
    """Let a client in, click, and print how long that took."""
    with httpx.Client(base_url=base, follow_redirects=True, timeout=120.0) as client:
        while True:
            try:
                first = client.get(entrance)
                break
            except httpx.ConnectError:
                time.sleep(0.02)
        told = time.perf_counter() - begun
        print(f"first page: {told:.2f} s from the command, {len(first.content) / 1e3:.0f} kB")
        begun = time.perf_counter()
        client.get("/api/verdicts?settled")
        print(f"first settled verdicts: {time.perf_counter() - begun:.2f} s later")
        while not client.get("/api/options").json()["ready"]:
            time.sleep(0.2)
        print(f"choices ready: {time.perf_counter() - begun:.2f} s later")
        shown = client.get("/api/options").json()
        wanted = list(picks(shown["systems"], dict(shown["picks"]), clicks))
        seen, settled = [], []
        for system, option, was in wanted:
            form = {"system": system, "option": option, "was": was, "here": "/choices"}
            begun = time.perf_counter()
            answer = client.post("/pick", data=form, headers={"origin": base})
            seen.append(1e3 * (time.perf_counter() - begun))
            assert answer.status_code == 200, answer.text[:500]
            client.get("/api/verdicts?settled")
            settled.append(1e3 * (time.perf_counter() - begun))
        tell("click to a first look at the verdicts", seen)
        tell("click to settled verdicts", settled)


def picks(
    systems: dict[str, dict[str, object]], picked: dict[str, str], clicks: int
) -> Iterator[tuple[str, str, str]]:
    """Give options to take, with what stood before."""
    dice = random.Random(4)
    for _ in range(clicks):
        system = dice.choice([one for one, options in systems.items() if len(options) > 1])
        was = picked.get(system, "?")
        option = dice.choice([one for one in systems[system] if one != was])
        picked[system] = option
        yield system, option, was


def tell(what: str, found: list[float]) -> None:
    """Print median and 95 % of some times."""
    found = sorted(found)
    late = found[min(len(found) - 1, round(0.95 * len(found)))]
    print(f"{what}: median {statistics.median(found):.0f} ms, 95 % within {late:.0f} ms")


if __name__ == "__main__":
    main(*map(int, sys.argv[1:]))
