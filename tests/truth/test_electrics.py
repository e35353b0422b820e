"""Wires against IEC, ASTM, FAA and marine tables, and the ht library."""

from __future__ import annotations

import ht
import numpy as np
import pytest

from drybuild.physics.air import air_conductivity, air_density, air_viscosity
from drybuild.physics.electrics import (
    INSULATION_EMISSIVITY,
    STEFAN_BOLTZMANN,
    adiabatic_constant,
    adiabatic_current,
    awg_diameter,
    conductor_resistance,
    conductor_temperature,
    free_air_ampacity,
    fuse_rating_wanted,
    resistance_when_warm,
    voltage_drop,
    wire_heat_loss,
)
from drybuild.tables.electrics import iec_resistance, iso_cables, next_fuse, sae_area

FOOT = 0.3048
ROOM = 293.15
# ASTM B258 rule with solid annealed copper: (gauge, diameter mm, area mm², Ω/km at 20 °C).
AWG = [
    (10, 2.588, 5.261, 3.277),
    (14, 1.628, 2.081, 8.285),
    (18, 1.024, 0.823, 20.95),
    (4, 5.189, 21.15, 0.8152),
    (-3, 11.684, 107.2, 0.1608),
]


@pytest.mark.parametrize(("gauge", "diameter", "area", "per_km"), AWG)
def test_gauges(gauge: int, diameter: float, area: float, per_km: float) -> None:
    found = awg_diameter(gauge=float(gauge))
    assert found * 1e3 == pytest.approx(diameter, abs=6e-4)
    section = np.pi / 4.0 * found**2
    assert section * 1e6 == pytest.approx(area, rel=1e-3)
    resistance = conductor_resistance(length=1000.0, area=section, temperature=ROOM)
    assert resistance == pytest.approx(per_km, rel=1e-3)


# IEC 60228, temperature correction factors: (t [°C], k_t [-]). Read from a maker's reprint.
IEC_60228_KT = [(5, 1.064), (30, 0.962), (50, 0.893), (70, 0.833), (80, 0.806), (100, 0.758)]


@pytest.mark.parametrize(("celsius", "k_t"), IEC_60228_KT)
def test_warming_agrees_with_iec_60228(celsius: float, k_t: float) -> None:
    warm = resistance_when_warm(resistance_at_20c=1.0, temperature=celsius + 273.15)
    # The printed table fits 250/(230 + t); IEC 60028 gives 254.5/(234.5 + t).
    assert 1.0 / warm == pytest.approx(k_t, rel=5e-3)


@pytest.mark.parametrize(
    ("conductor_class", "area", "per_km"),
    # IEC 60228, plain copper, largest resistance at 20 °C; four reprints agree.
    [(5, 0.5, 39.0), (5, 1.0, 19.5), (5, 2.5, 7.98), (5, 6.0, 3.30), (5, 16.0, 1.21),
     (5, 35.0, 0.554), (5, 70.0, 0.272), (2, 1.0, 18.1), (2, 2.5, 7.41), (2, 16.0, 1.15)],
)  # fmt: skip
def test_iec_60228_resistances(conductor_class: int, area: float, per_km: float) -> None:
    assert iec_resistance(conductor_class)[area] * 1e3 == pytest.approx(per_km, rel=1e-12)


def test_tabulated_resistances_lie_just_above_those_of_solid_copper() -> None:
    # The metal of a strand may be less than nominal, and the standards allow for drawing and
    # stranding: the widest step is IEC's 13.3 Ω/km at 1.5 mm², 16 % above ρ/A.
    tables = [*iec_resistance(5).items()]
    tables += [(cable.area * 1e6, cable.resistance) for cable in iso_cables()]
    for area, resistance in tables:
        solid = conductor_resistance(length=1.0, area=area * 1e-6, temperature=ROOM)
        assert 0.99 < resistance / solid < 1.16


