"""What is wrong with the solids of a build as a whole: what a shape lacks, lofts, mesh files."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from drybuild.errors import InputError, Problem
from drybuild.physics.solids.registration import register
from drybuild.project.build import Build
from drybuild.project.meshes import MeshFault, load_mesh
from drybuild.project.packaging import Bay
from drybuild.project.packaging_solids import (
    USUAL_PARTS,
    Loft,
    LoftStation,
    MeshFile,
    PartShape,
    Shape,
)
from drybuild.project.reader import nearest
from drybuild.project.readings import Reading
from drybuild.project.sections import Section

WANTED = {
    "box": ("centre", "size"),
    "plate": ("centre", "size"),
    "cylinder": ("start", "end", "diameter"),
    "hull": ("corners",),
    "mesh": ("file",),
    "pipe run": ("corners", "diameter"),
    **dict.fromkeys(USUAL_PARTS, ("centre",)),
}
"""Entries that each form of a solid is drawn from."""
LEAST_POINTS = {"hull": (4, "four corners"), "pipe run": (2, "two points")}
"""How many points a form needs."""
SCALE_OFF = 0.03
"""A scale that is off by more than this is no spread of a tape but a wrong unit or a bad scan."""
Array = npt.NDArray[np.float64]
STRAYING = 0.03
"""Points that stray by more than this (m) are swapped or mistyped."""


@dataclass(frozen=True, kw_only=True)
class _Entry:
    steps: tuple[str, ...]
    section: Section


def solid_problems(build: Build) -> tuple[Problem, ...]:
    """Return every problem of the bay's solids that no single entry shows."""
    bay = build.car.get("bay")
    if not isinstance(bay, Bay):
        return ()
    found: list[Problem] = []
    for entry in _entries(bay, build):
        if isinstance(entry.section, Shape):
            found += _shape(build, entry.steps, entry.section)
        elif isinstance(entry.section, Loft):
            found += _loft(build, entry.steps, entry.section)
    for kind, system in (("engines", "engine"), ("gearboxes", "gearbox")):
        for name in _named(bay, kind):
            if name not in build.options[system]:
                wrong = f'"{name}" is no option of {system}'
                steps = ("car", "bay", kind, name)
                mend = nearest(name, build.options[system])
                found.append(_problem("reference-unknown", build, steps, wrong, mend))
    return tuple(found)


def _entries(bay: Bay, build: Build) -> Iterator[_Entry]:
    at = ("car", "bay")
    for kind in ("solids", "lofts"):
        for name, one in _named(bay, kind).items():
            yield _Entry(steps=(*at, kind, name), section=one)
    for name, option in build.options.get("radiator", {}).items():
        own = option.given.get("solid")
        if isinstance(own, Shape):
            yield _Entry(steps=("options", "radiator", name, "solid"), section=own)
    for kind in ("engines", "gearboxes"):
        for name, one in _named(bay, kind).items():
            for part, shape in _named(one, "parts").items():
                yield _Entry(steps=(*at, kind, name, "parts", part), section=shape)


def _shape(build: Build, steps: tuple[str, ...], shape: Shape) -> Iterator[Problem]:
    form = str(shape.given.get("form") or "box")
    lacking = [one for one in WANTED[form] if shape.given.get(one) is None]
    if lacking:
        wrong = f"a {form} needs {' and '.join(lacking)}"
        mend = f"Give {', '.join(WANTED[form])}; or another form."
        yield _problem("solid-incomplete", build, steps, wrong, mend)
        return
    if form in LEAST_POINTS:
        corners = shape.given["corners"]
        count = len(corners) if isinstance(corners, tuple) else 0
        least, words = LEAST_POINTS[form]
        if count % 3 or count < 3 * least:
            wrong = f"{count} numbers do not make x, y, z of {words} or more"
            yield _problem(
                "solid-incomplete", build, (*steps, "corners"), wrong, "Give x, y, z of each."
            )
    if form == "mesh":
        yield from _mesh(build, steps, shape)


def _mesh(build: Build, steps: tuple[str, ...], shape: Shape) -> Iterator[Problem]:
    name = shape.given["file"]
    if not isinstance(name, MeshFile):
        return
    where = (*steps, "file")
    inside = (name.folder / name).resolve()
    if not inside.is_relative_to(build.folder.resolve()) or not inside.is_file():
        wrong = f'there is no file "{name}" in the build folder'
        yield _problem(
            "file-missing", build, where, wrong, "Copy the mesh into the build folder, and name it."
        )
        return
    try:
        mesh = load_mesh(inside, str(shape.given.get("unit") or ""))
    except MeshFault as fault:
        yield _problem(fault.code, build, where, fault.wrong, fault.mend)
        return
    points = _named(shape, "points")
    if not points and isinstance(shape, PartShape):
        return  # drawn in the engine's own axes
    yield from _points(build, steps, shape, points, mesh.factor)


