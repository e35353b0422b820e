"""Run the workbench on this computer, for its own browser only."""

from __future__ import annotations

import secrets
import socket
import threading
from collections.abc import Callable
from pathlib import Path

import uvicorn
from starlette.applications import Starlette

from drybuild.workbench.app import make_app
from drybuild.workbench.beginning import holds_build
from drybuild.workbench.desk import Desk
from drybuild.workbench.guard import ENTER
from drybuild.workbench.memory import share_memory

LOOPBACK = "127.0.0.1"


def serve(place: Path, *, port: int, browser: bool, say: Callable[[str], None]) -> None:
    """Serve one build until it is interrupted.

    Parameters
    ----------
    place : Path
        The build folder or file; where there is none, one is begun there.
    port : int
        Where to listen; 0 takes a free one.
    browser : bool
        Whether to open the browser.
    say : callable
        Told the address to open.

    """
    share_memory()
    with socket.socket(socket.AF_INET, socket.SOCK_STREAM) as listening:
        listening.bind((LOOPBACK, port))
        listening.listen()  # whoever is told the address may come at once, and waits a moment
        app, address = _bench(place, listening.getsockname()[1])
        say(address)
        if browser:
            threading.Thread(target=_show, args=(address,), daemon=True).start()
        try:
            uvicorn.Server(_config(app)).run(sockets=[listening])
        finally:
            if app.state.desk is not None:
                app.state.desk.close()


def _show(address: str) -> None:
    import webbrowser  # noqa: PLC0415  it looks for browsers as it loads

    webbrowser.open(address)


def open_beside(place: Path) -> str:
    """Open a workbench on another build for as long as this process runs; return its address."""
    listening = socket.socket(socket.AF_INET, socket.SOCK_STREAM)
    listening.bind((LOOPBACK, 0))
    app, address = _bench(place, listening.getsockname()[1])
    server = uvicorn.Server(_config(app))
    threading.Thread(target=server.run, args=([listening],), daemon=True, name="beside").start()
    return address


def _bench(place: Path, port: int) -> tuple[Starlette, str]:
    token = secrets.token_urlsafe(24)
    desk = Desk(place) if holds_build(place) else None
    app = make_app(desk, token=token, port=port, place=place, opens=open_beside)
    return app, f"http://{LOOPBACK}:{port}{ENTER}{token}"


def _config(app: Starlette) -> uvicorn.Config:
    return uvicorn.Config(
        app,
        loop="asyncio",
        http="h11",
        ws="none",
        log_level="warning",
        access_log=False,
        server_header=False,
        lifespan="off",
        timeout_graceful_shutdown=2,
        h11_max_incomplete_event_size=32_768,
    )
