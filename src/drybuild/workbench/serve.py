"""Run the workbench on this computer, for its own browser only."""

from __future__ import annotations

import secrets
import socket
import threading
import webbrowser
from collections.abc import Callable
from pathlib import Path

import uvicorn

from drybuild.workbench.app import make_app
from drybuild.workbench.desk import Desk
from drybuild.workbench.guard import ENTER
from drybuild.workbench.memory import share_memory

LOOPBACK = "127.0.0.1"


def serve(place: Path, *, port: int, browser: bool, say: Callable[[str], None]) -> None:
    """Serve one build until it is interrupted.

    Parameters
    ----------
    place : Path
        The build folder or file.
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
        port = listening.getsockname()[1]
        token = secrets.token_urlsafe(24)
        desk = Desk(place)
        app = make_app(desk, token=token, port=port)
        address = f"http://{LOOPBACK}:{port}{ENTER}{token}"
        say(address)
        if browser:
            threading.Thread(target=webbrowser.open, args=(address,), daemon=True).start()
        config = uvicorn.Config(
            app,
            log_level="warning",
            access_log=False,
            server_header=False,
            lifespan="off",
            timeout_graceful_shutdown=2,
            h11_max_incomplete_event_size=32_768,
        )
        try:
            uvicorn.Server(config).run(sockets=[listening])
        finally:
            desk.close()
