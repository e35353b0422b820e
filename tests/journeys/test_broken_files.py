"""A person's file is broken in every way we could think of; each is told, none is a crash."""

import os
import re
import subprocess
import sys

import pytest
from click.testing import CliRunner

from drybuild.cli import main

BASE = """\
build: Ferrin 1500, an invented car
brief:
  use: {town: 40 %, motorway: 60 %}
car:
  body: {kind: unitary, wheelbase: 2480 ± 3 mm}
options:
  engine:
    original: {as_is: true, mass: 130 kg}
    larger: {mass: 150 kg, price: 1900 EUR}
  gearbox:
    original: {as_is: true}
    five-speed: {mass: 34 kg, price: 750 EUR}
picks:
  engine: original
"""
BOMB = "a0: &a0 [x, x, x, x, x, x, x, x, x, x]\n" + "".join(
    f"a{n}: &a{n} [{', '.join([f'*a{n - 1}'] * 10)}]\n" for n in range(1, 12)
)


def base(old, new):
    """The base with one text changed."""
    assert BASE.count(old) == 1
    return BASE.replace(old, new)


WHEELBASE = "2480 ± 3 mm"
ENGINE = "{mass: 150 kg, price: 1900 EUR}"

# What is broken: the file, and the code, line and field that the message must have.
ONE_FILE = {
    "misspelt key": (base("wheelbase", "wheelbse"), "unknown-key", 5, "car.body.wheelbse"),
    "misspelt top-level key": (base("picks", "piks"), "unknown-key", 13, "piks"),
    "misspelt section": (base("  body", "  bdy"), "unknown-key", 5, "car.bdy"),
    "near-miss of a system": (base("  gearbox", "  gearbx"), "unknown-key", 10, "options.gearbx"),
    "wrong unit": (base(WHEELBASE, "2480 kg"), "unit-wrong", 5, "car.body.wheelbase"),
    "unknown unit": (base(WHEELBASE, "12 furlings"), "unit-wrong", 5, "car.body.wheelbase"),
    "missing unit": (base(WHEELBASE, "2480"), "unit-missing", 5, "car.body.wheelbase"),
    "no number": (base(WHEELBASE, "long"), "number-unreadable", 5, "car.body.wheelbase"),
    "decimal comma": (base(WHEELBASE, '"2,48 m"'), "number-unreadable", 5, "car.body.wheelbase"),
    "underscore in a number": (
        base(WHEELBASE, "2_480 mm"),
        "number-unreadable",
        5,
        "car.body.wheelbase",
    ),
    "not a number": (base(WHEELBASE, ".nan m"), "number-unreadable", 5, "car.body.wheelbase"),
    "the word NaN": (base(WHEELBASE, "NaN mm"), "number-unreadable", 5, "car.body.wheelbase"),
    "infinite": (base(WHEELBASE, "1e999 m"), "number-unreadable", 5, "car.body.wheelbase"),
    "huge number": (base(WHEELBASE, "9e9 m"), "out-of-bounds", 5, "car.body.wheelbase"),
    "division by zero": (base(WHEELBASE, "1/0 in"), "number-unreadable", 5, "car.body.wheelbase"),
    "negative mass": (
        base("mass: 150 kg", "mass: -150 kg"),
        "out-of-bounds",
        9,
        "options.engine.larger.mass",
    ),
    "bad spread": (base(WHEELBASE, "2480 ± x mm"), "number-unreadable", 5, "car.body.wheelbase"),
    "negative spread": (
        base(WHEELBASE, "2480 ± -3 mm"),
        "number-unreadable",
        5,
        "car.body.wheelbase",
    ),
    "range from more to less": (
        base(WHEELBASE, "9 to 3 m"),
        "number-unreadable",
        5,
        "car.body.wheelbase",
    ),
    "list for a number": (base(WHEELBASE, "[1, 2]"), "number-wanted", 5, "car.body.wheelbase"),
    "mapping for a number": (
        base(WHEELBASE, "{length: 2 m}"),
        "unknown-key",
        5,
        "car.body.wheelbase.length",
    ),
    "unknown origin": (
        base(WHEELBASE, "{value: 2 m, from: hearsay}"),
        "choice-unknown",
        5,
        "car.body.wheelbase.from",
    ),
    "number for a mapping": (
        base("{kind: unitary, wheelbase: 2480 ± 3 mm}", "12"),
        "mapping-wanted",
        5,
        "car.body",
    ),
    "list for a mapping": (base(ENGINE, "[150 kg]"), "mapping-wanted", 9, "options.engine.larger"),
    "unknown choice": (
        base("kind: unitary", "kind: balloon"),
        "choice-unknown",
        5,
        "car.body.kind",
    ),
    "neither yes nor no": (
        base("as_is: true, mass", "as_is: perhaps, mass"),
        "yes-or-no-wanted",
        8,
        "options.engine.original.as_is",
    ),
    "wrong list length": (
        base("mass: 150 kg", "position: [1 m, 2 m]"),
        "list-wanted",
        9,
        "options.engine.larger.position",
    ),
    "unreadable power": (
        base("mass: 150 kg", "power: 80 kW at noon"),
        "number-unreadable",
        9,
        "options.engine.larger.power.at",
    ),
    "curve that runs back": (
        base("mass: 150 kg", "curve: [[3000 rpm, 200 N·m], [2000 rpm, 190 N·m]]"),
        "curve-unreadable",
        9,
        "options.engine.larger.curve",
    ),
    "estimate out of order": (
        base("mass: 150 kg", "fitting: 20 / 10 / 5 h"),
        "estimate-unreadable",
        9,
        "options.engine.larger.fitting",
    ),
    "money without currency": (
        base("1900 EUR", "1900"),
        "currency-missing",
        9,
        "options.engine.larger.price",
    ),
    "two currencies": (
        base("750 EUR", "750 USD"),
        "two-currencies",
        12,
        "options.gearbox.five-speed.price",
    ),
    "unknown pick": (
        base("engine: original\n", "engine: lager\n"),
        "pick-unknown",
        14,
        "picks.engine",
    ),
    "pick of another system's option": (
        base("engine: original\n", "engine: five-speed\n"),
        "pick-unknown",
        14,
        "picks.engine",
    ),
    "pick for an unknown system": (
        base("  engine: original\n", "  engien: original\n"),
        "unknown-key",
        14,
        "picks.engien",
    ),
    "option that needs nothing known": (
        base("mass: 150 kg", "needs: {gearbox: six-speed}"),
        "reference-unknown",
        9,
        "options.engine.larger.needs.gearbox",
    ),
    "option that excludes an unknown system": (
        base("mass: 150 kg", "excludes: {gearbx: [original]}"),
        "reference-unknown",
        9,
        "options.engine.larger.excludes.gearbx",
    ),
    "shape file that is not there": (
        base("mass: 150 kg", "shape: shapes/gone.yaml"),
        "file-missing",
        9,
        "options.engine.larger.shape",
    ),
    "shape file outside the folder": (
        base("mass: 150 kg", "shape: ../../etc/passwd"),
        "file-missing",
        9,
        "options.engine.larger.shape",
    ),
    "shares over 100 %": (base("motorway: 60 %", "motorway: 70 %"), "shares-total", 3, "brief.use"),
    "list for shares": (
        base("{town: 40 %, motorway: 60 %}", "[town, motorway]"),
        "mapping-wanted",
        3,
        "brief.use",
    ),
    "bad must line": (
        base("car:\n", "  must: [fast]\ncar:\n"),
        "must-unreadable",
        4,
        "brief.must[0]",
    ),
    "unknown quantity in must": (
        base("car:\n", "  must: [kerb_maas <= 900 kg]\ncar:\n"),
        "quantity-unknown",
        4,
        "brief.must[0]",
    ),
    "wrong unit in must": (
        base("car:\n", "  must:\n  - kerb_mass <= 900 mm\ncar:\n"),
        "limit-unreadable",
        5,
        "brief.must[0]",
    ),
    "unknown quantity in prefer": (
        base("car:\n", "  prefer: {beauty: 3}\ncar:\n"),
        "quantity-unknown",
        4,
        "brief.prefer.beauty",
    ),
    "unknown check in limits": (
        BASE + "limits:\n  brakes.no-such: 3 N\n",
        "limit-unreadable",
        16,
        "limits.brakes.no-such",
    ),
    "bad date": (
        base("car:\n", "  finish_by: 31.02.2027\ncar:\n"),
        "date-unreadable",
        4,
        "brief.finish_by",
    ),
    "date that no calendar has": (
        base("car:\n", "  finish_by: 2027-02-30\ncar:\n"),
        "date-unreadable",
        4,
        "brief.finish_by",
    ),
    "unreadable tyre size": (
        base("  gearbox:\n", "  tyres:\n    odd: {size: very wide}\n  gearbox:\n"),
        "notation-unreadable",
        11,
        "options.tyres.odd.size",
    ),
    "job that waits for itself": (
        BASE + "jobs:\n  strip: {after: blast}\n  blast: {after: strip}\n",
        "job-circle",
        16,
        "jobs.strip.after",
    ),
    "job after a job that is not there": (
        BASE + "jobs:\n  strip: {hours: 4 / 6 / 9 h}\n  blast: {after: stirp}\n",
        "job-unknown",
        17,
        "jobs.blast.after",
    ),
    "zone that no body has": (
        BASE + "survey:\n  zones:\n    front flor left: {found: patch}\n",
        "unknown-key",
        17,
        "survey.zones.front flor left",
    ),
    "later format": (base("brief:\n", "format: 9\nbrief:\n"), "format-unknown", 2, "format"),
    "tab indent": (
        base("  engine:\n    original", "\tengine:\n\t\toriginal"),
        "tab-indent",
        7,
        "options",
    ),
    "duplicate key": (
        base("    larger:", "    original:"),
        "duplicate-key",
        9,
        "options.engine.original",
    ),
    "duplicate top-level key": (BASE + "car: {}\n", "duplicate-key", 15, "car"),
    "truncated": (BASE[: BASE.index("750 EUR") + 3], "unclosed", 12, "options.gearbox.five-speed"),
    "quote never closed": (base("Ferrin", "'Ferrin"), "unclosed", 1, "build"),
    "bracket never closed": (base("60 %}", "60 %"), "unclosed", 3, "brief.use"),
    "line without a colon": (base("picks:\n", "picks\n"), "syntax", 13, "the file"),
    "two colons": (base("Ferrin 1500, an", "Ferrin 1500: an"), "syntax", 1, "build"),
    "indented differently": (base("  gearbox:", " gearbox:"), "syntax", 10, "options"),
    "forbidden first character": (base(WHEELBASE, "@2480 mm"), "syntax", 5, "car.body.wheelbase"),
    "empty": ("", "file-empty", 1, "the file"),
    "only comments": ("# nothing yet\n", "file-empty", 1, "the file"),
    "a list": ("- build\n- car\n", "mapping-wanted", 1, "the file"),
    "a single text": ("my car\n", "mapping-wanted", 1, "the file"),
    "several documents": (BASE + "---\ncar: {}\n", "several-documents", 15, "the file"),
    "alias bomb": (BASE + BOMB, "too-many-values", 20, "a5[0]"),
    "alias that holds itself": (
        base(ENGINE, "&x {note: *x}"),
        "alias-circle",
        9,
        "options.engine.larger.note",
    ),
    "alias of nothing": (base(ENGINE, "*gone"), "alias-unknown", 9, "options.engine.larger"),
    "tag": (base(ENGINE, "!!python/name:os.system x"), "tag", 9, "options.engine.larger"),
    "merged entries": (
        base(ENGINE, "{<<: {mass: 1 kg}}"),
        "merge-key",
        9,
        "options.engine.larger",
    ),
    "nested too deep": (base(ENGINE, "[" * 99 + "]" * 99), "too-deep", 9, "options.engine.larger"),
    "invisible character": (base("Ferrin", "Fer\x07rin"), "control-character", 1, "the file"),
    "zero bytes": (base("Ferrin", "Fer\x00rin"), "control-character", 1, "the file"),
    "a list as a key": (
        base("    larger:", "    ? [a, b]\n    :"),
        "key-not-text",
        9,
        "options.engine",
    ),
    "include out of the folder": (
        BASE + "include: [../other.yaml]\n",
        "include-path",
        15,
        "include[0]",
    ),
    "include that is not there": (BASE + "include: parts.yaml\n", "file-missing", 15, "include"),
    "include of itself": (BASE + "include: [build.yaml]\n", "include-circle", 15, "include[0]"),
}


