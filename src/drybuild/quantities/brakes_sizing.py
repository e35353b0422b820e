"""Sizing: which bore and pedal ratio, which pistons, which valve. Summed only when asked for."""

from __future__ import annotations

from dataclasses import dataclass, fields, replace

import numpy as np
import numpy.typing as npt

from drybuild.physics.brakes import actuation, pedal, valve
from drybuild.project.brakes import AxleBrakes, BrakeHydraulics, FrontBrakes, RearBrakes
from drybuild.project.samples import Values
from drybuild.quantities.axles import AXLES, each_axle, of_axle
from drybuild.quantities.brakes import (
    HARD_STOP,
    BrakeLine,
    Stance,
    adhesions_at,
    pressure_at,
    share_at,
)
from drybuild.quantities.brakes_pedal import PedalFeel, gain_of, most_force
from drybuild.quantities.quantity import step
from drybuild.tables.brakes import master_cylinder_bores, piston_diameters

COMFORTABLE = 311.0  # [N], 70 lbf, as in the check on comfort
MOST_TRAVEL = 0.60  # [-], of the pedal's stroke, common practice, no source
RATIOS = np.round(np.arange(3.0, 8.01, 0.1), 1)
"""Pedal ratios that people make. [-]"""
TOO_SMALL = 10.0  # [-], what a cylinder that does not hold the fluid counts as beyond a limit
NEW_PEDAL = 0.05  # [-], what a ratio one away from the fitted one counts as beyond a limit
RATES = np.round(np.arange(valve.LEAST_RATE, valve.LARGEST_RATE + 0.001, 0.05), 2)
KNEES = np.arange(5.0, 81.0, 2.5) * 1e5  # [Pa]
SLOPES = np.array([0.2, 0.25, 0.3, 0.35, 0.4, 0.45, 0.5, 0.6, 0.7])


@dataclass(frozen=True, kw_only=True)
class PedalSizing:
    """Pedal force and travel of a 0.9 g stop over any bore and ratio."""

    pressure: Values
    """Line pressure of that stop. [Pa]"""
    volume: Values
    """Fluid that it takes. [m³]"""
    free_play: Values
    pad_give: Values
    """Travel of the pad for each newton that pedal and bulkhead give. [m/N]"""
    stroke: Values
    """Travel that there is. [m]"""
    cylinder_stroke: Values
    """Travel of the master cylinder, both chambers. [m]"""
    fitted_ratio: Values
    """Pedal ratio that there is. [-]"""
    efficiency: Values
    gain: Values
    assist: Values

    def force(self, bore: float | Values, ratio: float | Values) -> Values:
        """Return the foot force; bore in m. [N]."""
        return actuation.pedal_force_for_pressure(
            pressure=self.pressure,
            pedal_ratio=ratio,
            efficiency=self.efficiency,
            bore=bore,
            gain=self.gain,
            assist=self.assist,
        )

    def travel_share(self, bore: float | Values, ratio: float | Values) -> Values:
        """Return the share of the stroke that is used; bore in m. [-]."""
        moved = actuation.pedal_travel(volume=self.volume, bore=bore, pedal_ratio=ratio)
        give = self.force(bore, ratio) * self.pad_give
        return (self.free_play + moved + give) / self.stroke

    def ratio_by_force(self, bore: Values, force: float) -> Values:
        """Return the nominal ratio at which a bore takes a foot force. [-]."""
        output = self.pressure[0] * actuation.bore_area(diameter=bore) / _one(self.efficiency)
        rod = actuation.booster_input(
            output_force=output, gain=_one(self.gain), assist=_one(self.assist)
        )
        return pedal.ratio_for_force(rod_force=rod, pedal_force=force)

    def ratio_by_travel(self, bore: Values, share: float) -> Values:
        """Return the nominal ratio at which a bore uses a share of the stroke. [-]."""
        return pedal.ratio_for_travel(
            travel=share * _one(self.stroke),
            free_play=_one(self.free_play),
            volume=float(self.volume[0]),
            bore=bore,
        )

    def odds(self, bore: float | Values, ratio: float | Values) -> float:
        """Return how sure it is that force and travel both stay within their limits."""
        within = self.force(bore, ratio) <= most_force()
        return _odds(within & (self.travel_share(bore, ratio) <= MOST_TRAVEL))

    def best(self) -> tuple[str, float]:
        """Return the bore that is made, by name, and the ratio that come nearest to both limits.

        Force and travel go by bore area over ratio, so many pairs do nearly the same: the one
        nearest to the pedal that there is is taken, and the cylinder must hold the fluid.
        """
        found, nominal = ("", 0.0, np.inf), self._nominal()
        for name, bore in master_cylinder_bores().items():
            worst = np.maximum(
                nominal.force(bore, RATIOS) / most_force(),
                nominal.travel_share(bore, RATIOS) / MOST_TRAVEL,
            )
            worst = worst + NEW_PEDAL * np.abs(RATIOS - nominal.fitted_ratio)
            stroke = nominal.volume / actuation.bore_area(diameter=bore)
            worst = worst + np.where(stroke > nominal.cylinder_stroke, TOO_SMALL, 0.0)
            place = int(np.argmin(worst))
            if worst[place] < found[2]:
                found = (name, float(RATIOS[place]), float(worst[place]))
        return found[0], found[1]

    def _nominal(self) -> PedalSizing:
        """Return the nominal alone."""
        return PedalSizing(**{one.name: getattr(self, one.name)[:1] for one in fields(self)})


