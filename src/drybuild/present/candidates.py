"""Candidates for a suspension side by side: figures with their spread, curves, and conflicts."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import partial
from typing import TYPE_CHECKING, Any

import numpy as np

from drybuild.checks.check import Check
from drybuild.checks.verdicts import State, Verdict, judge
from drybuild.present.nominal import number
from drybuild.present.numbers import value_and_band
from drybuild.project.option import Option
from drybuild.project.samples import Values
from drybuild.quantities.graph import Evaluation, Result, summary
from drybuild.quantities.suspension_linkage import known

if TYPE_CHECKING:
    from drybuild.physics.linkage.layouts import Swept

WHEELS = "wheels"
SYSTEMS = {"front_suspension": "front", "rear_suspension": "rear", "dampers": ""}
"""What can be compared, with the axle that it stands on."""
AXLE_FIGURES = (
    "wheel_rate",
    "motion_ratio",
    "ride_frequency",
    "damping_ratio",
    "anti_roll_bar_stiffness",
    "roll_centre_height",
    "roll_centre_at_bump",
    "camber_gain",
    "camber_at_bump",
    "bump_steer",
    "toe_change",
    "wheel_lean",
    "roll_steer",
    "contact_scrub",
    "ride_height",
    "bump_travel_left",
    "unsprung_mass",
)
CAR_FIGURES = (
    "roll_gradient",
    "front_load_transfer_share",
    "understeer_gradient",
    "cornering_limit",
    "ride_comfort",
    "kerb_mass",
)
FRONT_FIGURES = ("anti_dive", "scrub_radius", "mechanical_trail", "parking_effort")
REAR_FIGURES = ("anti_lift", "anti_squat", "axle_windup")
DAMPER_FIGURES = ("damping_ratio", "wheel_damping", "seat_acceleration", "ride_comfort")


@dataclass(frozen=True, kw_only=True)
class Line:
    """One candidate's curve over the wheel's travel; SI."""

    travel: Values
    """(positions,). [m]"""
    nominal: Values
    low: Values
    """5 % of the samples at each position; as `nominal` where only a line is known."""
    high: Values
    from_points: bool
    """Whether it follows from hardpoints; else it is a straight line through the sheet's figure."""


@dataclass(frozen=True, kw_only=True)
class Candidate:
    """One option in the build as picked otherwise."""

    name: str
    layout: str
    picked: bool
    as_is: bool
    price: float | None
    results: Mapping[str, Result]
    curves: Mapping[str, Line]
    fails: tuple[Verdict, ...]
    """Checks that fail with it, advice apart."""
    conflict: str
    """Why no wheels of the build go with it; empty where some do."""

    def values(self, name: str, axle: str) -> dict[str, Values]:
        """Return a figure's values by label: the axle's own, else all that are not an axle's."""
        found = self.results[name].labelled()
        if axle in found:
            return {"": found[axle]}
        other = [label for label in SYSTEMS.values() if label and label != axle]
        return {
            label: values
            for label, values in found.items()
            if not any(label == one or label.startswith(f"{one} ") for one in other)
        }


@dataclass(frozen=True, kw_only=True)
class Comparison:
    """Every candidate of a system."""

    system: str
    axle: str
    names: tuple[str, ...]
    candidates: tuple[Candidate, ...]


def compared(
    evaluation: Evaluation, checks: Iterable[Check], system: str, *, judged: bool = True
) -> Comparison:
    """Return every option of a system in the build as it is picked otherwise.

    Parameters
    ----------
    evaluation : Evaluation
        The build.
    checks : iterable of Check
        Its questions.
    system : str
        One of `SYSTEMS`.
    judged : bool
        Whether to judge the checks that depend on the system.

    """
    axle = SYSTEMS[system]
    ends = {"front": FRONT_FIGURES, "rear": REAR_FIGURES}
    names = (*AXLE_FIGURES, *ends[axle], *CAR_FIGURES) if axle else DAMPER_FIGURES
    names = tuple(one for one in names if one in evaluation.graph.quantities)
    every = tuple(checks)
    found = [
        _candidate(evaluation, every, system, name, names, judged=judged)
        for name in evaluation.build.options.get(system, {})
    ]
    return Comparison(system=system, axle=axle, names=names, candidates=tuple(found))


