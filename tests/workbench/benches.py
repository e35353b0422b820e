"""A workbench on a port of its own, over a small build, and a client that was let in."""

from __future__ import annotations

import contextlib
import socket
import threading
import time
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from pathlib import Path

import httpx
import uvicorn
from starlette.applications import Starlette

from drybuild.workbench.app import make_app
from drybuild.workbench.desk import Desk

TOKEN = "a-token-for-tests"
SMALL = """\
# A small invented car.
build: Ferrin 1500   # keep this comment
brief:
  must:
    - kerb_mass <= 1400 kg
    - wheel_diameter <= 16 in
car:
  body: {kind: unitary, wheelbase: 2480 ± 3 mm}
options:
  engine:
    original: {as_is: true, mass: 130 kg, power: 50 kW at 5000 rpm}
    larger: {mass: 150 kg, power: 80 kW at 5500 rpm, price: 1900 EUR}
  gearbox:
    original: {as_is: true}
    five-speed: {mass: 34 kg, price: 750 EUR, needs: {engine: [larger]}}
picks:
  engine: original
"""


@dataclass(frozen=True, kw_only=True)
class Bench:
    """An open workbench."""

    desk: Desk
    port: int
    folder: Path
    client: httpx.Client

    @property
    def origin(self) -> str:
        return f"http://127.0.0.1:{self.port}"

    @property
    def text(self) -> str:
        return (self.folder / "build.yaml").read_text("utf-8")

    def post(self, path: str, **form: str) -> httpx.Response:
        """Send a form as a page of ours would."""
        return self.client.post(path, data=form, headers={"origin": self.origin})


@contextlib.contextmanager
def bench(folder: Path, text: str = SMALL, samples: int = 200) -> Iterator[Bench]:
    """Open a workbench over a build file's text and let a client in."""
    (folder / "build.yaml").write_text(text, encoding="utf-8", newline="")
    desk = Desk(folder, samples=samples, quick=60)
    with serving(folder, desk) as (_, client, port):
        yield Bench(desk=desk, port=port, folder=folder, client=client)


@contextlib.contextmanager
def serving(
    folder: Path, desk: Desk | None, opens: Callable[[Path], str] | None = None
) -> Iterator[tuple[Starlette, httpx.Client, int]]:
    """Serve a desk, or a folder where a build is still to begin."""
    with socket.socket() as listening:
        listening.bind(("127.0.0.1", 0))
        port = listening.getsockname()[1]
        config = uvicorn.Config(
            app := make_app(desk, token=TOKEN, port=port, place=folder, opens=opens),
            log_level="error",
            lifespan="off",
            ws="none",
            timeout_graceful_shutdown=1,
        )
        server = uvicorn.Server(config)
        running = threading.Thread(target=server.run, args=([listening],), daemon=True)
        running.start()
        while not server.started:
            time.sleep(0.01)
        try:
            with httpx.Client(
                base_url=f"http://127.0.0.1:{port}", follow_redirects=True, timeout=60.0
            ) as client:
                client.get(f"/enter/{TOKEN}")
                yield app, client, port
        finally:
            server.should_exit = True
            running.join(5.0)
            if app.state.desk is not None:
                app.state.desk.close()
