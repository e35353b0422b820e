import pytest

from drybuild.errors import SaveError
from drybuild.project.body import KINDS
from drybuild.project.load import load
from drybuild.project.starter import MAIN_FILE, starter_text, write_starter


@pytest.mark.parametrize("kind", KINDS)
def test_a_starter_reads_without_a_problem_and_is_of_its_kind(tmp_path, kind):
    file = write_starter(tmp_path / "my car", kind)
    assert file.name == MAIN_FILE
    build = load(tmp_path / "my car")
    assert [str(one) for one in build.problems] == []
    assert build.kind == kind
    assert build.picks


@pytest.mark.parametrize("kind", KINDS)
def test_a_starter_teaches_by_comments_and_says_the_car_is_invented(kind):
    text = starter_text(kind)
    assert "an invented car" in text
    assert sum("#" in line for line in text.splitlines()) > 30
    assert '"?"' in text
    assert ": ~" in text
    assert max(map(len, text.splitlines())) <= 110


def test_nothing_is_overwritten(tmp_path):
    (tmp_path / "car.yaml").write_text("car: {}\n")
    with pytest.raises(SaveError, match="holds a build already"):
        write_starter(tmp_path, "unitary")
    assert [one.name for one in tmp_path.iterdir()] == ["car.yaml"]


def test_a_place_that_cannot_be_a_folder_is_refused(tmp_path):
    (tmp_path / "file").write_text("x")
    with pytest.raises(SaveError, match="cannot be made a build folder"):
        write_starter(tmp_path / "file", "unitary")


def test_an_unknown_kind_is_refused():
    with pytest.raises(ValueError, match="none of unitary, ladder, backbone"):
        starter_text("balloon")
