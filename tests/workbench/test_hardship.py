"""A server that is killed while it saves, and more requests than anybody clicks."""

import contextlib
import http.client
import json
import os
import random
import signal
import socket
import subprocess
import sys
import threading
import time
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

import pytest
from tests.workbench.benches import SMALL, bench

from drybuild.project.load import load
from drybuild.session import undo

KILLS = 200
AT_ONCE = 4
"""Builds that are tried side by side, each with servers of its own; they wait for disks most."""
SOON = 5.0
"""Seconds; a page takes a few hundredths, on a computer with nothing else to do."""
NURSERY = Path(__file__).with_name("nursery.py")


@pytest.mark.skipif(not hasattr(os, "fork"), reason="this system starts no process by a fork")
def test_a_server_killed_while_it_saves_leaves_the_last_confirmed_edit(tmp_path):
    """Kill real servers at 200 random moments while they are sent one edit after the other."""
    folders = [tmp_path / str(number) for number in range(AT_ONCE)]
    with ThreadPoolExecutor(AT_ONCE) as crowd:
        confirmations = sum(crowd.map(_kill_again_and_again, folders, range(AT_ONCE)))
    assert confirmations > KILLS / 4  # most were killed in the middle of it, not before it
    for folder in folders:
        assert "keep this comment" in (folder / "build.yaml").read_text("utf-8")
        assert sorted(one.suffix for one in folder.glob("[!.]*")) == [".jsonl", ".yaml"]
        assert undo(folder) is not None


def _kill_again_and_again(folder, seed):
    """Let one build suffer its share of the kills; return how many edits were confirmed."""
    folder.mkdir()
    (folder / "build.yaml").write_text(SMALL, encoding="utf-8")
    dice, stands, confirmations = random.Random(seed), 2480, 0
    pace = [0.05]  # what the last edit took [s]
    with subprocess.Popen(
        [sys.executable, str(NURSERY)],
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        text=True,
        bufsize=1,
    ) as nursery:
        assert nursery.stdout.readline() == "ready\n"
        for _ in range(KILLS // AT_ONCE):
            nursery.stdin.write(f"{folder}\n")
            number, address = nursery.stdout.readline().split()
            confirmed, tried = _edit_until_killed(int(number), address, stands, dice, pace)
            build = load(folder)
            assert build.problems == ()
            found = round(1e3 * build.car["body"].given["wheelbase"].value)
            assert found in (confirmed, tried)
            confirmations += confirmed - stands
            stands = found
        nursery.stdin.close()
    return confirmations


def _edit_until_killed(number, address, stands, dice, pace):
    """Send edits, each of another millimetre; the server is killed within the first or second."""
    host, _, token = address.removeprefix("http://").partition("/enter/")
    headers = {"authorization": f"Bearer {token}", "content-type": "application/json"}
    link = http.client.HTTPConnection(host, timeout=20.0)
    confirmed = tried = stands
    fuse = None
    try:
        while True:
            tried = confirmed + 1
            form = json.dumps({"address": "car.body.wheelbase", "value": f"{tried} mm"})
            if fuse is None and (confirmed > stands or dice.random() < 0.3):
                until = dice.uniform(0.0, 1.5 * pace[0])
                fuse = threading.Timer(until, os.kill, (number, signal.SIGKILL))
                fuse.start()
            begun = time.perf_counter()
            link.request("POST", "/api/set", form, headers)
            answer = json.loads(link.getresponse().read())
            assert answer["saved"] is True
            confirmed, pace[0] = tried, time.perf_counter() - begun
    except (OSError, http.client.HTTPException, ValueError):
        fuse.join()
    finally:
        link.close()
    with contextlib.suppress(ProcessLookupError):
        for _ in range(2000):
            os.kill(number, 0)
            time.sleep(0.001)
    return confirmed, tried


def test_a_thousand_rapid_requests_break_nothing(tmp_path):
    with bench(tmp_path) as found:

        def ask(number: int) -> int:
            if number % 25 == 0:
                option = "larger" if number % 50 else "original"
                answer = found.client.post(
                    "/api/pick",
                    json={"system": "engine", "option": option},
                    headers={"origin": found.origin},
                )
            else:
                answer = found.client.get(("/api/state", "/static/workbench.css")[number % 2])
            return answer.status_code

        with ThreadPoolExecutor(8) as crowd:
            assert set(crowd.map(ask, range(1000))) == {200}
        assert load(tmp_path).problems == ()
        assert found.text.replace("engine: larger\n", "engine: original\n") == SMALL


def test_bodies_that_never_end_hold_nobody_up(tmp_path):
    """Forty senders stop in the middle of a form; pages come meanwhile, nothing is saved."""
    with bench(tmp_path) as found, contextlib.ExitStack() as open_ones:
        cookie = "; ".join(f"{name}={value}" for name, value in found.client.cookies.items())
        head = (
            f"POST /set HTTP/1.1\r\nHost: 127.0.0.1:{found.port}\r\nOrigin: {found.origin}\r\n"
            f"Cookie: {cookie}\r\nContent-Type: application/x-www-form-urlencoded\r\n"
            "Content-Length: 4000\r\n\r\naddress=build&value=Half"
        )
        for _ in range(40):
            link = open_ones.enter_context(socket.create_connection(("127.0.0.1", found.port)))
            link.sendall(head.encode())
        begun = time.perf_counter()
        assert found.client.get("/state").status_code == 200
        assert time.perf_counter() - begun < SOON
        assert found.post("/set", address="build", value="Ferrin 1600", was="Ferrin 1500")
        assert "build: Ferrin 1600" in found.text
    assert "Half" not in (tmp_path / "build.yaml").read_text("utf-8")
