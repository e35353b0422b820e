"""Sizing of the brakes in pictures and words: the map of bore and ratio, the pedal's curve."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
import numpy.typing as npt

from drybuild.present.axes import DASHES, SERIES, SMALL, Frame, frame, numbers
from drybuild.present.numbers import as_text, in_unit, in_units, unit_for, value_and_band
from drybuild.present.plots import Line, Mark, lines_plot
from drybuild.project.samples import Values
from drybuild.quantities.axles import AXLES
from drybuild.quantities.brakes import BrakeLine, Stance, adhesions_at
from drybuild.quantities.brakes_pedal import PedalFeel, most_force
from drybuild.quantities.brakes_sizing import COMFORTABLE, MOST_TRAVEL, PedalSizing
from drybuild.quantities.brakes_unassisted import Unassisted
from drybuild.quantities.graph import summary
from drybuild.tables.brakes import master_cylinder_bores

MILLIMETRE = 1e-3
LOW_RATIO, HIGH_RATIO = 2.5, 8.0
FORCES = (200.0, COMFORTABLE, 400.0, 500.0)
"""Foot forces that the map draws a line for. [N]"""
TRAVELS = (0.4, MOST_TRAVEL, 1.0)
"""Shares of the pedal's stroke that it draws a line for. [-]"""


def sizing_map(sizing: PedalSizing, bore: float, ratio: float, units: str) -> str:
    """Return bore against ratio: lines of foot force and travel, and where both will do."""
    bores = np.linspace(14.0, 30.0, 65) * MILLIMETRE
    found = frame(
        x_ticks=[(one, as_text(one)) for one in range(14, 31, 2)],
        y_ticks=numbers(LOW_RATIO, HIGH_RATIO, 11),
        x_label="bore of the master cylinder [mm]",
        y_label="pedal ratio [-]",
        legend=[("foot force", "blue", ""), ("pedal travel", "orange", "6 2.5")],
        height=300.0,
        top=16.0,
    )
    low = sizing.ratio_by_force(bores, most_force())
    high = sizing.ratio_by_travel(bores, MOST_TRAVEL)
    _area(found, bores, low, high)
    force_unit = unit_for("N", units, "")
    for force in FORCES:
        told = f"{in_unit(force, 'N', 'N', units):.0f} {force_unit}"
        _curve(found, bores, sizing.ratio_by_force(bores, force), "blue", "", told)
    for share in TRAVELS:
        ratios = sizing.ratio_by_travel(bores, share)
        _curve(found, bores, ratios, "orange", "6 2.5", f"{share * 100:.0f} %")
    for made in master_cylinder_bores().values():
        x = found.x.at(made / MILLIMETRE)
        found.drawing.line([(x, found.y.start), (x, found.y.start - 5.0)], tone="ink", weight=0.9)
    at = found.at(bore / MILLIMETRE, float(np.clip(ratio, LOW_RATIO, HIGH_RATIO)))
    found.drawing.circle(at, 3.0, fill="ink", weight=0.4)
    found.drawing.words((at[0] + 5.0, at[1] - 5.0), "as picked", size=SMALL, bold=True, ground=True)
    return found.drawing.svg()


def pedal_curve(
    feel: PedalFeel, sizing: PedalSizing, bore: Values, ratio: Values, units: str
) -> str:
    """Return foot force over pedal travel up to the pressure of a 0.9 g stop, with its band."""
    steps = np.linspace(0.0, 1.0, 25)[:, np.newaxis]
    pressure = steps * sizing.pressure
    force = _force_at(sizing, pressure, bore, ratio)
    travel = feel.travel(pressure, force)
    alone = np.linspace(0.0, 1.0, 25)
    force = _shown(force, "N", "N", units)
    lines = [Line(label="as picked", x=_shown(travel[:, 0], "m", "mm", units), y=force[:, 0])]
    for share, words in ((0.05, "short"), (0.95, "long")):
        at = np.nanquantile(travel, share, axis=1)
        foot = np.nanquantile(force, share, axis=1)
        told = f"{words} and {'light' if share < 0.5 else 'heavy'} end, 1 in 20"
        lines.append(Line(label=told, x=_shown(at, "m", "mm", units), y=foot))
    if float(np.ravel(sizing.assist)[0]) > 0.0:
        foot = alone * float(_shown(_without_help(sizing, bore, ratio), "N", "N", units)[0])
        lines.append(Line(label="servo failed", x=_shown(travel[:, 0], "m", "mm", units), y=foot))
    stroke = float(_shown(sizing.stroke[:1], "m", "mm", units)[0])
    return lines_plot(
        lines,
        x_label=f"pedal travel [{unit_for('mm', units, '')}]",
        y_label=f"foot force [{unit_for('N', units, '')}]",
        marks=[Mark(at=stroke, words="floor")],
        height=230.0,
    )


