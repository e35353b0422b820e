"""Sizing of the brakes as rows for terminal and book, and as JSON."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np
from rich.table import Table

from drybuild.present.numbers import as_text, in_unit, unit_for, value_and_band
from drybuild.project.samples import Values
from drybuild.quantities.brakes_pedal import most_force
from drybuild.quantities.brakes_sizing import (
    COMFORTABLE,
    MOST_TRAVEL,
    PedalSizing,
    PistonRow,
    ValveSetting,
)
from drybuild.quantities.brakes_unassisted import Unassisted
from drybuild.quantities.graph import summary
from drybuild.tables.brakes import master_cylinder_bores

NEAR = 2e-4  # [m], a bore is the fitted one within this


@dataclass(frozen=True, kw_only=True)
class Rows:
    """A small table, ready to set."""

    title: str
    columns: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]
    note: str = ""


def bore_rows(sizing: PedalSizing, bore: float, ratio: Values, units: str) -> Rows:
    """Return what each bore that is made would do with the pedal as it is."""
    rows = []
    for name, made in master_cylinder_bores().items():
        force, share = sizing.force(made, ratio), sizing.travel_share(made, ratio)
        low, high = (
            float(sizing.ratio_by_force(np.array(made), most_force())),
            float(sizing.ratio_by_travel(np.array(made), MOST_TRAVEL)),
        )
        rows.append(
            (
                f"{name} (as picked)" if abs(made - bore) < NEAR else name,
                _length(made, units),
                _told(force, "N", "N", units),
                _told(share, "-", "%", units),
                f"{low:.1f} to {high:.1f}" if low <= high else "none",
                _percent(_odds((force <= most_force()) & (share <= MOST_TRAVEL))),
            )
        )
    best, best_ratio = sizing.best()
    return Rows(
        title=f"Master cylinders that are made, at a pedal ratio of {as_text(float(ratio[0]))}",
        columns=("bore", "size", "foot at 0.9 g", "pedal used", "ratios that do", "odds"),
        rows=tuple(rows),
        note=f"Odds: force within {most_force():g} N and travel within 60 %. Nearest to both, the "
        f"pedal changed as little as may be: {best} at {best_ratio:.1f}.",
    )


def piston_rows(pistons: Sequence[PistonRow], axle: str, units: str) -> Rows:
    """Return what other pistons at an axle would do."""
    rows = [
        (
            f"{one.name} (as picked)" if one.fitted else one.name,
            _told(one.force, "N", "N", units),
            _told(one.travel_share, "-", "%", units),
            _told(one.pressure, "Pa", "bar", units),
            _told(one.front_share, "-", "%", units),
            _percent(_odds(one.lead >= 0.0)),
        )
        for one in pistons
        if one.axle == axle
    ]
    return Rows(
        title=f"Other pistons at the {axle}, all else as it is",
        columns=("piston", "foot at 0.9 g", "pedal used", "pressure", "front share",
                 "front locks first"),
        rows=tuple(rows),
    )  # fmt: skip


def valve_rows(settings: Sequence[ValveSetting], units: str) -> Rows:
    """Return the best setting of each kind of valve."""
    free = settings[0]
    rows = []
    for one in settings:
        idle = one.kind != free.kind and one.efficiency == free.efficiency
        knee = "" if one.kind == free.kind else f"{_value(one.knee, 'Pa', 'bar', units)}"
        rows.append(
            (
                one.kind,
                "never reached" if idle else knee,
                "" if one.kind == free.kind or idle else f"{one.slope:g}",
                *(_percent(one.efficiency[load]) for load in one.efficiency),
                *(f"{one.lead[load]:+.2f}".replace("-", "−") for load in one.lead),
                _percent(one.odds),
            )
        )
    return Rows(
        title="Best setting of a rear valve",
        columns=("valve", "knee", "slope", "grip used, kerb", "laden", "front's lead, kerb",
                 "laden", "odds"),
        rows=tuple(rows),
        note="Most grip used with the front axle first from 0.15 to 0.8 g at both loads; the lead "
        "is the least of front over rear adhesion. Odds: the front leads at every rate.",
    )  # fmt: skip


def as_table(rows: Rows) -> Table:
    """Return rows for the terminal."""
    table = Table(title=rows.title, title_justify="left", caption=rows.note or None,
                  caption_justify="left")  # fmt: skip
    for place, column in enumerate(rows.columns):
        table.add_column(column, overflow="fold", justify="left" if place == 0 else "right")
    for row in rows.rows:
        table.add_row(*row)
    return table


def sizing_json(
    sizing: PedalSizing,
    ratio: Values,
    pistons: Sequence[PistonRow],
    settings: Sequence[ValveSetting],
    unassisted: Unassisted | None,
) -> dict[str, Any]:
    """Return the sizing in SI: bores, pistons, valves, and the brakes without a servo."""
    best, best_ratio = sizing.best()
    found: dict[str, Any] = {
        "limits": {"pedal_force": most_force(), "comfortable_pedal_force": COMFORTABLE,
                   "pedal_travel_share": MOST_TRAVEL},
        "best": {"bore": best, "pedal_ratio": best_ratio},
        "bores": [
            {
                "name": name,
                "bore": made,
                "pedal_force": _triple(sizing.force(made, ratio)),
                "pedal_travel_share": _triple(sizing.travel_share(made, ratio)),
                "odds": sizing.odds(made, ratio),
            }
            for name, made in master_cylinder_bores().items()
        ],
        "pistons": [
            {
                "axle": one.axle, "name": one.name, "diameter": one.diameter, "fitted": one.fitted,
                "line_pressure": _triple(one.pressure),
                "pedal_force": _triple(one.force),
                "pedal_travel_share": _triple(one.travel_share),
                "front_brake_share": _triple(one.front_share),
                "front_locks_first_odds": _odds(one.lead >= 0.0),
            }
            for one in pistons
        ],
        "valves": [
            {
                "kind": one.kind,
                "knee": one.knee if np.isfinite(one.knee) else None,
                "slope": one.slope, "efficiency": one.efficiency, "lead": one.lead,
                "odds": one.odds,
            }
            for one in settings
        ],
    }  # fmt: skip
    if unassisted is not None:
        found["unassisted"] = _unassisted_json(unassisted)
    return found


def _unassisted_json(one: Unassisted) -> dict[str, Any]:
    by_axle = {
        name: {axle: _triple(values) for axle, values in getattr(one, name).items()}
        for name in ("descent", "descent_in_gear", "fluid_margin")
    }
    single = ("disc", "force", "travel_share", "deceleration", "distance", "hot_share",
              "hot_distance")  # fmt: skip
    return {
        "bore": one.bore,
        "pedal_ratio": one.ratio,
        **{name: _triple(getattr(one, name)) for name in single},
        **by_axle,
    }


def _triple(values: Values) -> dict[str, float | None]:
    value, low, high = (float(one) if np.isfinite(one) else None for one in summary(values))
    return {"value": value, "low": low, "high": high}


def _told(values: Values, unit: str, shown: str, units: str) -> str:
    value, band = value_and_band(summary(values), unit, shown, units, "")
    return f"{value} ({band})" if band else value


def _value(value: float, unit: str, shown: str, units: str) -> str:
    return f"{as_text(in_unit(value, unit, shown, units))} {unit_for(shown, units, '')}"


def _length(metres: float, units: str) -> str:
    unit = unit_for("mm", units, "")
    return f"{in_unit(metres, 'm', 'mm', units):.{1 if unit == 'mm' else 3}f} {unit}"


def _percent(share: float) -> str:
    return f"{100.0 * share:.0f} %"


def _odds(good: Any) -> float:  # a boolean array
    return float(np.mean(good[1:] if np.size(good) > 1 else good))
