"""The engine in its bay, for the page "fit": solids to draw, the place as handles, a place tried.

This is the one door between the page and the sums. `scene` gives what is drawn, in body axes [m];
`handles` what can be moved; `tried` judges another place as if the build file said so, by the
standing checks on packaging, and saves nothing. How clearances are found is not known here.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import Any

from drybuild.checks.verdicts import Judged, Verdict, judge
from drybuild.physics.solids.nearest import Clearance
from drybuild.present.nominal import number
from drybuild.present.numbers import as_text, in_unit, unit_for, with_band
from drybuild.present.packaging_meshes import drawn_solids
from drybuild.present.packaging_pairs import FAR, SURELY
from drybuild.project.address import Address
from drybuild.project.build import Build
from drybuild.project.packaging import EngineBox
from drybuild.project.readings import Reading
from drybuild.project.trial import moved_text, said_otherwise
from drybuild.quantities.graph import Evaluation
from drybuild.session import Session
from drybuild.units import from_si, to_si
from drybuild.workbench.desk import Desk
from drybuild.workbench.entries import typed_at

MATTER = "packaging"
ENGINE_GAPS = dict.fromkeys(("bay_clearance", "bonnet_clearance"), "bay_gaps")
RADIATOR_GAPS = {"radiator_clearance": "radiator_gaps"}
GEARBOX_GAPS = {"gearbox_clearance": "gearbox_gaps"}
"""Which step knows the closest points behind a quantity."""
REACH = 0.2
"""How far the sliders go to each side of the place in the file. [m]"""
STILL = 1e-6
"""A handle that moves less stays where it is. [m, rad]"""
PLACE: Address = ("car", "bay", "engines")
TILT = 8.0
"""The steepest tilt of the slider. [deg]"""


@dataclass(frozen=True, kw_only=True)
class Handle:
    """One way to move the engine: an entry of the build file."""

    name: str
    words: str
    entry: str
    si: str
    shown: str


HANDLES = (
    Handle(name="x", words="forward", entry="nose", si="m", shown="mm"),
    Handle(name="y", words="to the left", entry="crank_offset", si="m", shown="mm"),
    Handle(name="z", words="up", entry="crank_height", si="m", shown="mm"),
    Handle(name="pitch", words="nose up", entry="nose_up", si="rad", shown="deg"),
)


def engine_of(build: Build) -> str | None:
    """Return the name of the engine that stands in the bay; None where there is nothing to place.

    An engine that stays and was never measured has no outline to move.
    """
    name = build.assumed_picks().get("engine")
    if name is None:
        return None
    stays = bool(build.options["engine"][name].given.get("as_is"))
    return None if stays and _given(build, name) is None else name


def pose(build: Build) -> dict[str, float]:
    """Return where the engine is put, as the file or a typical range says, by handle."""
    name = engine_of(build)
    if name is None:
        return {}
    found = {}
    for one in HANDLES:
        value = number(_box(build, name), one.entry, build)
        found[one.name] = 0.0 if value is None else value
    return found


def handles(build: Build) -> list[dict[str, Any]]:  # a template takes anything
    """Return the handles as the page shows them, in the person's units."""
    name = engine_of(build)
    if name is None:
        return []
    place, shown = pose(build), []
    for one in HANDLES:
        unit = _unit(one, build)
        reach = TILT if one.si == "rad" else from_si(REACH, unit, one.si)
        value = round(from_si(place[one.name], unit, one.si), 3 if unit == "in" else 2)
        middle = 0.0 if one.si == "rad" else float(round(value))
        shown.append(
            {
                "name": one.name,
                "words": one.words,
                "entry": one.entry.replace("_", " "),
                "unit": unit,
                "factor": to_si(1.0, unit, one.si),
                "value": f"{value:.10g}",
                "least": f"{middle - reach:.10g}",
                "most": f"{middle + reach:.10g}",
                "step": 0.1 if unit in ("deg", "in") else 1,
                "was": typed_at(build, address(build, name, one)),
            }
        )
    return shown


def address(build: Build, engine: str, handle: Handle) -> Address:
    """Return where the reading behind a handle stands in the build file."""
    at: Address = (*PLACE, engine, handle.entry)
    long = typed_at(build, (*at, "value"))
    return (*at, "value") if long else at


def texts(build: Build, engine: str, wanted: Mapping[str, float]) -> dict[Address, str]:
    """Return what the file would say for another place; only what moves. [m, rad]."""
    said = {}
    for one, reading, value in _moved(build, engine, wanted):
        at = address(build, engine, one)
        alone = reading and at[-1] == "value"  # its spread stands beside it
        kept = replace(reading, text="") if reading and alone else reading
        said[at] = moved_text(kept, value, one.si, _unit(one, build))
    return said