def adhesion_band_plot(line: BrakeLine, stance: Stance, bounds: Sequence[Line]) -> str:
    """Return each axle's adhesion over the rate with its 5 to 95 % band, and the rule's bounds."""
    rates = np.linspace(0.05, 0.9, 18)
    both = adhesions_at(line, stance, rates[:, np.newaxis])
    lines = [
        *(
            Line(label=f"{axle} axle", x=rates, y=one[:, 0])
            for axle, one in zip(AXLES, both, strict=True)
        ),
        *bounds,
    ]
    looks = list(zip(SERIES, DASHES, strict=False))[: len(lines)]
    most = max(float(np.nanmax(np.quantile(one, 0.95, axis=1))) for one in both)
    found = frame(
        x_ticks=numbers(0.0, 0.9, 9),
        y_ticks=numbers(0.0, min(max(most, 0.9), 1.6), 8),
        x_label="braking rate [g]",
        y_label="adhesion needed [-]",
        legend=[(one.label, *look) for one, look in zip(lines, looks, strict=True)],
        height=262.0,
    )
    for one, fill in zip(both, ("pale-blue", "pale-orange"), strict=True):
        low, high = np.minimum(np.quantile(one, (0.05, 0.95), axis=1), found.y.high)
        up = [found.at(*pair) for pair in zip(rates, high, strict=True)]
        down = [found.at(*pair) for pair in zip(rates[::-1], low[::-1], strict=True)]
        found.drawing.line([*up, *down], tone="", fill=fill, closed=True)
    for drawn, (tone, dash) in zip(lines, looks, strict=True):
        pairs = zip(drawn.x, drawn.y, strict=True)
        places = [found.at(x, y) for x, y in pairs if y <= found.y.high]
        found.drawing.line(places, tone=tone, dash=dash, weight=1.6)
    return found.drawing.svg()


def warming_plot(
    curves: dict[str, Values], x: Values, limits: dict[str, float], *, x_label: str, units: str
) -> str:
    """Return rotor temperatures over time or stops, nominal and hot end, with the limits."""
    lines = []
    for words, rows in curves.items():
        lines.append(Line(label=words, x=x, y=_shown(rows[:, 0], "K", "degC", units)))
        hot = np.quantile(rows, 0.95, axis=1)
        lines.append(
            Line(label=f"{words}, hot end (1 in 20)", x=x, y=_shown(hot, "K", "degC", units))
        )
    return lines_plot(
        lines,
        x_label=x_label,
        y_label=f"rotor temperature [{unit_for('degC', units, '')}]",
        levels=[
            Mark(at=float(_shown(np.array(limit), "K", "degC", units)), words=words)
            for words, limit in limits.items()
        ],
        height=220.0,
    )


def unassisted_words(found: Unassisted, lining: dict[str, Values], units: str) -> str:
    """Return in one paragraph whether brakes without a servo will do, with figures and odds."""

    def told(values: Values, unit: str, shown: str) -> str:
        value, band = value_and_band(summary(values), unit, shown, units, "")
        return f"{value} ({band})" if band else value

    hot = float(np.mean((found.hot_share >= 0.60)[1:])) if found.hot_share.size > 1 else 1.0
    foot = odds_words((found.force <= most_force()) & (found.travel_share <= MOST_TRAVEL))
    down, low = (
        odds_words(_all([at[axle] <= lining[axle] for axle in at]))
        for at in (found.descent, found.descent_in_gear)
    )
    boils = odds_words(_all([one >= 0.0 for one in found.fluid_margin.values()]))
    disc = f"with the largest front disc inside the wheel, {told(found.disc, 'm', 'mm')}"
    if not found.changed:
        disc = "with the front brakes as they are"
    verdict = _verdict(found, lining, hot)
    return (
        f"{verdict} Without a servo and {disc}, a {found.bore} master cylinder at a pedal ratio of "
        f"{found.ratio:.1f} takes {told(found.force, 'N', 'N')} on the pedal and "
        f"{told(found.travel_share, '-', '%')} of its travel for 0.9 g, laden: within 500 N and "
        f"60 % {foot}. Cold, it stops from 100 km/h in {told(found.distance, 'm', 'm')}: within "
        f"the 70 m of today's rule {odds_words(found.distance <= 70.0)}. Hot, after the fade test, "
        f"{told(found.hot_share, '-', '%')} of that braking is left: the rule's 60 % "
        f"{odds_words(found.hot_share >= 0.60)}, and 90 m "
        f"{odds_words(found.hot_distance <= 90.0)}. Down the mountain the front rotors reach "
        f"{told(found.descent['front'], 'K', 'degC')} out of gear and "
        f"{told(found.descent_in_gear['front'], 'K', 'degC')} in a low gear: the linings bear it "
        f"{down}, in a low gear {low}; old fluid stays below boiling {boils} out of gear."
    )


