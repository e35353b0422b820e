"""What the paint shop needs: tins, stages with flash and cure, clean air, media by panel."""

from __future__ import annotations

import numpy as np

from drybuild.physics.paint import clearance_time, cure_factor, stage_time
from drybuild.project.option import ask_where_changed
from drybuild.project.paint import Paint
from drybuild.project.samples import Values
from drybuild.quantities.quantity import Labelled, quantity
from drybuild.tables.paint_shop import mixes

SURE = 0.8
"""Share of cases in which what is bought suffices; usual for the rest of the plan as well."""
LEFT = 0.01
"""Share of the mist at which the place counts as cleared; common practice."""


@quantity(
    "m³", "Each component to be bought, enough in eight cases of ten", source="coating-coverage",
    per="component", shown="l",
)  # fmt: skip
def paint_to_buy(paint_volume_needed: Labelled) -> Labelled:
    """Split each material's volume ready to spray by its mixing ratio."""
    found = {}
    for material, volume in paint_volume_needed.items():
        enough = float(np.quantile(volume, SURE))
        for part, share in mixes()[material].parts.items():
            name = material if part == "paint" else f"{material}: {part}"
            found[name] = np.array([enough * share])
    return found


@quantity("-", "Flash and cure in the shop over those at 20 °C", source="common-practice")
def paint_cure_factor(paint: Paint) -> Values:
    """Twice for every 10 K less; no figure below 10 °C, where two-pack paint may never cure."""
    return cure_factor(temperature=paint.shop_temperature)


@quantity(
    "s", "Time in the spray place for all coats", source="common-practice", per="material",
    shown="h",
)  # fmt: skip
def paint_stage_time(painted_area: Values, paint_cure_factor: Values) -> Labelled:
    """Return spraying and flashing off, coat by coat, at the shop's temperature."""
    return {
        name: stage_time(
            area=painted_area,
            coats=one.coats,
            gun_rate=one.gun,
            flash=one.flash * paint_cure_factor,
        )
        for name, one in mixes().items()
    }


@quantity(
    "s", "Wait before sanding or handling", source="common-practice", per="material", shown="h"
)
def paint_stage_cure(paint_cure_factor: Values, clear_coat_cure: Values) -> Labelled:
    """Return the list's time at the shop's temperature; the clear coat's from its data sheet."""
    return {
        name: clear_coat_cure if name == "clear coat" else one.dry * paint_cure_factor
        for name, one in mixes().items()
    }


@quantity("s", "Until a spray place is cleared of mist", source="dilution-ventilation", shown="min")
def spray_clearance(paint: Paint) -> Values:
    """Return the time until a hundredth is left; the air-fed mask stays on until then."""
    given = paint.has("booth_airflow")
    ask_where_changed(paint, given=given, why="the paint stays as it is")
    return clearance_time(
        volume=paint.booth_width * paint.booth_height * paint.booth_length,
        airflow=paint.booth_airflow,
        mixing=paint.booth_mixing,
        left=LEFT,
    )


@quantity("m²", "Flat outer skin under hard media", source="blasting-trade-article")
def hard_blasted_skin(outer_area: Values, paint: Paint) -> Values:
    """Return the outer skin where the shell is blasted hard and the skins are not spared."""
    ask_where_changed(paint, given=paint.has("blasting"), why="the paint stays as it is")
    hard = paint.blasting == "hard media" and not paint.spare_skins
    return outer_area * (1.0 if hard else 0.0)