def check(folder):
    """Run the command on a folder; return exit code and everything it said."""
    before = snapshot(folder)
    done = CliRunner().invoke(main, ["check", str(folder)])
    assert done.exception is None or isinstance(done.exception, SystemExit), done.exc_info
    assert snapshot(folder) == before, "something was written"
    return done.exit_code, done.output + (done.stderr or "")


def snapshot(folder):
    return {
        str(one.relative_to(folder)): one.read_bytes() if one.is_file() else None
        for one in folder.rglob("*")
    }


def assert_told(output, file, code, line, field):
    """One message says where, what, how to mend it, and its code."""
    heads = re.findall(rf"^(.*:\d+: .*)\n  (\S.*) \[{code}\]$", output, re.MULTILINE)
    assert heads, output
    wanted = f"{file}:{line}: {field}: "
    assert any(head.startswith(wanted) and len(head) > len(wanted) for head, _ in heads), output
    assert "Traceback" not in output


@pytest.mark.parametrize("name", ONE_FILE)
def test_a_broken_file_is_told_with_its_place_and_its_mend(tmp_path, name):
    text, code, line, field = ONE_FILE[name]
    file = tmp_path / "build.yaml"
    file.write_bytes(text.encode())
    exit_code, output = check(tmp_path)
    assert exit_code == 2, output
    assert_told(output, file, code, line, field)


