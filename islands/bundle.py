"""Bundle the islands for the workbench: node, what they need by name, then esbuild.

Standard library only: set-up and the wheel's build both use it before anything is installed. It
writes only below this checkout.
"""

from __future__ import annotations

import hashlib
import os
import re
import shutil
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

HERE = Path(__file__).resolve().parent
BUNDLE = HERE.parent / "src" / "drybuild" / "workbench" / "static" / "islands"
MADE = ("bay.mjs", "bay.css", "frame.mjs", "plots.mjs", "plots.css", "licences.txt")
OLDEST_NODE = 20
PATIENCE = 600.0
"""For the slowest of the commands. [s]"""


class BundleError(Exception):
    """The bundle cannot be made; the message says why."""


def fresh() -> bool:
    """Whether the bundle is there and made from the sources as they are."""
    mark = BUNDLE / "made-from"
    there = all((BUNDLE / name).exists() for name in MADE) and mark.exists()
    return there and mark.read_text("utf-8") == _sources()


def make(
    run: Callable[[str, list[str]], None],
    packaged_node: Callable[[], Path] | None = None,
    *,
    everything: bool = False,
) -> None:
    """Make the bundle if it is not fresh.

    Parameters
    ----------
    run : callable
        Does a step.
    packaged_node : callable, optional
        Gets a node for people who have none: returns the folder of the registry's package.
    everything : bool
        Whether the tools that only tests need are wanted too.

    Raises
    ------
    BundleError
        It cannot be made.

    """
    installed = HERE / "node_modules" / ".installed"
    wanted = f"{_digest([HERE / 'package-lock.json'])} {'all' if everything else 'run'}"
    known = installed.read_text("utf-8") if installed.exists() else ""
    tooled = known == wanted or (not everything and known == wanted.replace(" run", " all"))
    if fresh() and (tooled or not everything):
        return
    node, npm = _found() or _packaged(packaged_node)
    if not tooled:
        _install([str(node), str(npm)], run, everything=everything)
        installed.write_text(wanted, "utf-8")
    if not fresh():
        shutil.rmtree(BUNDLE, ignore_errors=True)
        run("Bundling the 3-D view and the live plots", [str(node), str(HERE / "bundle.mjs")])
        (BUNDLE / "made-from").write_text(_sources(), "utf-8")


def _install(npm: list[str], run: Callable[[str, list[str]], None], *, everything: bool) -> None:
    left_out = [] if everything else ["--omit=dev"]
    run(
        "Getting what the 3-D view and the live plots are made of",
        [*npm, "ci", "--ignore-scripts", "--no-audit", "--no-fund", "--fetch-retries=1",
         "--fetch-timeout=60000", f"--cache={HERE / '.npm'}", "--logs-max=0", *left_out],
    )  # fmt: skip


def quietly(words: str, command: list[str]) -> None:
    """Do a step without a sign of life; the message of a failure has its last words."""
    try:
        done = subprocess.run(
            command, cwd=HERE, env=surroundings(command), timeout=PATIENCE,
            capture_output=True, encoding="utf-8", errors="replace", check=False,
        )  # fmt: skip
    except (OSError, subprocess.TimeoutExpired) as fault:
        raise BundleError(f"{words}: {fault}") from fault
    if done.returncode:
        raise BundleError(f"{words}: {(done.stdout + done.stderr).strip()[-1500:]}")


def surroundings(command: list[str]) -> dict[str, str]:
    """Return the environment of a step: npm starts node by its name, wherever it lies."""
    path = os.pathsep.join((str(Path(command[0]).parent), os.environ.get("PATH", "")))
    return {**os.environ, "PATH": path}


def node_and_npm(folder: Path) -> tuple[Path, Path]:
    """Return node and npm's script inside the registry's package."""
    node = folder / "node.exe" if os.name == "nt" else folder / "bin" / "node"
    return node, folder / "lib" / "node_modules" / "npm" / "bin" / "npm-cli.js"


def _found() -> tuple[Path, Path] | None:
    """Return this computer's own node and npm, when both are there and new enough."""
    node, npm = shutil.which("node"), shutil.which("npm")
    if not node or not npm:
        return None
    said = subprocess.run([node, "--version"], capture_output=True, text=True, check=False).stdout
    version = re.match(r"v(\d+)\.", said)
    if version is None or int(version[1]) < OLDEST_NODE:
        return None
    script = _script(Path(npm))
    return (Path(node), script) if script else None


def _script(npm: Path) -> Path | None:
    """Return the script behind the command npm, so that no shell is needed to start it."""
    real = npm.resolve()
    beside = (
        real,
        real.parent / "node_modules" / "npm" / "bin" / "npm-cli.js",
        real.parent.parent / "lib" / "node_modules" / "npm" / "bin" / "npm-cli.js",
        real.parent.parent / "share" / "nodejs" / "npm" / "bin" / "npm-cli.js",
    )
    return next((one for one in beside if one.suffix == ".js" and one.exists()), None)


def _packaged(get: Callable[[], Path] | None) -> tuple[Path, Path]:
    if get is None:
        raise BundleError(f"node {OLDEST_NODE} or newer, with npm, is not on this computer")
    node, npm = node_and_npm(get())
    if not node.exists() or not npm.exists():
        raise BundleError("the packaged node has no node and npm where they were expected")
    return node, npm


def _sources() -> str:
    own = [HERE / name for name in ("package-lock.json", "bundle.mjs", "tsconfig.json")]
    return _digest([*own, *sorted((HERE / "src").rglob("*.*"))])


def _digest(paths: list[Path]) -> str:
    found = hashlib.sha256()
    for path in paths:
        found.update(path.relative_to(HERE).as_posix().encode() + b"\0")
        found.update(path.read_bytes().replace(b"\r\n", b"\n") + b"\0")
    return found.hexdigest()


if __name__ == "__main__":
    try:
        make(quietly, everything="--all" in sys.argv)
    except BundleError as fault:
        sys.exit(str(fault))
