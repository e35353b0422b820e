"""How long a click takes to show its verdicts: the demo build on the workbench.

Run: ``python benchmarks/bench_workbench.py [clicks]``. Each click takes another option of some
system, as a person would: it is sent to the running server, and the time counts until the whole
answer with the new verdicts has come (first look), and until every verdict is settled on all
draws. Beside the time by the clock stands the processor time of the server, which other work on
the computer moves less. Memory is what the server and its second processes hold together, pages
that they share counted once, as the system tells it (Linux only), looked at all the while.
"""

from __future__ import annotations

import contextlib
import os
import random
import re
import shutil
import socket
import statistics
import subprocess
import sys
import tempfile
import threading
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
        memory = Memory(server.pid)
        try:
            assert server.stdout is not None
            address = re.search(r"http\S+", server.stdout.readline())
            assert address
            measure(address.group(), f"http://127.0.0.1:{port}", clicks, begun, memory)
        finally:
            memory.stop()
            server.terminate()
            server.wait()
    print(f"load of the computer meanwhile: {os.getloadavg()[1]:.1f} on {os.cpu_count()} cores")


class Memory:
    """What a process and those it started hold, looked at again and again."""

    def __init__(self, number: int) -> None:
        self.number = number
        self.peak: dict[str, float] = {}
        self._over = threading.Event()
        self._watch = threading.Thread(target=self._look, daemon=True)
        self._watch.start()

    def _look(self) -> None:
        while not self._over.wait(0.1):
            held = [_held(one) for one in (self.number, *_started_by(self.number))]
            for name, found in (("server", held[0]), ("second", sum(held[1:])), ("", sum(held))):
                self.peak[name] = max(self.peak.get(name, 0.0), found)

    def tell(self, when: str) -> None:
        """Print the peaks since the last time, and what is held now."""
        if not self.peak:
            return
        now = sum(_held(one) for one in (self.number, *_started_by(self.number)))
        print(
            f"memory {when}: together at most {self.peak['']:.0f} MB (the server "
            f"{self.peak['server']:.0f}, second processes {self.peak['second']:.0f}); "
            f"at the end {now:.0f} MB"
        )
        self.peak = {}

    def stop(self) -> None:
        """Look no more."""
        self._over.set()
        self._watch.join()


def _held(number: int) -> float:
    """Return the memory of a process, its share of what it shares with others, in MB."""
    with contextlib.suppress(OSError, ValueError, IndexError):
        text = Path(f"/proc/{number}/smaps_rollup").read_text()
        return int(text.partition("Pss:")[2].split()[0]) * 1024 / 1e6
    return 0.0


def _started_by(number: int) -> list[int]:
    with contextlib.suppress(OSError):
        tasks = Path(f"/proc/{number}/task").iterdir()
        return [int(one) for task in tasks for one in (task / "children").read_text().split()]
    return []


def worked(number: int) -> float:
    """Return the processor time that a process took so far, in s."""
    with contextlib.suppress(OSError):
        fields = Path(f"/proc/{number}/stat").read_text().rpartition(")")[2].split()
        return (int(fields[11]) + int(fields[12])) / os.sysconf("SC_CLK_TCK")
    return float("nan")


def measure(entrance: str, base: str, clicks: int, begun: float, memory: Memory) -> None:
    """Let a client in, click, and print how long that took."""
    with httpx.Client(base_url=base, follow_redirects=True, timeout=120.0) as client:
        while True:
            try:
                first = client.get(entrance)
                break
            except httpx.ConnectError:
                time.sleep(0.02)
        told = time.perf_counter() - begun
        took = worked(memory.number)
        print(
            f"first page: {told:.2f} s from the command ({took:.2f} s of processor time), "
            f"{len(first.content) / 1e3:.0f} kB"
        )
        whole = [one.content for one in map(client.get, files_of(first.text))]
        print(f"with its {len(whole)} files: {sum(map(len, (first.content, *whole))) / 1e3:.0f} kB")
        begun = time.perf_counter()
        client.get("/api/verdicts?settled")
        print(f"first settled verdicts: {time.perf_counter() - begun:.2f} s later")
        while not client.get("/api/options").json()["ready"]:
            time.sleep(0.2)
        print(f"choices ready: {time.perf_counter() - begun:.2f} s later")
        memory.tell("while the options are tabulated")
        shown = client.get("/api/options").json()
        wanted = list(picks(shown["systems"], dict(shown["picks"]), clicks))
        seen, settled, server = [], [], []
        for system, option, was in wanted:
            form = {"system": system, "option": option, "was": was, "here": "/choices"}
            begun, before = time.perf_counter(), worked(memory.number)
            answer = client.post("/pick", data=form, headers={"origin": base})
            seen.append(1e3 * (time.perf_counter() - begun))
            server.append(1e3 * (worked(memory.number) - before))
            assert answer.status_code == 200, answer.text[:500]
            client.get("/api/verdicts?settled")
            settled.append(1e3 * (time.perf_counter() - begun))
        memory.tell("while clicked")
        tell("click to a first look at the verdicts", seen)
        tell("processor time of the server for that", server)
        tell("click to settled verdicts", settled)


def files_of(page: str) -> list[str]:
    """Return the addresses of what a page loads."""
    return re.findall(r'(?:src|href)="(/static/[^"]+)"', page)


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