def test_the_unbroken_file_has_no_problem(tmp_path):
    (tmp_path / "build.yaml").write_text(BASE, encoding="utf-8")
    exit_code, output = check(tmp_path)
    assert exit_code == 0, output


@pytest.mark.parametrize("encoding", ["latin-1", "utf-16"])
def test_another_encoding(tmp_path, encoding):
    file = tmp_path / "build.yaml"
    file.write_bytes(BASE.encode(encoding))
    exit_code, output = check(tmp_path)
    assert exit_code == 2
    assert_told(output, file, "not-utf-8", 5 if encoding == "latin-1" else 1, "the file")


def test_a_key_in_two_files(tmp_path):
    (tmp_path / "build.yaml").write_text(BASE, encoding="utf-8")
    (tmp_path / "more.yaml").write_text("jobs: {}\ncar: {}\n", encoding="utf-8")
    exit_code, output = check(tmp_path)
    assert exit_code == 2
    assert_told(output, tmp_path / "more.yaml", "key-in-two-files", 2, "car")
    assert "build.yaml:4" in output


def test_files_that_include_each_other(tmp_path):
    (tmp_path / "build.yaml").write_text(BASE + "include: parts/a.yaml\n", encoding="utf-8")
    (tmp_path / "parts").mkdir()
    (tmp_path / "parts/a.yaml").write_text("include: b.yaml\n", encoding="utf-8")
    (tmp_path / "parts/b.yaml").write_text("include: a.yaml\n", encoding="utf-8")
    exit_code, output = check(tmp_path)
    assert exit_code == 2
    assert_told(output, tmp_path / "parts/b.yaml", "include-circle", 1, "include")