def test_drop_of_ten_amps_in_five_metres() -> None:
    # 2.5 mm² of IEC 60228 class 5, 2.5 m out and back: 0.399 V at 20 °C, 0.493 V at 80 °C.
    cold = 5.0 * iec_resistance(5)[2.5]
    warm = resistance_when_warm(resistance_at_20c=cold, temperature=353.15)
    assert voltage_drop(current=10.0, resistance=cold) == pytest.approx(0.399, abs=5e-4)
    assert voltage_drop(current=10.0, resistance=warm) == pytest.approx(0.493, abs=5e-4)


@pytest.mark.parametrize(
    ("feet", "ohms_per_foot", "printed"),
    # FAA AC 43.13-1B Tables 11-7 and 11-8, 20 A. The row of 19.5 ft prints 0.366, a misprint.
    [(107, 0.00044, 0.942), (90, 0.00028, 0.504), (88, 0.00202, 3.60), (100, 0.00306, 6.12),
     (39, 0.00126, 0.98), (156, 0.00126, 3.93), (273, 0.00126, 6.88)],
)  # fmt: skip
def test_faa_voltage_drops(feet: float, ohms_per_foot: float, printed: float) -> None:
    assert voltage_drop(current=20.0, resistance=feet * ohms_per_foot) == pytest.approx(
        printed, rel=0.015
    )


def test_free_air_current_of_14_gauge_is_that_of_the_faa_chart() -> None:
    # FAA AC 43.13-1B, Figure 11-4a: #14, 50 °C air, 200 °C wire: 47 A.
    found = free_air_ampacity(
        resistance_at_20c=10.04e-3,
        outside_diameter=2.3e-3,
        conductor_temperature=473.15,
        air_temperature=323.15,
    )
    assert found == pytest.approx(47.0, rel=0.05)


def test_faa_second_worked_example() -> None:
    # FAA AC 43.13-1B: 47 A at altitude (0.91) in a bundle (0.6) is 26 A; 20 A then brings the wire
    # to 181.6 °C by the square-root rule, and 15.5 ft of it count as 9.48 ft.
    allowed = 47.0 * 0.91 * 0.6
    assert allowed == pytest.approx(26.0, abs=0.5)
    hot = 50.0 + 150.0 * (20.0 / 26.0) ** 0.5
    warm = resistance_when_warm(resistance_at_20c=1.0, temperature=hot + 273.15)
    assert 15.5 / warm == pytest.approx(9.48, rel=0.01)


# FAA AC 43.13-1B Table 11-9: (size, tinned copper Ω/1000 ft, A in a bundle); 105 °C wire in 70 °C
# air, 33 wires and more.
FAA_TABLE_11_9 = [
    (20, 9.88, 4), (18, 6.23, 6), (16, 4.81, 7), (14, 3.06, 10), (12, 2.02, 13), (10, 1.26, 17),
]  # fmt: skip


@pytest.mark.parametrize(("gauge", "per_1000_ft", "bundled"), FAA_TABLE_11_9)
def test_bundled_aircraft_currents_bound_ours_from_below(
    gauge: int, per_1000_ft: float, bundled: float
) -> None:
    # The trade's rule for large bundles is one half of the current in free air; the table must lie
    # about there. Its insulation is taken 0.4 mm thick.
    alone = free_air_ampacity(
        resistance_at_20c=per_1000_ft / (1000.0 * FOOT),
        outside_diameter=awg_diameter(gauge=float(gauge)) + 0.8e-3,
        conductor_temperature=378.15,
        air_temperature=343.15,
    )
    assert 0.3 < bundled / alone < 0.75