def _candidate(
    evaluation: Evaluation,
    checks: tuple[Check, ...],
    system: str,
    name: str,
    names: tuple[str, ...],
    *,
    judged: bool,
) -> Candidate:
    build, axle = evaluation.build, SYSTEMS[system]
    assumed = build.assumed_picks()
    picks = {**assumed, system: name}
    option = build.options[system][name]
    layout = option.given.get("layout")
    results = {one: evaluation.result(one, picks) for one in names}
    fails = _failing(evaluation, checks, system, picks) if judged else ()
    return Candidate(
        name=name,
        layout=layout if isinstance(layout, str) else "",
        picked=assumed.get(system) == name,
        as_is=build.as_is(system) == name,
        price=number(option, "price", build),
        results=results,
        curves=_curves(evaluation, axle, picks, option) if axle else {},
        fails=fails,
        conflict=wheel_conflict(evaluation, checks, system, picks),
    )


def _failing(
    evaluation: Evaluation, checks: tuple[Check, ...], system: str, picks: Mapping[str, str]
) -> tuple[Verdict, ...]:
    """Return the checks over this system, but not over the whole build, that fail with it."""
    found = []
    for check in checks:
        if check.advice or not _touches(evaluation, check, system):
            continue
        verdict = judge(check, evaluation, picks=picks, doubts=False)
        if verdict.state is State.FAILS:
            found.append(verdict)
    return tuple(found)


def _touches(evaluation: Evaluation, check: Check, system: str) -> bool:
    """Whether a check depends on a system, by its quantity or a limit, and not on every one."""
    graph, found = evaluation.graph, False
    for name in (check.quantity, check.at_least, check.at_most):
        if name not in graph.quantities:
            continue
        scope = graph.scope(name, cut=True)
        if scope is None:
            return False
        found = found or system in scope
    return found


def wheel_conflict(
    evaluation: Evaluation, checks: tuple[Check, ...], system: str, picks: Mapping[str, str]
) -> str:
    """Say why no wheels of the build suit an option: what it needs against what the brief keeps."""
    about = [one for one in checks if one.quantity == "wheel_diameter"]
    need = [one for one in about if one.id == f"wheels.least-diameter-{system.replace('_', '-')}"]
    musts = [one for one in about if one.id.startswith("must.")]
    wheels = evaluation.build.options.get(WHEELS, {})
    if not need or not wheels:
        return ""
    too_small, kept_out = [], []
    for wheel in wheels:
        with_them = {**picks, WHEELS: wheel}
        fails = partial(_fails, evaluation, with_them)
        if fails(need[0]):
            too_small.append(wheel)
        elif any(fails(one) for one in musts):
            kept_out.append(wheel)
        else:
            return ""
    if not kept_out and not too_small:
        return ""
    least = evaluation.result(f"least_wheel_diameter_{system}", picks).value
    inches = float(np.ravel(least)[0]) / 0.0254
    lines = " and ".join(one.asks.rstrip("?") for one in musts) or "no line of the brief"
    told = [f"it needs wheels of {inches:g} in or larger"]
    if kept_out:
        told.append(f"the brief ({lines}) keeps out {_quoted(kept_out)}")
    if too_small:
        told.append(f"too small for it: {_quoted(too_small)}")
    return (
        f"No wheels of this build go with it: {'; '.join(told)}. "
        "Let the brief's line go, or find a kit that goes inside the wheel."
    )


def _quoted(names: Iterable[str]) -> str:
    return ", ".join(f'"{name}"' for name in names)


def _fails(evaluation: Evaluation, picks: Mapping[str, str], check: Check) -> bool:
    return judge(check, evaluation, picks=picks, doubts=False).state is State.FAILS


def _curves(
    evaluation: Evaluation, axle: str, picks: Mapping[str, str], option: Option
) -> dict[str, Line]:
    swept = (evaluation.result(f"{axle}_rolling", picks).value or {}).get(axle)
    if swept is not None:
        return _solved(swept)
    return _straight(evaluation, axle, picks, option)