def _points(
    build: Build,
    steps: tuple[str, ...],
    shape: Shape,
    points: dict[str, Section],
    factor: float,
) -> Iterator[Problem]:
    where = (*steps, "points")
    scan = {name: _three(one, "scan") for name, one in points.items()}
    car = {name: _three(one, "car") for name, one in points.items()}
    known = [name for name in points if scan[name] is not None and car[name] is not None]
    if len(known) < 3:
        wrong = f"{len(known)} points are known in the mesh and on the car; three place it"
        mend = "Give three or more, well apart and not in a line: {scan: [...], car: [...]}."
        yield _problem("mesh-points", build, where, wrong, mend)
        return
    a = np.array([scan[name] for name in known]) * factor
    b = np.array([car[name] for name in known])
    ratio = _scale(a, b)
    for name, one in _named(shape, "taped").items():
        for end in ("start", "end"):
            if one.given.get(end) not in points:
                wrong = f'"{one.given.get(end)}" is no point of this mesh'
                mend = nearest(str(one.given.get(end)), points)
                yield _problem("reference-unknown", build, (*steps, "taped", name), wrong, mend)
    taped = [
        float(np.linalg.norm(a[known.index(i)] - a[known.index(j)])) / distance
        for i, j, distance in _tapes(shape)
        if i in known and j in known
    ]
    if taped:
        ratio = 1.0 / float(np.mean(taped))
    if abs(ratio - 1.0) > SCALE_OFF:
        wrong = f"distances on the car are {ratio:.4g} times those in the mesh"
        mend = "Check the unit of the mesh, and the points; a good scan agrees within 1 %."
        yield _problem("mesh-scale", build, steps, wrong, mend)
        return
    yield from _stray(build, where, known, a, b)


def _stray(
    build: Build, where: tuple[str, ...], known: list[str], a: Array, b: Array
) -> Iterator[Problem]:
    try:
        placed = register(scan=a, car=b)
    except InputError:
        wrong = "the points lie in one line, so the mesh can still turn about it"
        yield _problem("mesh-points", build, where, wrong, "Give a point well off that line.")
        return
    if placed.rms > STRAYING:
        worst = known[int(np.argmax(placed.residuals))]
        told = ", ".join(
            f"{name} {one * 1e3:.0f} mm" for name, one in zip(known, placed.residuals, strict=True)
        )
        wrong = f"the points do not agree: they stray by {told}"
        mend = f'Look at "{worst}" first: left is plus y, x counts forward, z up.'
        yield _problem("mesh-points", build, where, wrong, mend)


def _scale(a: Array, b: Array) -> float:
    """Return the size of one set of points over that of another."""
    size = [float(np.sqrt(((one - one.mean(axis=0)) ** 2).sum())) for one in (a, b)]
    return size[1] / size[0] if size[0] > 0.0 else 1.0


def _tapes(shape: Shape) -> Iterator[tuple[str, str, float]]:
    for one in _named(shape, "taped").values():
        distance = one.given.get("distance")
        if isinstance(distance, Reading) and distance.value > 0.0:
            yield str(one.given.get("start")), str(one.given.get("end")), distance.value


def _loft(build: Build, steps: tuple[str, ...], loft: Loft) -> Iterator[Problem]:
    stations = {
        name: one for name, one in _named(loft, "stations").items() if isinstance(one, LoftStation)
    }
    if len(stations) < 2:
        wrong = f"{len(stations)} station; walls are drawn between two or more"
        mend = "Add a station: {x: -300 mm, heights: [...], half: [...]}."
        yield _problem("loft-stations", build, steps, wrong, mend)
        return
    first = next(iter(stations))
    wanted = _count(stations[first], "heights")
    for name, one in stations.items():
        at = (*steps, "stations", name)
        if one.given.get("x") is None or _count(one, "heights") < 2:
            wrong, mend = "it needs x and two or more heights", "Give x, heights and half-widths."
            yield _problem("loft-stations", build, at, wrong, mend)
        elif _count(one, "heights") != wanted:
            wrong = f"{_count(one, 'heights')} heights, but {first} has {wanted}"
            yield _problem(
                "loft-stations", build, at, wrong, "Take as many heights at every station."
            )
        else:
            yield from _widths(build, at, one, wanted)


def _widths(build: Build, at: tuple[str, ...], one: LoftStation, wanted: int) -> Iterator[Problem]:
    given = [word for word in ("half", "left", "right") if one.given.get(word) is not None]
    if not given:
        wrong = "no half-widths"
        yield _problem("loft-stations", build, at, wrong, "Give half, or left and right.")
    for word in given:
        if _count(one, word) != wanted:
            wrong = f"{_count(one, word)} widths for {wanted} heights"
            mend = "Give one width for each height."
            yield _problem("loft-stations", build, (*at, word), wrong, mend)


def _count(section: Section, name: str) -> int:
    given = section.given.get(name)
    return len(given) if isinstance(given, tuple) else 0


def _three(section: Section, name: str) -> list[float] | None:
    given = section.given.get(name)
    if not isinstance(given, tuple) or len(given) != 3:
        return None
    return [one.value for one in given if isinstance(one, Reading)]


def _named(section: Section, name: str) -> dict[str, Section]:
    given = section.given.get(name)
    return given if isinstance(given, dict) else {}


def _problem(code: str, build: Build, steps: tuple[str, ...], wrong: str, mend: str) -> Problem:
    file, line = build.place_of(*steps)
    return Problem(code=code, file=file, line=line, field=".".join(steps), wrong=wrong, mend=mend)