def odds_words(good: npt.NDArray[np.bool_]) -> str:
    """Return how sure something is: ``in 87 of 100``."""
    share = np.mean(good[1:]) if good.size > 1 else np.mean(good)
    return f"in {100 * float(share):.0f} of 100"


def _verdict(found: Unassisted, lining: dict[str, Values], hot: float) -> str:
    good = (found.force <= most_force()) & (found.travel_share <= MOST_TRAVEL)
    foot, cold = float(np.mean(good)), float(np.mean(found.distance <= 70.0))
    held = _all([at <= lining[axle] for axle, at in found.descent_in_gear.items()])
    geared = float(np.mean(held))
    odds = {"the foot": foot, "a cold stop": cold, "a hot stop": hot, "the descent": geared}
    weak = [words for words, share in odds.items() if share < 0.5]
    doubt = [words for words, share in odds.items() if 0.5 <= share < 0.9]
    if weak:
        return f"They will not do: {' and '.join(weak)} more likely fails than holds."
    if doubt:
        return f"They may do; in doubt: {' and '.join(doubt)}."
    return "They will do, driven in a low gear downhill."


def _all(conditions: Sequence[npt.NDArray[np.bool_]]) -> npt.NDArray[np.bool_]:
    return np.asarray(np.logical_and.reduce(np.broadcast_arrays(*conditions)))


def _force_at(sizing: PedalSizing, pressure: Values, bore: Values, ratio: Values) -> Values:
    return PedalSizing(**{**vars(sizing), "pressure": pressure}).force(bore, ratio)


def _without_help(sizing: PedalSizing, bore: Values, ratio: Values) -> Values:
    return PedalSizing(**{**vars(sizing), "assist": np.zeros(1)}).force(bore, ratio)


def _shown(values: Values, si_unit: str, shown: str, units: str) -> Values:
    return in_units(np.asarray(values, dtype=float), si_unit, shown, units)


def _area(found: Frame, bores: Values, low: Values, high: Values) -> None:
    """Shade what lies between the force line and the travel line."""
    under = np.clip(low, LOW_RATIO, HIGH_RATIO)
    over = np.clip(high, LOW_RATIO, HIGH_RATIO)
    inside = over > under
    if not inside.any():
        return
    x = bores[inside] / MILLIMETRE
    edge = [found.at(*one) for one in zip(x, under[inside], strict=True)]
    back = [found.at(*one) for one in zip(x[::-1], over[inside][::-1], strict=True)]
    found.drawing.line([*edge, *back], tone="", fill="pale-green", closed=True)


def _curve(found: Frame, bores: Values, ratios: Values, tone: str, dash: str, words: str) -> None:
    inside = (ratios >= LOW_RATIO) & (ratios <= HIGH_RATIO)
    shown = np.where(inside, ratios, np.nan)
    places = [found.at(*one) for one in zip(bores / MILLIMETRE, shown, strict=True)]
    found.drawing.line(places, tone=tone, dash=dash, weight=1.5)
    if not inside.any():
        return
    last = int(np.flatnonzero(inside)[-1])
    at = places[last]
    end = at[0] > found.x.end - 30.0
    found.drawing.words(
        (at[0] - 2.0 if end else at[0] + 1.0, at[1] - 3.0),
        words,
        size=SMALL,
        tone=tone,
        anchor="end" if end else "middle",
        ground=end,
    )
