"""Zones that this body does not have: a roof on an open car, a frame rail on a shell."""

from __future__ import annotations

from collections.abc import Iterator

from drybuild.errors import Problem
from drybuild.project.build import Build
from drybuild.project.reader import nearest
from drybuild.tables.condition import zones


def zone_problems(build: Build) -> tuple[Problem, ...]:
    """Return every zone of the survey, and of what jobs open, that a body like this has not."""
    known = zones(build.zone_kind)
    return tuple(_problem(build, steps, name) for steps, name in _named(build) if name not in known)


def _named(build: Build) -> Iterator[tuple[tuple[str, ...], str]]:
    given = build.tops["survey"].given.get("zones")
    for name in given if isinstance(given, dict) else ():
        yield ("survey", "zones", name), name
    for job, section in build.named.get("jobs", {}).items():
        opens = section.given.get("opens")
        for name in opens if isinstance(opens, tuple) else ():
            yield ("jobs", job, "opens"), name


def _problem(build: Build, steps: tuple[str, ...], name: str) -> Problem:
    file, line = build.place_of(*steps)
    shape = build.car["body"].given.get("shape")
    body = " ".join(filter(None, (build.kind, shape if isinstance(shape, str) else "")))
    return Problem(
        code="reference-unknown",
        file=file,
        line=line,
        field=".".join(steps),
        wrong=f'a {body} body has no zone "{name}"',
        mend=nearest(name, zones(build.zone_kind)) + " Or set car.body.kind and shape right.",
    )
