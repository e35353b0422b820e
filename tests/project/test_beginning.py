"""A starter made somebody's own."""

from __future__ import annotations

import pytest

from drybuild.project.beginning import Beginning, beginning_text, problems_of
from drybuild.project.body import KINDS


@pytest.mark.parametrize("kind", KINDS)
@pytest.mark.parametrize("examples", [True, False])
def test_it_reads_whatever_was_told(kind, examples) -> None:
    bare = Beginning(name="Mine: a trial", kind=kind, examples=examples)
    assert bare.wrong() == {}
    assert problems_of(beginning_text(bare)) == ()
    full = Beginning(
        name="Mine",
        kind=kind,
        shape="estate",
        units="us",
        sizes={"year": "1971", "wheelbase": "98 ± 1/8 in", "length": "", "width": "64 in"},
        use={"town": 40.0, "motorway": 60.0},
        keep=("bonnet", "door cards: all"),
        budget="18000 USD",
        hours="6 h",
        examples=examples,
    )
    assert full.wrong() == {}
    assert problems_of(beginning_text(full)) == ()


def test_nothing_of_the_invented_car_stands_as_measured() -> None:
    text = beginning_text(Beginning(name="Mine", kind="unitary"))
    assert 'front_track: "?"' in text
    assert "found:" not in text.partition("# found: ")[0].partition("zones:")[2]
    assert "kerb_mass <=" not in text
    assert "# wheel centre to wheel centre" in text  # comments stay


def test_what_does_not_read_is_told_at_its_field() -> None:
    one = Beginning(
        name="", kind="ladder", sizes={"wheelbase": "98"}, use={"town": 30.0}, budget="10000"
    )
    assert set(one.wrong()) == {"name", "wheelbase", "use", "budget"}
