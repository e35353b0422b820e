"""Put a changed text into its file: whole or not at all, and never over somebody else's change."""

from __future__ import annotations

import contextlib
import os
import stat
import sys
import tempfile
import time
from pathlib import Path

from drybuild.errors import SaveError
from drybuild.project.decoding import LARGEST_FILE
from drybuild.project.folder import digest
from drybuild.project.lock import locked


class ChangedOutsideError(SaveError):
    """The file is not what it was when it was read: somebody else changed it since."""

    def __init__(self, path: Path, found: str | None) -> None:
        self.path = path
        self.found = found
        """The text that is there now, for comparing; None when the file is gone."""
        what = "was changed" if found is not None else "was deleted or moved"
        super().__init__(
            f"{path} {what} by another program since it was read; nothing is saved. "
            "Read it again, and make the change on what is there now."
        )


def save(path: Path, text: str, expected_sha256: str | None) -> str:
    """Write a text to its file, atomically, and return the new content's SHA-256.

    Parameters
    ----------
    path : Path
        The file. A link is followed; the permissions stay.
    text : str
        The whole text; its line endings and byte-order mark are written as they are.
    expected_sha256 : str or None
        The content that was read; None for a file that is not there yet.

    Raises
    ------
    ChangedOutsideError
        The file holds something else by now.
    SaveError
        It cannot be written. The old content is still there.

    """
    with locked(path.parent):
        return save_locked(path, text, expected_sha256)


def save_locked(path: Path, text: str, expected_sha256: str | None) -> str:
    """Do what `save` does for a caller that holds the lock of the folder already."""
    data = _encoded(path, text)
    target = path.resolve()
    try:
        old = target.read_bytes() if target.exists() else None
        _refuse_if_changed(path, old, expected_sha256)
        if old is not None and not os.access(target, os.W_OK):
            raise SaveError(f"{path} is protected against writing; nothing is saved")
        if old != data:
            _replace(target, data)
    except OSError as fault:
        raise SaveError(
            f"{path} cannot be saved: {(fault.strerror or str(fault)).lower()}; "
            "what was there before still is"
        ) from fault
    return digest(data)


def _encoded(path: Path, text: str) -> bytes:
    try:
        data = text.encode("utf-8")
    except UnicodeEncodeError as fault:
        raise SaveError(f"{path}: the text holds half a character and cannot be saved") from fault
    if len(data) > LARGEST_FILE:
        raise SaveError(f"{path} would be larger than {LARGEST_FILE / 1e6:.0f} MB; split it first")
    return data


def _refuse_if_changed(path: Path, old: bytes | None, expected: str | None) -> None:
    if (digest(old) if old is not None else None) != expected:
        raise ChangedOutsideError(path, None if old is None else old.decode("utf-8", "replace"))
    if old is None:
        return
    try:
        old.decode("utf-8")
    except UnicodeDecodeError as fault:
        raise SaveError(f"{path} is not UTF-8 text; save it as UTF-8 in an editor first") from fault


def _replace(target: Path, data: bytes) -> None:
    """Write beside the file, then rename: a reader sees the old content or the new, never half."""
    lead, tail = f".{target.name}.", ".tmp"
    for left_over in target.parent.glob(f"{lead}*{tail}"):  # of a writer that was killed
        with contextlib.suppress(OSError):
            left_over.unlink()
    handle, name = tempfile.mkstemp(prefix=lead, suffix=tail, dir=target.parent)
    temporary = Path(name)
    try:
        with os.fdopen(handle, "wb") as stream:
            stream.write(data)
            stream.flush()
            os.fsync(stream.fileno())
        _like(target, temporary)
        _rename(temporary, target)
    except BaseException:
        temporary.unlink(missing_ok=True)
        raise
    _sync_folder(target.parent)


def _like(target: Path, temporary: Path) -> None:
    """Give the new file the permissions and owner of the old one, as far as that is allowed."""
    if not target.exists():
        if sys.platform != "win32":
            mask = os.umask(0)
            os.umask(mask)
            temporary.chmod(0o666 & ~mask)
        return
    old = target.stat()
    temporary.chmod(stat.S_IMODE(old.st_mode))
    if sys.platform != "win32" and (old.st_uid, old.st_gid) != (os.geteuid(), os.getegid()):
        with contextlib.suppress(PermissionError):
            os.chown(temporary, old.st_uid, old.st_gid)


def _rename(temporary: Path, target: Path) -> None:
    """Rename over the target; on Windows a virus scanner may hold it for a moment."""
    for pause in (0.05, 0.2, 0.8):
        try:
            temporary.replace(target)
        except PermissionError:
            if sys.platform != "win32":
                raise
            time.sleep(pause)
        else:
            return
    temporary.replace(target)


def _sync_folder(folder: Path) -> None:
    if sys.platform == "win32":  # folders cannot be opened there; the rename is journalled
        return
    handle = os.open(folder, os.O_RDONLY)
    try:
        os.fsync(handle)
    finally:
        os.close(handle)
