"""A server that is killed while it saves, and more requests than anybody clicks."""

import random
import re
import socket
import subprocess
import sys
import threading
import time
from concurrent.futures import ThreadPoolExecutor

import httpx
import pytest
from tests.workbench.benches import SMALL, bench

from drybuild.project.load import load

KILLS = 3


def test_a_killed_server_leaves_a_file_that_holds_the_last_confirmed_edit(tmp_path):
    (tmp_path / "build.yaml").write_text(SMALL, encoding="utf-8")
    dice, confirmed, tried = random.Random(7), 2480, 2480
    for _ in range(KILLS):
        with socket.socket() as some:
            some.bind(("127.0.0.1", 0))
            port = some.getsockname()[1]
        command = [sys.executable, "-m", "drybuild", "open", str(tmp_path), "--no-browser"]
        with subprocess.Popen(
            [*command, "--port", str(port)], stdout=subprocess.PIPE, text=True
        ) as server:
            entrance = re.search(r"http\S+", server.stdout.readline()).group()
            token = entrance.rpartition("/")[2]
            headers = {"authorization": f"Bearer {token}"}
            base = f"http://127.0.0.1:{port}"
            _until_it_answers(f"{base}/api/state", headers)
            threading.Timer(dice.uniform(0.2, 1.5), server.kill).start()
            try:
                while True:
                    tried = confirmed + 1
                    form = {"address": "car.body.wheelbase", "value": f"{tried} mm"}
                    answer = httpx.post(f"{base}/api/set", json=form, headers=headers, timeout=20.0)
                    assert answer.json()["saved"] is True
                    confirmed = tried
            except httpx.TransportError:
                server.wait()
        build = load(tmp_path)
        assert build.problems == ()
        stands = round(1e3 * build.car["body"].given["wheelbase"].value)
        assert stands in (confirmed, tried)
        confirmed = stands
    assert confirmed > 2480


def _until_it_answers(address, headers):
    for _ in range(600):
        try:
            return httpx.get(address, headers=headers, timeout=20.0)
        except httpx.TransportError:
            time.sleep(0.05)
    return pytest.fail("the server did not start")


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
