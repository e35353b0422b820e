"""The cooling, fuel and exhaust sheet."""

from __future__ import annotations

from drybuild.book.figures import labelled_bars
from drybuild.book.pages import Block, Chapter, Section
from drybuild.book.sheets import by_label, cautions, figures, verdicts_of
from drybuild.session import Session

HEAT = {
    "heat into the coolant": "coolant_heat_in_heat",
    "radiator can shed": "radiator_capacity",
    "coolant": "coolant_temperature",
    "below boiling by": "boil_margin",
    "hottest day": "hottest_day",
}
CIRCUIT = (
    "coolant_boiling_point",
    "coolant_freezing_point",
    "freeze_margin",
    "coolant_hose_velocity",
    "fan_air_flow",
    "radiator_area",
    "coolant_expansion",
    "oil_heat",
    "oil_warming",
)
FUEL = (
    "fuel_volume_flow_at_power",
    "fuel_pump_pressure",
    "fuel_pump_flow",
    "fuel_pump_flow_wanted",
    "pump_margin",
    "injector_size_wanted",
    "injector_duty",
    "fuel_vapour_margin",
    "usable_fuel",
    "fuel_range",
)
GAS = (
    "exhaust_mass_flow",
    "exhaust_bore_wanted",
    "exhaust_gas_velocity",
    "exhaust_back_pressure",
    "exhaust_mach_number",
    "intake_volume_flow",
    "intake_duct_bore_wanted",
    "intake_duct_velocity",
    "intake_density_loss",
)
MATTERS = ("cooling", "fuel", "exhaust")


def cooling_chapter(session: Session) -> Chapter:
    """Return heat, coolant, fuel, intake and exhaust."""
    blocks: list[Block] = [*cautions(session, *MATTERS), Section(title="Cooling")]
    blocks += labelled_bars(
        session,
        "coolant_temperature",
        caption="Coolant leaving the engine on a hot day, against its boiling point.",
        limit="coolant_boiling_point",
        limit_words="where the coolant boils",
    )
    blocks += by_label(
        session, "Hot day, situation by situation", "situation", HEAT,
        widths=(1.3, 1.2, 1.2, 1.0, 1.0, 1.0),
    )  # fmt: skip
    blocks += figures(session, "Coolant, fan and oil", CIRCUIT)
    blocks += [Section(title="Fuel"), *figures(session, "Supply at full power", FUEL)]
    blocks += by_label(
        session,
        "Lines",
        "line",
        {"speed of the fuel": "fuel_line_velocity", "pressure lost": "fuel_line_loss",
         "bore wanted": "fuel_line_bore_wanted"},
        bands=True,
    )  # fmt: skip
    blocks += [Section(title="Intake and exhaust"), *figures(session, "Gas", GAS)]
    blocks += verdicts_of(session, "The questions on cooling, fuel and exhaust", *MATTERS)
    return Chapter(
        title="Cooling, fuel and exhaust sheet",
        intro="Judged on the brief's hot day: idling, on its long climb, at its fast cruise, and "
        "at full power.",
        blocks=tuple(blocks),
    )
