"""Reading sizes: every system, spelling, and what is refused."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from drybuild.errors import InputError
from drybuild.physics.tyre_sizes import Construction, System, TyreSize, tyre_size


def check(size: TyreSize, **wanted: object) -> None:
    for name, value in wanted.items():
        assert getattr(size, name) == (pytest.approx(value) if isinstance(value, float) else value)


def test_metric() -> None:
    check(
        tyre_size(text="205/55 R 16 91V"),
        text="205/55R16",
        system=System.METRIC,
        section_width=0.205,
        aspect=0.55,
        rim_diameter=0.406,
        construction=Construction.RADIAL,
        load_index=91,
        speed_symbol="V",
        extra_load=False,
    )


def test_metric_extra_load_and_zr() -> None:
    check(tyre_size(text="225/45ZR17 94Y XL"), extra_load=True, speed_symbol="Y", load_index=94)
    check(tyre_size(text="225/45ZR17"), speed_symbol="Z", load_index=None)
    check(tyre_size(text="255/40 ZR 18 (99Y)"), speed_symbol="Y", load_index=99)


def test_metric_without_a_series_names_no_aspect() -> None:
    check(tyre_size(text="155R13"), text="155R13", aspect=None, section_width=0.155)
    check(tyre_size(text="165 SR 14"), text="165R14", speed_symbol="S")
    check(tyre_size(text="185/70HR14"), text="185/70R14", speed_symbol="H", aspect=0.70)


def test_flotation_states_its_diameter() -> None:
    check(
        tyre_size(text="31x10.50R15 109S"),
        system=System.FLOTATION,
        stated_diameter=31 * 0.0254,
        section_width=10.5 * 0.0254,
        rim_code=15.0,
        load_index=109,
        aspect=None,
    )


def test_numeric() -> None:
    check(
        tyre_size(text="6.95-14"),
        text="6.95-14",
        system=System.NUMERIC,
        section_width=6.95 * 0.0254,
        construction=Construction.DIAGONAL,
        aspect=None,
    )
    check(tyre_size(text="5.60 – 15"), text="5.60-15")


def test_letter() -> None:
    check(
        tyre_size(text="E70-14"),
        text="E70-14",
        system=System.LETTER,
        load_letter="E",
        aspect=0.70,
        section_width=None,
        construction=Construction.DIAGONAL,
    )
    check(tyre_size(text="ER70-14"), construction=Construction.RADIAL, text="ER70-14")
    check(tyre_size(text="F60B15"), construction=Construction.BELTED)


@pytest.mark.parametrize(
    "text", ["", "205", "205/55", "205/55R", "R16", "round", "205-55-16-9", "I70-14"]
)
def test_what_is_no_size_is_refused(text: str) -> None:
    with pytest.raises(InputError, match="tyre size"):
        tyre_size(text=text)


@given(
    width=st.sampled_from(range(125, 335, 10)),
    series=st.sampled_from(range(25, 85, 5)),
    rim=st.integers(10, 22),
    spaced=st.booleans(),
)
def test_any_metric_size_reads_back(width: int, series: int, rim: int, spaced: bool) -> None:
    gap = " " if spaced else ""
    read = tyre_size(text=f"{width}/{series}{gap}R{gap}{rim}")
    assert read.text == f"{width}/{series}R{rim}"
    assert tyre_size(text=read.text) == read