@pytest.mark.parametrize("warmer", [20.0, 75.0, 150.0])
def test_heat_loss_agrees_with_the_ht_library(warmer: float) -> None:
    diameter, air = 3.0e-3, 308.15
    film = air + warmer / 2.0
    density = air_density(pressure=101325.0, temperature=film)
    grashof = (
        9.80665 * warmer * diameter**3 / film / (air_viscosity(temperature=film) / density) ** 2
    )
    nusselt = ht.conv_free_immersed.Nu_horizontal_cylinder_Churchill_Chu(Pr=0.71, Gr=grashof)
    convection = nusselt * air_conductivity(temperature=film) / diameter * warmer
    radiation = INSULATION_EMISSIVITY * STEFAN_BOLTZMANN * ((air + warmer) ** 4 - air**4)
    found = wire_heat_loss(
        outside_diameter=diameter, surface_temperature=air + warmer, air_temperature=air
    )
    assert found == pytest.approx(np.pi * diameter * (convection + radiation), rel=1e-3)


# ABYC E-11, Table IX, 12 V, 3 %: (A, feet of round trip, AWG).
ABYC_TABLE_IX = [
    (5, 10, 18), (10, 10, 14), (15, 10, 12), (20, 10, 10), (25, 10, 10),
    (10, 20, 10), (15, 20, 10), (20, 20, 8), (5, 20, 14), (5, 25, 12),
]  # fmt: skip
# Its least areas in circular mils, and its rule CM = 10.75 I L/E; both from memory.
ABYC_LEAST_CM = {18: 1537, 16: 2336, 14: 3702, 12: 5833, 10: 9343, 8: 14810}


@pytest.mark.parametrize(("amps", "feet", "gauge"), ABYC_TABLE_IX)
def test_marine_table_of_three_per_cent(amps: float, feet: float, gauge: int) -> None:
    # 10.75 Ω·cmil/ft is copper at about 30 °C; our resistivity there must give the same size.
    mil = 25.4e-6
    circular_mil = np.pi / 4.0 * mil**2
    drop = 0.03 * 12.0
    per_area = conductor_resistance(length=feet * FOOT, area=1.0, temperature=303.15)
    wanted = per_area * amps / drop / circular_mil
    assert next(size for size, area in ABYC_LEAST_CM.items() if area >= wanted) == gauge


def test_starter_cable() -> None:
    # 200 A, 1.5 m each way of 35 mm² at 0.554 mΩ/m: 0.33 V at 20 °C.
    drop = voltage_drop(current=200.0, resistance=3.0 * iec_resistance(5)[35.0])
    assert drop == pytest.approx(0.33, abs=0.005)


def test_fuse_of_a_twelve_amp_load() -> None:
    # The 75 % rule of fuse makers' guides: 16 A or more, so a 20 A blade.
    wanted = fuse_rating_wanted(current=12.0, loading=0.75)
    assert wanted == pytest.approx(16.0)
    assert next_fuse(wanted) == 20.0


def test_adiabatic_constant_of_copper_under_pvc() -> None:
    # IEC 60364-5-54: k = 115 from 70 to 160 °C; 1 mm² for 0.1 s: 364 A. From memory.
    constant = adiabatic_constant(start_temperature=343.15, end_temperature=433.15)
    assert constant * 1e-6 == pytest.approx(115.0, abs=0.5)
    current = adiabatic_current(area=1e-6, duration=0.1, constant=115e6)
    assert current == pytest.approx(364.0, rel=1e-3)


def test_sae_cable_is_thinner_than_its_gauge() -> None:
    # SAE J1128 least areas against ASTM B258: about 7 to 13 % less metal.
    for gauge, area in sae_area().items():
        solid = np.pi / 4.0 * awg_diameter(gauge=float(gauge)) ** 2
        assert 0.85 < area / solid < 1.0


def test_temperature_and_ampacity_are_each_others_inverse() -> None:
    for cable in iso_cables():
        amps = free_air_ampacity(
            resistance_at_20c=cable.resistance,
            outside_diameter=cable.outside_diameter,
            conductor_temperature=358.15,
            air_temperature=308.15,
        )
        found = conductor_temperature(
            current=amps,
            resistance_at_20c=cable.resistance,
            outside_diameter=cable.outside_diameter,
            air_temperature=308.15,
            bundle_factor=1.0,
        )
        assert found == pytest.approx(358.15, abs=1e-3)
