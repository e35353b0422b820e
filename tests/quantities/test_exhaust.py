from __future__ import annotations

import pytest
from tests.building import BARE, evaluate

BUILD = """
build: a trial car
car: {body: {kind: unitary}, cooling: {altitude: 0 m}, intake: {duct_bore: 70 mm}}
options:
  engine: {trial: {as_is: true, power: 120 kW at 6000 rpm, displacement: 2 l}}
  exhaust: {trial: {as_is: true, pipes: 1, bore: 57 mm, length: 3 m, bends: 4, bend_loss: 0.25,
                    silencer_loss: 3, gas_temperature: 600 °C, CHANGED}}
"""


def built(changed: str = "roughness: 45 µm"):
    return evaluate(BUILD.replace("CHANGED", changed))


def test_bare_build_computes_every_exhaust_quantity() -> None:
    bare = evaluate(BARE)
    for name in (
        "exhaust_back_pressure", "exhaust_gas_velocity", "exhaust_mach_number",
        "exhaust_bore_wanted", "intake_duct_velocity", "intake_duct_bore_wanted",
    ):  # fmt: skip
        assert not bare.result(name).open, name


def test_gas_is_fuel_and_air() -> None:
    build = built()
    assert build.problems == ()
    fuel = build.value("fuel_flow_at_power")
    assert build.value("exhaust_mass_flow") == pytest.approx(fuel * 13.8)
    assert build.value("intake_air_flow") == pytest.approx(fuel * 12.8)


def test_losses_add_up() -> None:
    assert built().value("exhaust_loss_coefficient") == pytest.approx(4 * 0.25 + 3 + 1)


def test_wanted_bore_gives_the_back_pressure_it_is_sized_for() -> None:
    wanted = built().value("exhaust_bore_wanted")
    sized = evaluate(
        BUILD.replace("bore: 57 mm", f"bore: {wanted * 1e3:.4f} mm").replace(
            "CHANGED", "roughness: 45 µm"
        )
    )
    assert sized.value("exhaust_back_pressure") == pytest.approx(15e3, rel=1e-3)
    assert sized.value("exhaust_mach_number") <= 0.281


def test_second_pipe_quarters_the_back_pressure() -> None:
    one = built()
    two = evaluate(BUILD.replace("pipes: 1", "pipes: 2").replace("CHANGED", "roughness: 45 µm"))
    ratio = one.value("exhaust_back_pressure") / two.value("exhaust_back_pressure")
    assert ratio == pytest.approx(4.0, rel=0.05)
