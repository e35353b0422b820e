import os
import subprocess
import sys
import time

import pytest

from drybuild.errors import SaveError
from drybuild.project.folder import digest
from drybuild.project.lock import LOCK_NAME, locked
from drybuild.project.save import ChangedOutsideError, save

SAVES_FOR_EVER = """
import sys
from pathlib import Path
from drybuild.project.folder import digest
from drybuild.project.save import save
path = Path(sys.argv[1])
sha = digest(path.read_bytes())
for number in range(10**9):
    sha = save(path, f"build: {number}\\n" + "filler: x\\n" * 20000, sha)
    print(number, flush=True)
"""

HOLDS = """
import sys, time
from pathlib import Path
from drybuild.project.lock import locked
with locked(Path(sys.argv[1])):
    print("held", flush=True)
    time.sleep(60)
"""


def sha(path):
    return digest(path.read_bytes())


def test_a_new_file_is_written_and_nothing_is_left_beside_it(tmp_path):
    path = tmp_path / "build.yaml"
    assert save(path, "a: µ\r\n", None) == sha(path)
    assert path.read_bytes() == "a: µ\r\n".encode()
    assert [one.name for one in tmp_path.iterdir()] == ["build.yaml"]


def test_line_endings_and_byte_order_mark_are_written_as_they_are(tmp_path):
    path = tmp_path / "build.yaml"
    save(path, "\ufeffa: 1\r\nb: 2\n", None)
    assert path.read_bytes() == b"\xef\xbb\xbfa: 1\r\nb: 2\n"


def test_an_outside_change_is_never_overwritten(tmp_path):
    path = tmp_path / "build.yaml"
    read = save(path, "a: 1\n", None)
    path.write_text("a: mine\n")
    with pytest.raises(ChangedOutsideError) as caught:
        save(path, "a: 2\n", read)
    assert caught.value.found == "a: mine\n"
    assert path.read_text() == "a: mine\n"
    path.unlink()
    with pytest.raises(ChangedOutsideError) as caught:
        save(path, "a: 2\n", read)
    assert caught.value.found is None
    assert isinstance(caught.value, SaveError)


def test_a_file_that_appeared_is_not_overwritten(tmp_path):
    path = tmp_path / "build.yaml"
    path.write_text("a: mine\n")
    with pytest.raises(ChangedOutsideError):
        save(path, "a: 2\n", None)


@pytest.mark.skipif(sys.platform == "win32", reason="permissions there are another matter")
def test_permissions_and_links_stay(tmp_path):
    path, link = tmp_path / "build.yaml", tmp_path / "link.yaml"
    path.write_text("a: 1\n")
    path.chmod(0o640)
    link.symlink_to(path)
    save(link, "a: 2\n", sha(path))
    assert link.is_symlink()
    assert path.read_text() == "a: 2\n"
    assert path.stat().st_mode & 0o777 == 0o640
    new = tmp_path / "new.yaml"
    mask = os.umask(0o027)
    try:
        save(new, "a: 1\n", None)
    finally:
        os.umask(mask)
    assert new.stat().st_mode & 0o777 == 0o640


@pytest.mark.skipif(sys.platform == "win32" or os.geteuid() == 0, reason="root may write anywhere")
def test_a_protected_file_or_folder_is_refused(tmp_path):
    path = tmp_path / "build.yaml"
    path.write_text("a: 1\n")
    path.chmod(0o444)
    with pytest.raises(SaveError, match="protected"):
        save(path, "a: 2\n", sha(path))
    tmp_path.chmod(0o555)
    try:
        with pytest.raises(SaveError, match="cannot be written"):
            save(path, "a: 2\n", sha(path))
    finally:
        tmp_path.chmod(0o755)


def test_a_failing_disk_leaves_the_old_content(tmp_path, monkeypatch):
    path = tmp_path / "build.yaml"
    path.write_text("a: 1\n")

    def full(_handle):
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(os, "fsync", full)
    with pytest.raises(SaveError, match="no space left"):
        save(path, "a: 2\n", sha(path))
    assert path.read_text() == "a: 1\n"
    assert [one.name for one in tmp_path.iterdir()] == ["build.yaml"]


def test_what_is_not_utf8_on_disk_is_not_rewritten(tmp_path):
    path = tmp_path / "build.yaml"
    path.write_bytes(b"a: \xb5\n")
    with pytest.raises(SaveError, match="UTF-8"):
        save(path, "a: \ufffd\n", sha(path))
    with pytest.raises(SaveError, match="half a character"):
        save(tmp_path / "new.yaml", "a: \ud800\n", None)


def test_a_missing_folder_is_a_fault_of_saving(tmp_path):
    with pytest.raises(SaveError, match="cannot be written to"):
        save(tmp_path / "gone" / "build.yaml", "a: 1\n", None)


def test_one_holds_the_lock_at_a_time(tmp_path):
    mine = f"process {os.getpid()}"
    with (
        locked(tmp_path),
        pytest.raises(SaveError, match=mine),
        locked(tmp_path, patience=0.05),
    ):
        pass
    assert not (tmp_path / LOCK_NAME).exists()
    with locked(tmp_path):
        pass


def test_the_lock_goes_with_the_program_that_held_it(tmp_path):
    with subprocess.Popen(
        [sys.executable, "-c", HOLDS, str(tmp_path)], stdout=subprocess.PIPE, text=True
    ) as holder:
        assert holder.stdout.readline() == "held\n"
        with pytest.raises(SaveError, match=f"process {holder.pid}"), locked(tmp_path, patience=0):
            pass
        holder.kill()
        holder.wait()
    assert (tmp_path / LOCK_NAME).exists()
    with locked(tmp_path, patience=1.0):
        pass


@pytest.mark.parametrize("delay", [0.0, 0.003, 0.011, 0.024])
def test_a_program_killed_while_saving_leaves_a_whole_file(tmp_path, delay):
    path = tmp_path / "build.yaml"
    path.write_text("build: 0\n")
    with subprocess.Popen(
        [sys.executable, "-c", SAVES_FOR_EVER, str(path)], stdout=subprocess.PIPE, text=True
    ) as writer:
        writer.stdout.readline()
        time.sleep(delay)  # lands in another part of a save each time
        writer.kill()
        writer.wait()
    lines = path.read_text().split("\n")
    assert lines[0].startswith("build: ")
    assert lines[1:] == ["filler: x"] * 20000 + [""]
    save(path, "build: after\n", sha(path))
    assert [one.name for one in tmp_path.iterdir()] == ["build.yaml"]