def _solved(swept: Swept) -> dict[str, Line]:
    travel = swept.motion.travel
    wheel = swept.left
    values = {
        "camber": wheel.camber,
        "toe_in": wheel.toe_in,
        "roll_centre_height": wheel.roll_centre_height,
    }
    spring = swept.strut("spring")
    if spring is not None:
        values["motion_ratio"] = np.abs(spring.motion_ratio)
    return {name: _line(travel, known(one[:, 0, 0])) for name, one in values.items()}


def _line(travel: Values, values: Values) -> Line:
    there = np.isfinite(values).any(axis=1)
    low, high = np.full(len(values), np.nan), np.full(len(values), np.nan)
    low[there], high[there] = np.nanquantile(values[there], (0.05, 0.95), axis=1)
    return Line(travel=travel, nominal=values[:, 0], low=low, high=high, from_points=True)


def _straight(
    evaluation: Evaluation, axle: str, picks: Mapping[str, str], option: Option
) -> dict[str, Line]:
    """Return straight lines through what a supplier's sheet, or the usual range, says."""
    build = evaluation.build
    ends = [number(option, f"{one}_travel", build) for one in ("droop", "bump")]
    travel = np.linspace(-(ends[0] or 0.0), ends[1] or 0.0, 9)
    flat = np.zeros_like(travel)
    found = {}
    for name in ("roll_centre_height", "motion_ratio"):
        value = evaluation.result(name, picks).labelled().get(axle)
        if value is not None:
            middle, low, high = summary(value)
            found[name] = Line(
                travel=travel, nominal=flat + middle, low=flat + low, high=flat + high,
                from_points=False,
            )  # fmt: skip
    camber = evaluation.result("static_camber", picks).labelled().get(axle)
    gain = number(option, "camber_gain", build) if option.has("camber_gain") else None
    if camber is not None and gain is not None:
        lines = [np.asarray(one - gain * travel) for one in summary(camber)]
        found["camber"] = Line(
            travel=travel, nominal=lines[0], low=lines[1], high=lines[2], from_points=False
        )
    return found


def figure_text(candidate: Candidate, name: str, axle: str, evaluation: Evaluation) -> str:
    """Return a figure with its band in the person's unit, a line a label; a dash if unknown."""
    result, build = candidate.results[name], evaluation.build
    one = result.quantity
    told = []
    for label, values in candidate.values(name, axle).items():
        value, band = value_and_band(
            summary(values), one.unit, one.shown, build.units, build.currency
        )
        words = f"{label}: " if label else ""
        told.append(f"{words}{value} ({band})" if band else f"{words}{value}")
    return "\n".join(told) or "–"


def comparison_json(found: Comparison, evaluation: Evaluation) -> dict[str, Any]:  # plain JSON
    """Return a comparison, all numbers in SI: nominal, 5 %, 95 %."""
    return {
        "build": evaluation.build.name,
        "system": found.system,
        "candidates": [
            {
                "name": one.name,
                "layout": one.layout,
                "picked": one.picked,
                "as_is": one.as_is,
                "price": one.price,
                "figures": {name: _figure_json(one, name, found.axle) for name in found.names},
                "curves": {name: _curve_json(line) for name, line in one.curves.items()},
                "fails": [verdict.check.id for verdict in one.fails],
                "conflict": one.conflict or None,
            }
            for one in found.candidates
        ],
    }


def _figure_json(one: Candidate, name: str, axle: str) -> dict[str, Any]:  # plain JSON
    values = {
        label or "value": dict(zip(("value", "low", "high"), map(_number, summary(v)), strict=True))
        for label, v in one.values(name, axle).items()
    }
    missing = [lack.path for lack in one.results[name].missing]
    return {"unit": one.results[name].quantity.unit, "values": values, "missing": missing}


def _curve_json(line: Line) -> dict[str, Any]:  # plain JSON
    return {
        "from_points": line.from_points,
        "travel": [_number(value) for value in line.travel],
        **{
            name: [_number(value) for value in getattr(line, name)]
            for name in ("nominal", "low", "high")
        },
    }


def _number(value: float) -> float | None:
    return float(value) if np.isfinite(value) else None
