"""Tins, clean air, gaps, fillers, media and limits against suppliers, codes and the trade."""

from __future__ import annotations

from itertools import product
from math import exp, log

import pytest

from drybuild.physics.paint import (
    clearance_time,
    cure_factor,
    spreading_rate,
    stage_time,
    thinned_solids,
    tins_for,
)
from drybuild.quantities.paint import SPRAY_AIR_SPEED
from drybuild.tables.paint import hazards, limit_of, materials
from drybuild.tables.paint_shop import fillers, joints, media, mixes
from drybuild.tables.typical import typical_range

INCH, FOOT = 25.4e-3, 0.3048


def test_the_american_spreading_constant() -> None:
    # coating supplier's sheet: 1604 VS/DFT[mil] ft²/gal, from 3.785 l, 25.4 µm and 0.0929 m².
    found = spreading_rate(volume_solids=1.0, dry_film=1e-3 * INCH)
    assert found * 3.785412e-3 / FOOT**2 == pytest.approx(1604.0, abs=0.5)


def test_mixing_thins_as_the_trade_page_says() -> None:
    # trade page: a tenth of thinner takes 50 % solids to 45.45 %; as shares of the mix: 1 : 0.1.
    assert thinned_solids(volume_solids=0.5, thinner=0.1) == pytest.approx(0.5 / 1.1)
    for material, one in mixes().items():
        assert sum(one.parts.values()) == pytest.approx(1.0), material
    # 4 : 1 : 0.5 is 72.7, 18.2 and 9.1 % of the volume (arithmetic of ratios)
    parts = mixes()["surfacer"].parts
    assert parts["paint"] == pytest.approx(4.0 / 5.5)
    assert parts["hardener"] == pytest.approx(1.0 / 5.5)


@pytest.mark.parametrize("litres", [0.3, 1.0, 2.6, 3.4, 4.9, 7.7])
def test_tins_agree_with_trying_every_buy(litres: float) -> None:
    # Exhaustive search as the independent answer.
    sizes = (0.5e-3, 1e-3, 2.5e-3, 5e-3)
    buys = [
        (sum(n * s for n, s in zip(buy, sizes, strict=True)), sum(buy))
        for buy in product(range(6), repeat=4)
    ]
    least = min(one for one in buys if one[0] >= litres * 1e-3 - 1e-12)
    tins = tins_for(volume=litres * 1e-3, sizes=sizes)
    assert sum(n * s for n, s in zip(tins, sizes, strict=True)) == pytest.approx(least[0])
    assert sum(tins) == min(n for v, n in buys if v == pytest.approx(least[0]))


def test_a_mixed_room_halves_its_mist_in_ln_2_of_an_air_change() -> None:
    # Dilution ventilation: dC/dt = -Q C/V; 69.3 % of an air change for a half, 4.6 for a hundredth.
    change = 60.0 / 2.0
    half = clearance_time(volume=60.0, airflow=2.0, mixing=1.0, left=0.5)
    assert half == pytest.approx(change * log(2.0))
    hundredth = clearance_time(volume=60.0, airflow=2.0, mixing=2.0, left=0.01)
    assert exp(-float(hundredth) * 2.0 / (2.0 * 60.0)) == pytest.approx(0.01)


def test_the_spray_places_air_is_the_codes() -> None:
    # 29 CFR 1910.107(b)(5) as an OSHA letter of 2001 tells it: 100 ft/min over the booth's
    # cross-section; a building code gives the same as 0.51 m/s.
    assert pytest.approx(100.0 * FOOT / 60.0, rel=1e-3) == SPRAY_AIR_SPEED
    assert pytest.approx(0.51, abs=5e-3) == SPRAY_AIR_SPEED


def test_cure_doubles_for_every_ten_kelvin() -> None:
    # common practice, no source: the rate about halves per 10 K drop; 20 °C is the sheet's.
    assert cure_factor(temperature=293.15) == pytest.approx(1.0)
    assert cure_factor(temperature=283.15) == pytest.approx(2.0)
    assert cure_factor(temperature=333.15) == pytest.approx(1.0 / 16.0)  # a 60 °C bake