def _moved(
    build: Build, engine: str, wanted: Mapping[str, float]
) -> list[tuple[Handle, Reading | None, float]]:
    """Return the handles that another place moves, with what stands there and the new value."""
    box, now, found = _box(build, engine), pose(build), []
    for one in HANDLES:
        value = wanted.get(one.name, now[one.name])
        if abs(value - now[one.name]) >= STILL:
            given = box.given.get(one.entry)
            found.append((one, given if isinstance(given, Reading) else None, value))
    return found


def scene(desk: Desk) -> dict[str, Any]:  # JSON is free-form
    """Return the solids to draw with the engine in its place, and how it stands there."""
    build, session = desk.build, desk.session
    name = engine_of(build)
    if name is None:
        return {"engine": None, "solids": [], "pose": {}, "rows": []}
    return {
        "engine": name,
        "solids": _solids(session.evaluation),
        "pose": pose(build),
        "rows": rows(session),
    }


def tried(desk: Desk, wanted: Mapping[str, float]) -> dict[str, Any]:  # JSON is free-form
    """Judge the engine in another place, as if the file said so; nothing is saved."""
    name = engine_of(desk.build)
    if name is None:
        return {"rows": [], "problems": ["No engine can be placed in this build."]}
    said: dict[Address, str] = {
        (*PLACE, name, one.entry): moved_text(reading, value, one.si, _unit(one, desk.build))
        for one, reading, value in _moved(desk.build, name, wanted)
    }
    build, problems = said_otherwise(desk.build, said)
    if problems:
        return {"rows": [], "problems": [f"{one.wrong}. {one.mend}" for one in problems]}
    return {"rows": rows(desk.tried(build)), "problems": []}


def rows(session: Session) -> list[dict[str, Any]]:  # JSON is free-form
    """Return the clearances as a table: gap, need, state, how sure, closest points.

    What is surely well clear is marked as far: the page leaves it out, as the book does.
    """
    evaluation, found = session.evaluation, []
    for check in session.checks:
        if check.matter != MATTER or evaluation.graph.quantities[check.quantity].unit != "m":
            continue
        nearest = _nearest(check.quantity, evaluation)
        verdict = judge(check, evaluation, doubts=False)
        for one in verdict.judged:
            name = one.label or check.id.partition(".")[2].replace("-", " ")
            found.append(_row(name, verdict, one, evaluation, nearest.get(name)))
    return sorted(found, key=lambda one: float(one["margin"]))


def _row(
    name: str, verdict: Verdict, one: Judged, evaluation: Evaluation, near: Clearance | None
) -> dict[str, Any]:  # JSON is free-form
    quantity, build = evaluation.graph.quantities[verdict.check.quantity], evaluation.build
    unit = unit_for(quantity.shown, build.units, build.currency)
    need = as_text(in_unit(one.limit, quantity.unit, quantity.shown, build.units))
    inside = one.value[0] < 0.0
    words = "touches" if inside else "too near" if one.margin < 0.0 else "clear"
    return {
        "check": verdict.check.id,
        "name": f"gearbox: {name}" if verdict.check.quantity in GEARBOX_GAPS else name,
        "gap": with_band(one.value, quantity.unit, quantity.shown, build.units, build.currency),
        "need": f"{need} {unit}",
        "state": str(one.state),
        "words": f"{words}, {near.position}" if near and near.position else words,
        "sure": f"{one.probability * 100.0:.0f} %",
        "margin": round(float(one.margin), 6),
        "far": bool(one.margin > FAR and one.probability > SURELY),
        "points": near
        and [[round(float(x), 5) for x in at] for at in (near.at_moving, near.at_fixed)],
    }


def _nearest(quantity: str, evaluation: Evaluation) -> dict[str, Clearance]:
    """Return where each pair comes nearest to its need, for the quantities that come of pairs."""
    gaps = {**ENGINE_GAPS, **RADIATOR_GAPS, **GEARBOX_GAPS}.get(quantity)
    found = evaluation.result(gaps).value if gaps else None
    return {name: one.nominal for name, one in (found or {}).items()}


def _solids(evaluation: Evaluation) -> list[dict[str, Any]]:  # JSON is free-form
    return [
        {
            "name": one.name,
            "kind": one.kind,
            "moving": one.moving,
            "vertices": [round(float(at), 4) for at in one.points.ravel()],
            "faces": one.faces.ravel().tolist(),
        }
        for one in drawn_solids(evaluation, far=False)
    ]


def _unit(handle: Handle, build: Build) -> str:
    return "in" if build.units == "us" and handle.si == "m" else handle.shown


def _given(build: Build, engine: str) -> EngineBox | None:
    bay = build.car.get("bay")
    engines = bay.given.get("engines") if bay else None
    found = engines.get(engine) if isinstance(engines, dict) else None
    return found if isinstance(found, EngineBox) else None


def _box(build: Build, engine: str) -> EngineBox:
    """Return the outline of an engine; its typical ranges stand under the key of the section."""
    given = _given(build, engine)
    return EngineBox(
        path=f"car.bay.engines.{engine}",
        key="car.bay.engines",
        given=given.given if given else None,
    )