@dataclass(frozen=True, kw_only=True)
class PistonRow:
    """What another piston at one axle would make of the brakes."""

    axle: str
    name: str
    diameter: float
    fitted: bool
    pressure: Values
    force: Values
    travel_share: Values
    front_share: Values
    lead: Values
    """Least lead of the front axle's adhesion at kerb weight, over the rates of the rule. [-]"""


@dataclass(frozen=True, kw_only=True)
class ValveSetting:
    """The best setting of a kind of valve."""

    kind: str
    knee: float
    """At kerb weight; infinite without a valve. [Pa]"""
    slope: float
    efficiency: dict[str, float]
    """Mean share of the adhesion used, by load. [-]"""
    lead: dict[str, float]
    """Least lead of the front axle's adhesion, by load. [-]"""
    odds: float
    """How sure it is that the front leads at every rate and load."""


@step("Pedal force and travel over bore and ratio", source="limpert")
def pedal_sizing(
    pedal_feel: PedalFeel,
    line_pressure_at_0_9g: Values,
    booster_assist: Values,
    brake_hydraulics: BrakeHydraulics,
) -> PedalSizing:
    """Draw the map in closed form: the stop's pressure and fluid ask for no bore and ratio."""
    return pedal_sizing_of(
        pedal_feel, line_pressure_at_0_9g, booster_assist, gain_of(brake_hydraulics),
        brake_hydraulics,
    )  # fmt: skip


def pedal_sizing_of(
    feel: PedalFeel, pressure: Values, assist: Values, gain: Values, one: BrakeHydraulics
) -> PedalSizing:
    """Return the sizing for a pressure and a servo."""
    return PedalSizing(
        pressure=pressure,
        volume=feel.volume(pressure),
        free_play=feel.free_play,
        pad_give=feel.pad_give,
        stroke=one.pedal_stroke,
        cylinder_stroke=2.0 * one.chamber_stroke,
        fitted_ratio=feel.ratio,
        efficiency=one.efficiency,
        gain=gain,
        assist=assist,
    )


@step("Other pistons", source="limpert")
def piston_choices(
    front_brakes: FrontBrakes,
    rear_brakes: RearBrakes,
    laden_brake_line: BrakeLine,
    brake_line: BrakeLine,
    kerb_stance: Stance,
    laden_stance: Stance,
    pedal_feel: PedalFeel,
    booster_assist: Values,
    brake_hydraulics: BrakeHydraulics,
) -> tuple[PistonRow, ...]:
    """One axle's pistons at a time, all else as it is."""
    rows = []
    for axle in AXLES:
        one = of_axle(axle, front_brakes, rear_brakes)
        fitted = float(one.piston_diameter[0])
        for name, diameter in _pistons(one).items():
            scale = np.square(diameter / one.piston_diameter)
            laden, kerb = (_scaled(line, axle, scale) for line in (laden_brake_line, brake_line))
            feel = replace(pedal_feel, area=_one_changed(pedal_feel.area, axle, scale))
            pressure = pressure_at(laden, laden_stance, HARD_STOP)
            sized = pedal_sizing_of(
                feel, pressure, booster_assist, gain_of(brake_hydraulics), brake_hydraulics
            )
            bore, ratio = feel.bore, feel.ratio
            front, rear = adhesions_at(kerb, kerb_stance, RATES[:, np.newaxis])
            rows.append(
                PistonRow(
                    axle=axle,
                    name=name,
                    diameter=diameter,
                    fitted=abs(diameter - fitted) < 2e-4,
                    pressure=pressure,
                    force=sized.force(bore, ratio),
                    travel_share=sized.travel_share(bore, ratio),
                    front_share=share_at(kerb, kerb_stance, HARD_STOP),
                    lead=np.min(front - rear, axis=0),
                )
            )
    return tuple(rows)


