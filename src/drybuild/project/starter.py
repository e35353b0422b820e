"""Begin a build: write a commented build file for a kind of car, ready to be filled in."""

from __future__ import annotations

from importlib.resources import files
from pathlib import Path

from drybuild.errors import SaveError
from drybuild.project.body import KINDS
from drybuild.project.folder import ENDING
from drybuild.project.save import save

MAIN_FILE = f"build{ENDING}"


def starter_text(kind: str) -> str:
    """Return the starter for a kind of body.

    Parameters
    ----------
    kind : str
        One of `KINDS`; a space frame is drawn up like a backbone.

    """
    if kind not in KINDS:
        raise ValueError(f"{kind!r} is none of {', '.join(KINDS)}")
    room = files("drybuild").joinpath("project").joinpath("starters")
    head, rest = (room.joinpath(name + ENDING).read_text("utf-8") for name in ("head", kind))
    return head + rest


def write_starter(folder: Path, kind: str, text: str = "") -> Path:
    """Write a starter into a folder, which is made when it is not there, and return the file.

    Parameters
    ----------
    folder : Path
        The build folder to be.
    kind : str
        One of `KINDS`.
    text : str
        A starter that was made the person's own already; the plain one of its kind otherwise.

    Raises
    ------
    SaveError
        There is a build in the folder already, or it cannot be written to.

    """
    text = text or starter_text(kind)
    try:
        folder.mkdir(parents=True, exist_ok=True)
        standing = sorted(one.name for one in folder.glob(f"*{ENDING}"))
    except OSError as fault:
        why = (fault.strerror or str(fault)).lower()
        raise SaveError(f"{folder} cannot be made a build folder: {why}") from fault
    if standing:
        raise SaveError(
            f"{folder} holds a build already ({standing[0]}); nothing is written. "
            "Name another folder for a new one."
        )
    save(folder / MAIN_FILE, text, None)
    return folder / MAIN_FILE
