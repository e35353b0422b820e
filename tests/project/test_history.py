import datetime
import json
from pathlib import Path

import pytest

from drybuild.errors import SaveError
from drybuild.project import history
from drybuild.project.edit import change, remove
from drybuild.project.folder import FileText, digest
from drybuild.project.history import HISTORY_NAME, keep, read_history, redo, undo
from drybuild.project.save import ChangedOutsideError

TEXT = "# mine\r\ncar:\r\n  body: {wheelbase: '2540 mm'}  # tape\r\n  mass: 900 kg\r\n"


def clock():
    return datetime.datetime(2027, 3, 1, 12, tzinfo=datetime.UTC)


@pytest.fixture
def folder(tmp_path):
    (tmp_path / "build.yaml").write_bytes(TEXT.encode())
    return tmp_path


def content(folder):
    return (folder / "build.yaml").read_bytes().decode()


def file_of(folder):
    path = folder / "build.yaml"
    return FileText(path=path, text=content(folder), sha256=digest(path.read_bytes()))


def set_value(folder, address, value, before=None, why=""):
    file = file_of(folder)
    text = change(file.path, file.text, address, value)
    return keep(folder, file, text, what=address, before=before, after=value, why=why, clock=clock)


def test_a_change_is_one_line_that_a_person_can_read(folder):
    set_value(folder, "car.body.wheelbase", "2545 mm", "2540 mm", "measured again")
    (line,) = (folder / HISTORY_NAME).read_text("utf-8").splitlines()
    said = json.loads(line)
    assert said["what"] == "car.body.wheelbase"
    assert (said["from"], said["to"]) == ("2540 mm", "2545 mm")
    assert (said["why"], said["when"]) == ("measured again", "2027-03-01T12:00:00+00:00")
    assert said["file"] == "build.yaml"


def test_undo_and_redo_give_back_the_very_bytes(folder):
    texts = [content(folder)]
    for address, value in (
        ("car.body.wheelbase", "2545 mm"),
        ("car.body.front_track", "1360 mm"),
        ("jobs.strip.hours", "8 h"),
    ):
        set_value(folder, address, value)
        texts.append(content(folder))
    file = file_of(folder)
    keep(folder, file, remove(file.path, file.text, "car.mass"), what="car.mass", before="900 kg",
         after=None, clock=clock)  # fmt: skip
    texts.append(content(folder))
    for text in reversed(texts[:-1]):
        undo(folder, clock)
        assert content(folder) == text
    assert undo(folder, clock) is None
    for text in texts[1:]:
        redo(folder, clock)
        assert content(folder) == text
    assert redo(folder, clock) is None
    undo(folder, clock)
    assert content(folder) == texts[-2]
    assert len(read_history(folder).changes) == 4 + 4 + 4 + 1


def test_undo_says_what_it_took_back(folder):
    set_value(folder, "car.mass", "910 kg", "900 kg", "weighed")
    taken = undo(folder, clock)
    assert (taken.what, taken.before, taken.after, taken.undoes) == (
        "car.mass",
        "910 kg",
        "900 kg",
        1,
    )


def test_a_new_change_ends_the_chance_to_redo(folder):
    set_value(folder, "car.mass", "910 kg")
    undo(folder, clock)
    set_value(folder, "car.mass", "920 kg")
    assert redo(folder, clock) is None
    assert read_history(folder).undoable.after == "920 kg"


def test_undo_finds_its_place_after_an_edit_elsewhere(folder):
    set_value(folder, "car.mass", "910 kg")
    path = folder / "build.yaml"
    path.write_bytes(b"# a new line above\r\n" + path.read_bytes())
    undo(folder, clock)
    assert content(folder) == "# a new line above\r\n" + TEXT


def test_undo_leaves_a_place_alone_that_changed_outside(folder):
    set_value(folder, "car.mass", "910 kg")
    path = folder / "build.yaml"
    path.write_bytes(path.read_bytes().replace(b"910", b"915"))
    with pytest.raises(ChangedOutsideError):
        undo(folder, clock)
    assert "915" in content(folder)
    assert len(read_history(folder).changes) == 1


def test_a_line_cut_short_is_skipped_and_the_next_stands_whole(folder):
    set_value(folder, "car.mass", "910 kg")
    with (folder / HISTORY_NAME).open("ab") as stream:
        stream.write('{"number":2,"what":"car.m\u00b5'.encode()[:-1])
    set_value(folder, "car.mass", "920 kg")
    history = read_history(folder)
    assert [one.number for one in history.changes] == [1, 2]
    assert history.unreadable == 1
    undo(folder, clock)
    assert "910 kg" in content(folder)


def test_an_outside_change_saves_nothing_and_notes_nothing(folder):
    file = file_of(folder)
    (folder / "build.yaml").write_bytes(b"a: 1\n")
    with pytest.raises(ChangedOutsideError):
        keep(folder, file, "a: 2\n", what="a", before=None, after="2", clock=clock)
    assert read_history(folder).changes == ()


@pytest.mark.parametrize("name", ["../outside.yaml", "/etc/hostname"])
def test_a_history_that_points_outside_is_refused(folder, name):
    set_value(folder, "car.mass", "910 kg")
    path = folder / HISTORY_NAME
    path.write_text(path.read_text("utf-8").replace("build.yaml", name), "utf-8")
    with pytest.raises(SaveError, match="outside the build folder"):
        undo(folder, clock)


def test_no_history_is_an_empty_history(tmp_path):
    assert read_history(Path(tmp_path)).changes == ()
    assert undo(tmp_path, clock) is None


@pytest.mark.parametrize("saved", [True, False])
def test_who_writes_next_notes_what_a_killed_program_saved(folder, monkeypatch, saved):
    """As if the program were killed right after a save, or right before it."""
    before = content(folder)

    def killed(*_):
        raise KeyboardInterrupt

    with monkeypatch.context() as patch:
        patch.setattr(history, "_note" if saved else "save_locked", killed)
        with pytest.raises(KeyboardInterrupt):
            set_value(folder, "car.mass", "910 kg")
    assert (content(folder) != before) is saved
    assert read_history(folder).changes == ()
    assert (undo(folder, clock) is not None) is saved
    assert content(folder) == before
    assert len(read_history(folder).changes) == 2 * saved
    assert [one.name for one in folder.glob(".*saving")] == []
