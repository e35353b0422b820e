"""Find a browser to drive: named by the person, the system's, Playwright's own, else install one.

No browser is a failure, never a skip: what people read in one has to be seen in one.
"""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
import tempfile
import time
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path

from playwright.sync_api import Browser, Playwright, sync_playwright

NAMED = "DRYBUILD_BROWSER"
"""Environment variable with the path of a browser to use."""
SYSTEM = (
    "chromium",
    "chromium-browser",
    "google-chrome",
    "google-chrome-stable",
    "chrome",
    "microsoft-edge",
    "msedge",
)
PLACES = (
    "/Applications/Google Chrome.app/Contents/MacOS/Google Chrome",
    "/Applications/Chromium.app/Contents/MacOS/Chromium",
    "/Applications/Microsoft Edge.app/Contents/MacOS/Microsoft Edge",
    r"C:\Program Files\Google\Chrome\Application\chrome.exe",
    r"C:\Program Files (x86)\Google\Chrome\Application\chrome.exe",
    r"C:\Program Files (x86)\Microsoft\Edge\Application\msedge.exe",
    r"C:\Program Files\Microsoft\Edge\Application\msedge.exe",
)
FLAGS = (
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
)


def browser_path(playwright: Playwright) -> str:
    """Return the browser to run, installing one as the last resort."""
    named = os.environ.get(NAMED)
    if named:
        return named
    found = _system() or _own(playwright)
    if found:
        return found
    with _alone():
        if not (_system() or _own(playwright)):
            _install()
    found = _system() or _own(playwright)
    if not found:
        raise RuntimeError(
            f"no browser was found and none could be installed; set {NAMED} to one's path"
        )
    return found


@contextmanager
def open_browser() -> Iterator[Browser]:
    """Run a headless browser."""
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(
            executable_path=browser_path(playwright), headless=True, args=list(FLAGS)
        )
        try:
            yield browser
        finally:
            browser.close()


def _system() -> str | None:
    for name in SYSTEM:
        path = shutil.which(name)
        if path:
            return path
    return next((place for place in PLACES if Path(place).exists()), None)


def _own(playwright: Playwright) -> str | None:
    path = playwright.chromium.executable_path
    return path if path and Path(path).exists() else None


@contextmanager
def _alone() -> Iterator[None]:
    """Let one of several test processes install at a time."""
    mark = Path(tempfile.gettempdir()) / "drybuild-installs-a-browser"
    patience = time.monotonic() + 600.0
    while time.monotonic() < patience:
        try:
            mark.mkdir()
            break
        except FileExistsError:
            time.sleep(1.0)
    try:
        yield
    finally:
        with suppress(OSError):
            mark.rmdir()


def _install() -> None:
    """Install a browser: the system's package as root, else Playwright's own build."""
    root = hasattr(os, "geteuid") and os.geteuid() == 0
    if root and shutil.which("apt-get"):
        _run("apt-get", "update", "-q")
        if _run("apt-get", "install", "-y", "-q", "--no-install-recommends", "chromium"):
            return
    _run(sys.executable, "-m", "playwright", "install", "chromium")


def _run(*command: str) -> bool:
    environment = {**os.environ, "DEBIAN_FRONTEND": "noninteractive"}
    return subprocess.run(command, env=environment, check=False).returncode == 0
