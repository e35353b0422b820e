"""Corners and ride: the bend to its limit, braking in it, roads, and what springs trade for."""

from __future__ import annotations

import numpy as np

from drybuild.book.numbers import shown_array, shown_unit
from drybuild.book.pages import Block, Chapter, Figure, Section, Sheet, Words
from drybuild.book.sheets import beside, by_label, cautions, figures
from drybuild.present.corner import Banded, banded, yaw_gain_over_speed
from drybuild.present.numbers import with_band
from drybuild.present.plots import Line, Mark, lines_plot
from drybuild.present.ride_trade import Stand, stands, trade_plot
from drybuild.session import Session

FASTEST = 200.0 / 3.6
"""End of the plot over speed. [m/s]"""
NEAR = (
    "cornering_limit",
    "limit_balance",
    "understeer_gradient",
    "understeer_gradient_near_limit",
    "understeer_near_limit",
    "roll_near_limit",
    "rim_force_near_limit",
    "braking_in_bend_balance",
)
ENDS = ("inner_load_near_limit", "outer_lean_near_limit", "braking_in_bend")
WHEELS = ("half_car_wheel_load_share", "half_car_travel_in_use", "bump_stop_chance")
HOW = (
    "A bend of 100 m radius on a dry road, driven faster and faster: both tyres of each axle at "
    "their own load, lean and toe. A rising curve understeers; where it bends up steeply the front "
    "lets go, where it falls the tail comes round."
)
TRADE = (
    "Each line is one stiffness of springs; along it the dampers stiffen. Left is softer on the "
    "seat, lower holds the road better: a choice above and right of another gives both away. The "
    "numbered points are the options of this build in place of those picked."
)


def handling_chapter(session: Session) -> Chapter:
    """Return the bend, the yaw response, the roads and the trade of ride and grip."""
    blocks: list[Block] = [*cautions(session, "handling", "ride")]
    blocks += [Section(title="A bend up to its limit"), Words(text=HOW), *_bend(session)]
    blocks += figures(session, "At nine tenths of the limit, and braked at 0.4 g", NEAR)
    blocks += beside(session, "Each end", ENDS)
    blocks += _yaw(session)
    blocks += [Section(title="The road under it")]
    blocks += by_label(
        session, "On the brief's roads", "road",
        {"felt on the seat": "seat_acceleration", "pitching": "pitch_acceleration"},
        bands=True, widths=(1.0, 1.6, 1.6),
    )  # fmt: skip
    blocks += by_label(
        session, "At cruising speed, by the standard's classes of road", "class",
        {"felt on the seat": "class_acceleration"}, bands=True, widths=(1.0, 2.0),
        note="Class A is a new motorway, D a poor lane. The seat's foam is left out.",
    )  # fmt: skip
    blocks += beside(session, "Both axles on the roughest road of the brief", WHEELS)
    blocks += _trade(session)
    return Chapter(
        title="Corners and ride",
        intro="How it answers near its limit, and what springs and dampers give and take.",
        blocks=tuple(blocks),
    )


def _bend(session: Session) -> list[Block]:
    corner = session.evaluation.result("bend_curve").value
    force = session.evaluation.result("rim_force_curve").value
    if corner is None:
        return []
    across = shown_array(session, corner.acceleration[:, 0], "m/s²", "g_0")
    steer = banded(across, np.degrees(corner.understeer_angle))
    found: list[Block] = [
        Figure(
            svg=_plot(steer, "lateral acceleration [g]", "steer beyond the bend's own [°]"),
            caption="What the front wheels are steered beyond the bend's own angle.",
            words=f"At {steer.x[-1]:.2g} g it is {steer.nominal[-1]:.1f} degrees.",
        )
    ]
    if force is not None:
        felt, unit = banded(across, shown_array(session, force, "N", "N")), shown_unit(session, "N")
        found.append(
            Figure(
                svg=_plot(felt, "lateral acceleration [g]", f"force at the rim [{unit}]"),
                caption="What the hands hold. It flattens or falls as the front tyres' trail "
                "shrinks: the warning through the wheel.",
                words=f"The greatest is {np.nanmax(felt.nominal):.0f} {unit}.",
            )
        )
    return found


def _yaw(session: Session) -> list[Block]:
    wanted = ("wheelbase", "understeer_gradient", "steering_ratio", "characteristic_speed")
    base, gradient, ratio, best = (session.evaluation.result(name).value for name in wanted)
    if base is None or gradient is None or ratio is None:
        return []
    gain = yaw_gain_over_speed(base, gradient, ratio, FASTEST)
    unit = shown_unit(session, "km/h")
    shown = Banded(
        x=shown_array(session, gain.x, "m/s", "km/h"),
        nominal=gain.nominal,
        low=gain.low,
        high=gain.high,
    )
    marks = []
    if best is not None and np.isfinite(best[0]) and best[0] < FASTEST:
        at = float(shown_array(session, best[:1], "m/s", "km/h")[0])
        marks = [Mark(at=at, words="characteristic speed")]
    return [
        Figure(
            svg=_plot(shown, f"speed [{unit}]", "yaw velocity per wheel angle [1/s]", marks),
            caption="How strongly it answers the steering wheel. An understeering car answers most "
            "at its characteristic speed; one that oversteers answers without end.",
            words=f"The strongest answer is {np.nanmax(gain.nominal):.2g} 1/s.",
        )
    ]


def _plot(curve: Banded, x_label: str, y_label: str, marks: list[Mark] | None = None) -> str:
    return lines_plot(
        [
            Line(label="nominal", x=curve.x, y=curve.nominal),
            Line(label="5 % of the samples", x=curve.x, y=curve.low),
            Line(label="95 %", x=curve.x, y=curve.high),
        ],
        x_label=x_label,
        y_label=y_label,
        marks=marks or (),
        height=190.0,
    )


def _trade(session: Session) -> list[Block]:
    trade = session.evaluation.result("ride_trade").value
    if trade is None:
        return []
    found = stands(session.evaluation)
    figure = Figure(
        svg=trade_plot(trade, found, "m/s²"),
        caption="Ride against hold on the road, over the choice of springs and dampers.",
        words="Nominal; each choice with its spread stands in the table below.",
    )
    rows = tuple((one.sign, one.words, *_told(session, one)) for one in found)
    sheet = Sheet(
        title="The choices on it",
        columns=("point", "choice", "felt on the seat", "change of wheel load"),
        rows=rows,
        widths=(0.5, 2.4, 1.7, 1.7),
        note="With the other picks as they are; 5 to 95 % in brackets. The worse axle.",
    )
    return [
        Section(title="Springs and dampers: ride against grip"),
        Words(text=TRADE),
        figure,
        sheet,
    ]


def _told(session: Session, one: Stand) -> tuple[str, str]:
    units, currency = session.build.units, session.build.currency
    return (
        with_band(one.comfort, "m/s²", "m/s²", "metric", currency),
        with_band(one.contact, "-", "%", units, currency),
    )
