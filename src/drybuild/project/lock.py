"""One writer at a time in a build folder.

The lock belongs to the operating system, so it goes with the program that held it: after a crash
or a power cut the file is still there, but it locks nobody out.
"""

from __future__ import annotations

import contextlib
import os
import sys
import time
from collections.abc import Iterator
from pathlib import Path

from drybuild.errors import SaveError

LOCK_NAME = ".drybuild.lock"
PATIENCE = 5.0
"""Seconds to wait for another writer; a save takes a few hundredths."""


@contextlib.contextmanager
def locked(folder: Path, patience: float = PATIENCE) -> Iterator[None]:
    """Hold the lock of a build folder; it can be taken once only at a time.

    Parameters
    ----------
    folder : Path
        The build folder.
    patience : float
        How long to wait for another holder. [s]

    Raises
    ------
    SaveError
        Somebody else held it all the time, or the folder cannot be written to.

    """
    path = folder / LOCK_NAME
    until = time.monotonic() + patience
    while True:
        handle = _open(path)
        if _take(handle) and _is_current(handle, path):
            break
        holder = _holder(handle)
        os.close(handle)
        if time.monotonic() > until:
            raise SaveError(
                f"another drybuild{holder} is saving in {folder}; wait for it, or end it"
            )
        time.sleep(0.01)
    try:
        _sign(handle)
        yield
    finally:
        _leave(handle, path)


def _open(path: Path) -> int:
    try:
        return os.open(path, os.O_RDWR | os.O_CREAT, 0o644)
    except OSError as fault:
        raise SaveError(
            f"{path.parent} cannot be written to: {(fault.strerror or str(fault)).lower()}"
        ) from fault


if sys.platform == "win32":
    import msvcrt

    _BYTE = 1 << 20  # beyond the content, so that others can still read who holds it

    def _take(handle: int) -> bool:
        os.lseek(handle, _BYTE, os.SEEK_SET)
        try:
            msvcrt.locking(handle, msvcrt.LK_NBLCK, 1)
        except OSError:
            return False
        return True

    def _is_current(handle: int, path: Path) -> bool:
        return path.exists()

    def _leave(handle: int, path: Path) -> None:
        os.lseek(handle, _BYTE, os.SEEK_SET)
        with contextlib.suppress(OSError):
            msvcrt.locking(handle, msvcrt.LK_UNLCK, 1)
        os.close(handle)
        with contextlib.suppress(OSError):  # the next writer may have it open already
            path.unlink()
else:
    import fcntl

    def _take(handle: int) -> bool:
        try:
            fcntl.flock(handle, fcntl.LOCK_EX | fcntl.LOCK_NB)
        except BlockingIOError:
            return False
        except OSError as fault:
            raise SaveError(
                "the disk that the build folder is on offers no locks, so saving there is not "
                "safe; move the folder to a disk of this computer"
            ) from fault
        return True

    def _is_current(handle: int, path: Path) -> bool:
        """Whether the file locked is still the one in the folder; the holder before removes it."""
        try:
            return os.path.samestat(os.fstat(handle), path.stat())
        except FileNotFoundError:
            return False

    def _leave(handle: int, path: Path) -> None:
        path.unlink(missing_ok=True)  # while it is still held: nobody can hold another
        os.close(handle)


def _sign(handle: int) -> None:
    os.lseek(handle, 0, os.SEEK_SET)
    os.ftruncate(handle, 0)
    os.write(handle, f"{os.getpid()}\n".encode())


def _holder(handle: int) -> str:
    os.lseek(handle, 0, os.SEEK_SET)
    said = os.read(handle, 20).decode("ascii", "replace").strip()
    return f" (process {said})" if said.isdigit() else ""
