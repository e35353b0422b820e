"""What is wrong with the jobs as a whole: names that lead nowhere, circles, odds."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from drybuild.errors import Problem
from drybuild.project.build import Build
from drybuild.project.reader import nearest
from drybuild.project.readings import Reading
from drybuild.project.sections import Section
from drybuild.project.succession import circle
from drybuild.project.work import Find
from drybuild.tables.work import standard_jobs


def work_problems(build: Build) -> tuple[Problem, ...]:
    """Return every problem of a build's jobs that no single entry shows."""
    given = dict(build.named.get("jobs", {}))
    jobs = list(given) or [job.name for job in standard_jobs(build.kind)]
    entries = _entries(build, given)
    found = [
        *(one for entry in entries for one in _jobs_named(build, entry, jobs)),
        *(one for entry in entries for one in _systems_named(build, entry)),
        *(one for entry in entries for one in _odds(build, entry)),
    ]
    ring = circle(_after(given))
    if ring:
        wrong = f"these jobs wait for each other: {' -> '.join(ring)}"
        steps = ("jobs", ring[0], "after")
        found.append(_problem(build, "job-circle", steps, wrong, "Take one of these links out."))
    return tuple(found)


@dataclass(frozen=True, kw_only=True)
class _Entry:
    """A section with the steps that lead to it in the file."""

    steps: tuple[str, ...]
    section: Section


def _entries(build: Build, jobs: Mapping[str, Section]) -> tuple[_Entry, ...]:
    """Return every section that names jobs."""
    tops = {name: build.tops[name] for name in ("work", "survey") if name in build.tops}
    finds = tops["work"].given.get("finds") if "work" in tops else None
    return (
        *(_Entry(steps=("jobs", name), section=job) for name, job in jobs.items()),
        *(_Entry(steps=(name,), section=top) for name, top in tops.items()),
        *(
            _Entry(steps=("work", "finds", name), section=find)
            for name, find in (finds if isinstance(finds, dict) else {}).items()
        ),
    )


def _problem(build: Build, code: str, steps: tuple[str, ...], wrong: str, mend: str) -> Problem:
    file, line = build.place_of(*steps)
    field = ".".join(steps)
    return Problem(code=code, file=file, line=line, field=field, wrong=wrong, mend=mend)


def _texts(section: Section, entry: str) -> tuple[str, ...]:
    given = section.given.get(entry)
    if isinstance(given, str):
        return (given,) if given else ()
    return tuple(given) if isinstance(given, (tuple, dict)) else ()


def _after(jobs: Mapping[str, Section]) -> dict[str, tuple[str, ...]]:
    """Return what each job waits for, names that do not exist left out."""
    return {
        name: tuple(earlier for earlier in _texts(job, "after") if earlier in jobs)
        for name, job in jobs.items()
    }


NAMES_JOBS = ("after", "fit_after", "strip_job", "blast_job", "revealed_by", "before")
NAMES_SYSTEMS = ("needs", "fits", "ordered")


def _jobs_named(build: Build, one: _Entry, jobs: list[str]) -> Iterator[Problem]:
    for entry in NAMES_JOBS:
        for name in _texts(one.section, entry):
            if name not in jobs:
                wrong = f'there is no job "{name}"'
                steps = (*one.steps, entry)
                yield _problem(build, "job-unknown", steps, wrong, nearest(name, jobs))


def _systems_named(build: Build, one: _Entry) -> Iterator[Problem]:
    for entry in NAMES_SYSTEMS:
        for name in _texts(one.section, entry):
            if name not in build.options:
                wrong, mend = f'there is no system "{name}"', nearest(name, build.options)
                yield _problem(build, "reference-unknown", (*one.steps, entry), wrong, mend)


def _odds(build: Build, one: _Entry) -> Iterator[Problem]:
    if not isinstance(one.section, Find):
        return
    results = one.section.given.get("results")
    odds = [
        result.given["odds"].value
        for result in (results.values() if isinstance(results, dict) else ())
        if isinstance(result.given.get("odds"), Reading)
    ]
    if abs(sum(odds) - 1.0) > 0.005:
        wrong = f"the odds add up to {sum(odds) * 100.0:.4g} %"
        steps = (*one.steps, "results")
        yield _problem(build, "shares-total", steps, wrong, "Make them add up to 100 %.")
