"""Engine and gearing in pictures: torque and power, drive force by gear, the run from rest."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np

from drybuild.physics.acceleration import Run
from drybuild.physics.drives import Drive
from drybuild.present.drawing import WIDTH, Drawing
from drybuild.present.numbers import in_units, unit_for
from drybuild.present.plots import Line, Mark, lines_plot
from drybuild.project.samples import Values
from drybuild.quantities.engine import EngineCurve
from drybuild.quantities.performance import RoadLoad

IDLE_SHARE = 0.15
"""Below this share of the limit no full load is drawn: engines do not pull there."""
PACE = ("m/s", "km/h")


@dataclass(frozen=True, kw_only=True)
class Axis:
    """A unit that a person reads."""

    system: str

    def of(self, values: Any, si_unit: str, shown: str) -> Values:  # array-like
        """Return values for an axis."""
        return in_units(np.asarray(values, dtype=float), si_unit, shown, self.system)

    def unit(self, shown: str) -> str:
        """Return the unit at the axis."""
        return unit_for(shown, self.system, "")


def engine_plot(curve: EngineCurve, system: str) -> tuple[str, str]:
    """Return full-load torque and power, one plot each, against engine speed."""
    axis = Axis(system=system)
    limit, torque = _one(curve.limit_speed), curve.torque[:, 0]
    speed = np.linspace(0.0, limit, torque.size)
    pulls = speed >= IDLE_SHARE * limit
    rpm = axis.of(speed[pulls], "rad/s", "rpm")
    shown = axis.of(torque[pulls], "N·m", "N·m")
    power = axis.of((torque * speed)[pulls], "W", "kW")
    return tuple(  # type: ignore[return-value]  # two of them
        lines_plot(
            [Line(label="", x=rpm, y=values, tag=f"{values.max():.0f}", name=words)],
            x_label="engine speed [rpm]",
            y_label=f"{words} [{unit}]",
            height=140.0,
        )
        for words, values, unit in (
            ("torque", shown, axis.unit("N·m")),
            ("power", power, axis.unit("kW")),
        )
    )


def drive_plot(
    drive: Drive,
    ratios: Values,
    efficiency: Values,
    radius: Values,
    load: RoadLoad,
    grip: float,
    system: str,
) -> str:
    """Return the drive force in each gear against the road load."""
    axis = Axis(system=system)
    torque = drive.torque[:, 0]
    share = np.linspace(0.0, 1.0, torque.size)
    limit = _one(drive.limit_speed)
    lines = []
    for gear, ratio in enumerate(np.ravel(ratios[:, 0]), start=1):
        speed = share * limit * _one(radius) / ratio
        force = torque * ratio * _one(efficiency) / _one(radius)
        pulls = share >= IDLE_SHARE
        lines.append(
            Line(
                label="",
                x=axis.of(speed[pulls], *PACE),
                y=axis.of(force[pulls], "N", "N"),
                tag=str(gear),
                name=f"gear {gear}",
            )
        )
    fastest = float(max(line.x.max() for line in lines))
    speeds = np.linspace(0.0, fastest, 60) / float(axis.of(1.0, *PACE))
    fixed = RoadLoad(
        constant=np.array(_one(load.constant)),
        linear=np.array(_one(load.linear)),
        quadratic=np.array(_one(load.quadratic)),
    )
    lines.append(
        Line(
            label="",
            x=axis.of(speeds, *PACE),
            y=axis.of(fixed.at(speeds), "N", "N"),
            tag="road load",
        )
    )
    return lines_plot(
        lines,
        x_label=f"speed [{axis.unit('km/h')}]",
        y_label=f"force at the road [{axis.unit('N')}]",
        levels=[Mark(at=float(axis.of(grip, "N", "N")), words="what the driven tyres hold, dry")],
        height=270.0,
    )


def run_plot(run: Run, system: str, most_seconds: float = 40.0) -> str:
    """Return speed against time from rest, nominal, with the band of 90 of 100 draws."""
    axis = Axis(system=system)
    speed = run.speed[:, 0] if run.speed.ndim > 1 else run.speed
    time = run.time
    nominal = time[:, 0]
    shown = np.isfinite(nominal) & (nominal <= most_seconds)
    speeds = axis.of(speed[shown], *PACE)
    lines = [Line(label="nominal", x=nominal[shown], y=speeds)]
    if time.shape[1] > 2 and run.speed.ndim > 1 and run.speed.shape[1] > 2:
        grid = np.linspace(0.0, float(nominal[shown].max()), 60)
        drawn = np.array(
            [
                np.interp(grid, time[:, k], run.speed[:, k], right=np.nan)
                for k in range(1, min(time.shape[1], 200))
            ]
        )
        low, high = np.nanquantile(drawn, (0.05, 0.95), axis=0)
        lines.append(Line(label="5 of 100 are slower", x=grid, y=axis.of(low, *PACE)))
        lines.append(Line(label="5 of 100 are faster", x=grid, y=axis.of(high, *PACE)))
    return lines_plot(
        lines, x_label="time [s]", y_label=f"speed [{axis.unit('km/h')}]", height=220.0
    )


def shaft_drawing(front: float, rear: float, words: Sequence[str]) -> str:
    """Return gearbox, propshaft and axle nose from the side; angles drawn three times as steep.

    Parameters
    ----------
    front, rear : float
        Joint angles. [rad]
    words : sequence of str
        Front angle, rear angle, shaft. [-]

    """
    drawing = Drawing(104.0)
    tilt = 3.0 * front
    start = (150.0, 36.0)
    length = 190.0
    end = (start[0] + length * np.cos(tilt), start[1] + length * np.sin(tilt))
    drawing.box(30.0, 20.0, 112.0, 32.0, fill="band")
    drawing.words((86.0, 39.0), "gearbox", anchor="middle")
    drawing.line([(142.0, 36.0), start], weight=2.4)
    drawing.line([start, end], weight=5.0, tone="blue")
    lean = 3.0 * (front - rear)
    nose = (end[0] + 14.0 * np.cos(lean), end[1] + 14.0 * np.sin(lean))
    drawing.line([end, nose], weight=2.4)
    drawing.circle((nose[0] + 22.0, nose[1] + 22.0 * np.sin(lean)), 24.0, fill="band")
    drawing.words((nose[0] + 22.0, nose[1] + 3.0), "axle", anchor="middle")
    for place, text, drop in ((start, words[0], 24.0), (end, words[1], -30.0)):
        drawing.circle(place, 3.0, fill="paper", weight=1.2)
        drawing.words((place[0], place[1] + drop), text, size=8.0, anchor="middle", ground=True)
    drawing.words((WIDTH / 2.0 - 20.0, 96.0), words[2], size=8.0, tone="faint", anchor="middle")
    return drawing.svg()


def _one(values: Any) -> float:  # array-like
    return float(np.ravel(np.asarray(values))[0])
