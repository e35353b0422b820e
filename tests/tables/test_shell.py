"""Shell tables: stronger classes, thicker bolts, load factors in order, refused names."""

from __future__ import annotations

import pytest

from drybuild.errors import TableError
from drybuild.tables.shell import (
    bolt_class,
    bolt_thread,
    bolt_threads,
    fatigue_class,
    load_cases,
    sheet_thickness,
)


def test_a_higher_class_is_stronger_and_yields_before_it_breaks() -> None:
    weak, strong = bolt_class("8.8"), bolt_class("10.9")
    assert weak.ultimate < strong.ultimate
    assert weak.proof < weak.ultimate
    assert strong.proof < strong.ultimate


def test_every_thread_has_a_pitch_finer_than_its_diameter() -> None:
    assert bolt_threads()
    for name in bolt_threads():
        diameter, pitch = bolt_thread(name)
        assert diameter == pytest.approx(float(name.removeprefix("M")) / 1000.0)
        assert 0.0 < pitch < diameter / 3.0


def test_load_factors_lie_in_order() -> None:
    for name, case in load_cases().items():
        assert case.low <= case.value <= case.high, name


def test_a_higher_gauge_is_a_thinner_sheet() -> None:
    assert sheet_thickness("20") < sheet_thickness("18") < 0.002


def test_a_toe_lasts_longer_than_a_root() -> None:
    assert fatigue_class("cruciform toe") > fatigue_class("weld root")


def test_what_is_not_listed_is_refused() -> None:
    with pytest.raises(TableError, match=r"5\.5"):
        bolt_class("5.5")
    with pytest.raises(TableError, match="M11"):
        bolt_thread("M11")
