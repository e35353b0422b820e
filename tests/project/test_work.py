from pathlib import Path

import pytest

from drybuild.errors import Problem
from drybuild.project.load import load

GOOD = """\
build: an invented van
car: {body: {kind: ladder}}
work:
  start: 2027-01-04
  hours_a_week: 12 h
  weekdays: {saturday: 2, sunday: 1}
  weeks_off: [2027-07-12 to 2027-08-01, 2027-12-20 to 2028-01-02 at 20 h]
  finds:
    worn bores:
      revealed_by: strip
      results:
        fine: {odds: 60 %}
        rebore: {odds: 40 %, hours: 6 / 8 / 12 h, cost: 450 EUR}
jobs:
  strip: {hours: 30 / 40 / 60 h}
  blast: {hours: 8 h, after: [strip], away: 2 / 3 / 6 weeks, fits: [engine]}
"""


def problems(folder: Path, text: str) -> list[Problem]:
    (folder / "build.yaml").write_text(text, encoding="utf-8")
    return list(load(folder).problems)


def test_good_jobs_have_no_problems(tmp_path: Path) -> None:
    assert problems(tmp_path, GOOD) == []


@pytest.mark.parametrize(
    ("old", "new", "code", "line", "field"),
    [
        ("after: [strip]", "after: [stirp]", "job-unknown", 16, "jobs.blast.after"),
        ("60 h}", "60 h, after: [blast]}", "job-circle", 15, "jobs.strip.after"),
        ("revealed_by: strip", "revealed_by: stripp", "job-unknown", 10, "revealed_by"),
        ("odds: 40 %", "odds: 50 %", "shares-total", 11, "results"),
        ("fits: [engine]", "fits: [engin]", "reference-unknown", 16, "jobs.blast.fits"),
        ("saturday", "satrday", "unknown-key", 6, "work.weekdays.satrday"),
        ("2027-07-12 to", "2027-17-12 to", "span-unreadable", 7, "work.weeks_off[0]"),
        ("at 20 h", "at 20", "span-unreadable", 7, "work.weeks_off[1]"),
        ("12 h\n", "12 h\n  ordered: {engin: 2027-01-05}\n", "reference-unknown", 6, "ordered"),
        ("12 h\n", "12 h\n  ordered: {engine: soon}\n", "date-unreadable", 6, "ordered.engine"),
        ("to 2027-08-01", "to 2027-06-01", "span-unreadable", 7, "work.weeks_off[0]"),
    ],
)
def test_each_slip_is_told_where_it_stands(
    tmp_path: Path, old: str, new: str, code: str, line: int, field: str
) -> None:
    assert GOOD.count(old) == 1
    (found,) = problems(tmp_path, GOOD.replace(old, new))
    assert (found.code, found.line) == (code, line)
    assert found.field.endswith(field)
    assert found.mend


def test_a_build_without_jobs_may_name_the_usual_ones(tmp_path: Path) -> None:
    text = GOOD.partition("jobs:")[0].replace("revealed_by: strip", "revealed_by: spray the colour")
    assert problems(tmp_path, text) == []
