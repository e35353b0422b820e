import os

import pytest

from drybuild.project import folder as folders
from drybuild.project.edit import value_of
from drybuild.project.folder import digest, read_folder


def write(folder, **files):
    for name, text in files.items():
        path = folder / (name.replace("__", "/") + ".yaml")
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_bytes(text.encode())


def faults(place):
    return [(one.code, one.file.name, one.line, one.field) for one in read_folder(place).problems]


def test_a_folder_is_merged_by_top_level_key(tmp_path):
    write(tmp_path, build="build: x\n", options="options: {engine: {a: {}}}\n", car="car: {}\n")
    (tmp_path / ".hidden.yaml").write_text("build: y\n")
    (tmp_path / "notes.txt").write_text("no YAML: [")
    source = read_folder(tmp_path)
    assert not source.problems
    assert list(source.root.entries) == ["build", "car", "options"]
    assert [one.path.name for one in source.files] == ["build.yaml", "car.yaml", "options.yaml"]
    assert source.files[0].sha256 == digest(b"build: x\n")
    assert source.root.entries["options"].node.where.file == tmp_path / "options.yaml"


def test_a_single_file_is_read_without_its_neighbours(tmp_path):
    write(tmp_path, build="build: x\n", other="build: y\n")
    source = read_folder(tmp_path / "build.yaml")
    assert value_of(source.root) == {"build": "x"}
    assert not source.problems


def test_a_key_in_two_files_names_both_places(tmp_path):
    write(tmp_path, a="# one\nbuild: x\n", b="car: {}\nbuild: y\n")
    (problem,) = read_folder(tmp_path).problems
    assert (problem.code, problem.file.name, problem.line) == ("key-in-two-files", "b.yaml", 2)
    assert "a.yaml:2" in problem.wrong
    assert value_of(read_folder(tmp_path).root)["build"] == "x"


def test_files_below_the_folder_are_included(tmp_path):
    write(tmp_path, build="include: [parts/engines.yaml, more.yaml]\nbuild: x\n")
    write(tmp_path, parts__engines="options: {}\ninclude: deep.yaml\n", parts__deep="jobs: {}\n")
    write(tmp_path, more="car: {}\n")
    for place in (tmp_path, tmp_path / "build.yaml"):
        source = read_folder(place)
        assert not source.problems
        assert set(source.root.entries) == {"build", "options", "jobs", "car"}


@pytest.mark.parametrize(
    "name",
    [
        "../x.yaml",
        "/etc/x.yaml",
        "C:/x.yaml",
        "a/../x.yaml",
        "..\\x.yaml",
        "x.txt",
        "\\\\host\\x.yaml",
    ],
)
def test_an_include_never_leaves_the_folder(tmp_path, name):
    write(tmp_path, build=f"build: x\ninclude:\n  - '{name}'\n")
    assert faults(tmp_path) == [("include-path", "build.yaml", 3, "include[0]")]


def test_an_include_that_is_not_there_is_named(tmp_path):
    write(tmp_path, build="build: x\ninclude: [gone.yaml, {a: b}]\n")
    assert faults(tmp_path) == [
        ("file-missing", "build.yaml", 2, "include[0]"),
        ("include-path", "build.yaml", 2, "include[1]"),
    ]


def test_files_that_include_each_other_are_read_once(tmp_path):
    write(tmp_path, build="build: x\ninclude: two.yaml\n", two="car: {}\ninclude: [build.yaml]\n")
    source = read_folder(tmp_path)
    assert faults(tmp_path) == [("include-circle", "two.yaml", 2, "include[0]")]
    assert "build.yaml -> two.yaml -> build.yaml" in source.problems[0].wrong
    assert set(source.root.entries) == {"build", "car"}


def test_a_file_that_includes_itself(tmp_path):
    write(tmp_path, build="build: x\ninclude: build.yaml\n")
    assert faults(tmp_path) == [("include-circle", "build.yaml", 2, "include")]


def test_links_that_lead_outside_are_refused(tmp_path):
    outside = tmp_path / "secret.yaml"
    outside.write_text("car: {}\n")
    inside = tmp_path / "build"
    write(inside, build="build: x\n")
    try:
        (inside / "link.yaml").symlink_to(outside)
        (inside / "circle.yaml").symlink_to(inside / "circle.yaml")
    except OSError:
        pytest.skip("links cannot be made here")
    assert faults(inside) == [
        ("file-missing", "circle.yaml", 1, "the file"),
        ("file-outside", "link.yaml", 1, "the file"),
    ]


def test_what_is_not_there_or_no_file_is_named(tmp_path):
    assert [one[0] for one in faults(tmp_path / "nowhere")] == ["file-missing"]
    assert [one[0] for one in faults(tmp_path)] == ["file-missing"]
    (tmp_path / "odd.yaml").mkdir()
    assert [one[0] for one in faults(tmp_path)] == ["file-missing"]


@pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="no pipes on this system")
def test_a_pipe_is_not_waited_for(tmp_path):
    os.mkfifo(tmp_path / "pipe.yaml")
    assert [one[0] for one in faults(tmp_path)] == ["file-missing"]


def test_too_many_files_are_refused(tmp_path, monkeypatch):
    monkeypatch.setattr(folders, "MOST_FILES", 2)
    write(tmp_path, a="a: 1\n", b="b: 1\n", c="c: 1\n")
    assert faults(tmp_path) == [("too-many-files", "c.yaml", 1, "the file")]


def test_what_a_fault_hides_is_told(tmp_path):
    write(tmp_path, build="build: x\ncar: {a: 1\noptions: {}\n")
    source = read_folder(tmp_path)
    assert source.broken == ("car",)
    assert set(source.root.entries) == {"build", "options"}


def test_each_key_leads_to_its_file(tmp_path):
    write(tmp_path, a="car: {}\n", b="build: x\n")
    source = read_folder(tmp_path)
    assert source.file_of("car").path.name == "a.yaml"
    assert source.file_of("jobs").path.name == "b.yaml"