@step("Best valve settings", source="un-r13h")
def valve_settings(
    brake_line: BrakeLine, kerb_stance: Stance, laden_stance: Stance
) -> tuple[ValveSetting, ...]:
    """No valve, a fixed knee, a knee by load: the most use of grip with the front always first."""
    free = replace(brake_line, knee=np.array([np.inf]), slope=np.array([1.0]))
    rear = [stance.weight * (1.0 - stance.front_share) for stance in (kerb_stance, laden_stance)]
    by_load = valve.knee_by_load(knee=1.0, light_load=rear[0], load=rear[1])
    stances = {"kerb weight": kerb_stance, "laden": laden_stance}
    found = [_judged("no valve", free, np.inf, 1.0, np.ones(1), stances)]
    for kind, growth in (("fixed", np.ones(1)), ("load-sensing", by_load)):
        knee, slope = _best_setting(free, growth[:1], stances)
        found.append(_judged(kind, free, knee, slope, growth, stances))
    return tuple(found)


def _best_setting(
    line: BrakeLine, growth: Values, stances: dict[str, Stance]
) -> tuple[float, float]:
    """Return the nominal knee and slope of most efficiency whose front axle leads."""
    knee = np.repeat(KNEES, SLOPES.size)[:, np.newaxis]
    slope = np.tile(SLOPES, KNEES.size)[:, np.newaxis]
    nominal = _nominal_line(line)
    lead, efficiency = [], []
    for words, stance in stances.items():
        car = _nominal_stance(stance)
        here = replace(nominal, knee=knee * (growth if words == "laden" else 1.0), slope=slope)
        least, mean = _quality(here, car, RATES)
        lead.append(least)
        efficiency.append(mean)
    worst, use = np.min(lead, axis=0), np.mean(efficiency, axis=0)
    # Where no setting keeps the front first, the one that comes nearest to it is the best.
    score = np.where(worst >= 0.0, 1.0 + use, worst)
    place = int(np.nanargmax(score))
    return float(knee[place, 0]), float(slope[place, 0])


def _judged(
    kind: str,
    line: BrakeLine,
    knee: float,
    slope: float,
    growth: Values,
    stances: dict[str, Stance],
) -> ValveSetting:
    lead, efficiency, good = {}, {}, np.array(True)
    for words, stance in stances.items():
        here = replace(
            line, knee=knee * (growth if words == "laden" else np.ones(1)), slope=np.array([slope])
        )
        front, rear = adhesions_at(here, stance, RATES[:, np.newaxis])
        least = np.min(front - rear, axis=0)
        lead[words] = float(least[0])
        efficiency[words] = float(np.mean(RATES / np.maximum(front, rear)[:, 0]))
        good = good & (least >= 0.0)
    return ValveSetting(
        kind=kind, knee=knee, slope=slope, efficiency=efficiency, lead=lead, odds=_odds(good)
    )


def _quality(line: BrakeLine, car: Stance, rates: Values) -> tuple[Values, Values]:
    pressure = pressure_at(line, car, rates)
    return valve.setting_quality(
        front_force=line.front(pressure) / car.weight,
        rear_force=line.rear(pressure) / car.weight,
        braking_rate=rates,
        front_share=car.front_share,
        height_ratio=car.height_ratio,
    )


def _nominal_line(line: BrakeLine) -> BrakeLine:
    return replace(
        line,
        gain={axle: one[:1] for axle, one in line.gain.items()},
        threshold={axle: one[:1] for axle, one in line.threshold.items()},
    )


def _nominal_stance(car: Stance) -> Stance:
    return Stance(
        weight=car.weight[:1], front_share=car.front_share[:1], height_ratio=car.height_ratio[:1]
    )


def _pistons(one: AxleBrakes) -> dict[str, float]:
    return piston_diameters("caliper" if one.kind == "disc" else "wheel cylinder")


def _scaled(line: BrakeLine, axle: str, scale: Values) -> BrakeLine:
    return replace(line, gain=_one_changed(line.gain, axle, scale))


def _one_changed(values: dict[str, Values], axle: str, scale: Values) -> dict[str, Values]:
    return each_axle(lambda one: values[one] * scale if one == axle else values[one])


def _odds(good: npt.NDArray[np.bool_]) -> float:
    return float(np.mean(np.atleast_1d(good)[1:] if np.size(good) > 1 else good))


def _one(values: Values) -> float:
    return float(np.ravel(values)[0])