def test_a_bake_of_half_an_hour_is_less_than_a_night() -> None:
    # common practice, no source: 16 to 24 h at 20 °C or 30 min at 60 °C; the rule gives 60 to 90.
    low, high = (hours * 60.0 * float(cure_factor(temperature=333.15)) for hours in (16, 24))
    assert 30.0 < low < high < 120.0


def test_stages_add_coat_by_coat() -> None:
    # Arithmetic: 18 m² at 20 m²/h are 54 min a coat; three coats with 10 min each are 3 h 12 min.
    found = stage_time(area=18.0, coats=3, gun_rate=20.0 / 3600.0, flash=600.0)
    assert found / 60.0 == pytest.approx(192.0)


def test_gaps_hold_the_trades_starting_point_and_the_works_own() -> None:
    # trade articles: begin at 5/32 in in bare metal; door gaps between 0.090 and 0.155 in.
    low, wanted, high = joints()["front wing to door"].gap
    assert wanted == pytest.approx(5.0 / 32.0 * INCH, abs=0.1e-3)
    assert low < 0.155 * INCH < high
    assert low == pytest.approx(0.090 * INCH, abs=0.8e-3)


def test_spot_putty_is_a_quarter_of_filler() -> None:
    # Automotive Sheet Metal Forming & Fabrication, filler chapter: 1/8 in, putty a quarter of it.
    assert fillers()["polyester"].thickest == pytest.approx(INCH / 8.0, abs=0.03e-3)
    assert fillers()["spot putty"].thickest == pytest.approx(fillers()["polyester"].thickest / 4.0)


def test_media_for_panels_are_those_of_the_guidebook() -> None:
    # Metal Finishing Guidebook 2011-12, p. 50: plastic, starch and soda on automobile panels.
    soft = {name for name, one in media().items() if one.skins and one.hardness}
    assert {"plastic", "starch", "soda"} == soft


def test_what_takes_rust_is_harder_than_steel_and_spares_no_skin() -> None:
    # trade article on media: mild steel sheet 4.5 to 5 on Mohs' scale; glass 5.5, silica 6 to 7.
    assert float(media()["crushed glass"].hardness) == 5.5
    assert 6.0 <= float(media()["sand"].hardness) <= 7.0
    for name, one in media().items():
        if one.takes_rust and one.hardness:
            assert float(one.hardness) > 5.0, name
            assert not one.skins, name
    # COSHH schedule 2: free silica is no abrasive.
    assert not any((media()["sand"].skins, media()["sand"].structure, media()["sand"].aluminium))


# NIOSH 1 mg/m³ over a shift, 3 for 15 min, OSHA ceiling 5 (two trade pages); 29 CFR 1910.1000
# table Z-1: zinc oxide fume 5 mg/m³ (from memory); 29 CFR 1910.95: 85 dB(A) (from memory).
MORE_LIMITS = [
    ("manganese in welding fume", "1 mg/m³"),
    ("manganese in welding fume", "5 never passed"),
    ("zinc oxide fume", "5 mg/m³"),
    ("noise", "85 dB(A)"),
]


@pytest.mark.parametrize(("agent", "limit"), MORE_LIMITS)
def test_welding_and_blasting_carry_their_limits(agent: str, limit: str) -> None:
    assert agent in hazards()
    assert limit in limit_of(agent)


def test_transfer_lies_where_a_tester_measured_it() -> None:
    # R. Joseph 2009: 60 to 70 % on large parts, 20 to 50 % on small ones.
    found = typical_range("paint.transfer", "unitary")
    assert found is not None
    assert 0.20 <= found.low < 0.60 <= found.high <= 0.70


def test_films_of_the_list_lie_in_the_trades_ranges() -> None:
    # order of size from memory: epoxy 25 to 50 µm and more on bare metal, surfacer 75 to 150,
    # base 15 to 25.
    films = {name: [round(one * 1e6, 6) for one in row.film] for name, row in materials().items()}
    assert 25 <= films["epoxy primer"][0] <= films["epoxy primer"][1] <= 50
    assert films["surfacer"][::2] == pytest.approx([75.0, 150.0])
    assert films["base coat"][::2] == pytest.approx([15.0, 25.0])
