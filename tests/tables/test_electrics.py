from __future__ import annotations

import pytest

from drybuild.errors import TableError
from drybuild.tables.electrics import (
    SITUATIONS,
    bundle_factor,
    bundle_factors,
    fuse_ratings,
    fuse_times,
    iec_resistance,
    iso_cables,
    next_fuse,
    sae_area,
    standard_circuits,
)


def test_larger_cables_have_less_resistance_and_more_outside() -> None:
    cables = iso_cables()
    assert [one.area for one in cables] == sorted(one.area for one in cables)
    assert [one.resistance for one in cables] == sorted(
        (one.resistance for one in cables), reverse=True
    )
    assert [one.outside_diameter for one in cables] == sorted(o.outside_diameter for o in cables)


def test_fuses_rise_and_end() -> None:
    assert list(fuse_ratings()) == sorted(fuse_ratings())
    assert next_fuse(15.0) == 15.0
    assert next_fuse(15.1) == 20.0
    with pytest.raises(TableError, match="no fuse"):
        next_fuse(1000.0)


def test_heavier_loads_open_a_fuse_sooner() -> None:
    longest = [late for _, _, late in fuse_times()]
    assert longest == sorted(longest, reverse=True)
    assert fuse_times()[-1] == (6.0, 0.0, 0.1)


def test_bundles_derate() -> None:
    assert bundle_factor(1) == 1.0
    assert [factor for _, factor in bundle_factors()] == sorted(
        (factor for _, factor in bundle_factors()), reverse=True
    )
    with pytest.raises(TableError, match="no bundle"):
        bundle_factor(0)


def test_bundles_agree_with_the_faa_figure() -> None:
    # FAA AC 43.13-1B, Figure 11-5: eight wires, 60 % loaded, 0.6 (worked example 2, read in a
    # reprint); 33 wires, 20 % loaded, about 0.52 (from memory).
    assert bundle_factor(8) == pytest.approx(0.60, abs=0.01)
    assert bundle_factor(33) == pytest.approx(0.52, abs=0.03)


def test_standard_circuits_are_whole() -> None:
    for one in standard_circuits().values():
        assert one.current.low <= one.current.value <= one.current.high <= one.fuse
        assert one.run > 0.0
        assert one.area > 0.0
        assert len(one.duty) == len(SITUATIONS)
        assert all(0.0 <= share <= 1.0 for share in one.duty)


def test_classes_and_gauges() -> None:
    assert set(iec_resistance(2)) < set(iec_resistance(5))
    assert iec_resistance(2)[2.5] < iec_resistance(5)[2.5]
    assert list(sae_area()) == sorted(sae_area(), reverse=True)