def test_a_link_out_of_the_folder(tmp_path):
    (tmp_path / "secret.yaml").write_text("car: {}\n", encoding="utf-8")
    folder = tmp_path / "build"
    folder.mkdir()
    (folder / "build.yaml").write_text(BASE, encoding="utf-8")
    try:
        (folder / "link.yaml").symlink_to(tmp_path / "secret.yaml")
    except OSError:
        pytest.skip("links cannot be made here")
    exit_code, output = check(folder)
    assert exit_code == 2
    assert_told(output, folder / "link.yaml", "file-outside", 1, "the file")


def test_a_file_too_large(tmp_path):
    file = tmp_path / "build.yaml"
    file.write_bytes(BASE.encode() + b"# filler\n" * 600_000)
    exit_code, output = check(tmp_path)
    assert exit_code == 2
    assert_told(output, file, "file-too-large", 1, "the file")


@pytest.mark.parametrize("place", ["gone", "gone/build.yaml", "."])
def test_nothing_there(tmp_path, place):
    exit_code, output = check(tmp_path / place)
    assert exit_code == 2
    field = "the folder" if place == "." else "the file"
    assert_told(output, tmp_path / place, "file-missing", 1, field)


@pytest.mark.skipif(
    not hasattr(os, "geteuid") or os.geteuid() == 0, reason="the superuser may read everything"
)
def test_a_file_that_may_not_be_read(tmp_path):
    file = tmp_path / "build.yaml"
    file.write_text(BASE, encoding="utf-8")
    file.chmod(0)
    exit_code, output = CliRunner().invoke(main, ["check", str(tmp_path)]), ""
    assert exit_code.exit_code == 2
    assert_told(exit_code.output + output, file, "file-unreadable", 1, "the file")


def test_every_problem_is_told_at_once_and_the_rest_still_opens(tmp_path):
    text = (
        BASE.replace("wheelbase", "wheelbse")
        .replace("1900 EUR", "1900")
        .replace("engine: original\n", "engine: lager\n")
    )
    (tmp_path / "build.yaml").write_text(text + "broken: {a\n", encoding="utf-8")
    exit_code, output = check(tmp_path)
    assert exit_code == 2
    for code in ("unknown-key", "currency-missing", "pick-unknown", "unclosed"):
        assert f"[{code}]" in output
    done = CliRunner().invoke(main, ["check", str(tmp_path), "--anyway", "--samples", "50"])
    assert done.exit_code == 0, done.output


@pytest.mark.parametrize("name", ["truncated", "alias bomb", "a single text"])
def test_the_real_command_says_the_same_without_a_traceback(tmp_path, name):
    text, code, line, field = ONE_FILE[name]
    file = tmp_path / "build.yaml"
    file.write_bytes(text.encode())
    done = subprocess.run(
        [sys.executable, "-m", "drybuild", "check", str(tmp_path)],
        capture_output=True,
        encoding="utf-8",
        check=False,
        env={**os.environ, "PYTHONUTF8": "1"},
    )
    assert done.returncode == 2
    assert_told(done.stderr, file, code, line, field)
