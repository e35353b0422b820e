"""What is wrong with the frame model as a whole: places and parts that its template has not."""

from __future__ import annotations

from collections.abc import Iterator

from drybuild.errors import Problem
from drybuild.project.build import Build
from drybuild.project.reader import nearest
from drybuild.project.sections import Section
from drybuild.tables.frame import SIDES, Bar, Sheet, bars, nodes, sheets

TEMPLATE_OF_SHAPE = {
    "coupe": "coupe",
    "estate": "estate",
    "hatchback": "estate",
    "van": "estate",
    "convertible": "open",
    "roadster": "open",
}
MODEL = ("car", "structure", "frame_model")


def usual_template(kind: str, shape: str) -> str:
    """Return the template that stands for a body of a kind and shape."""
    return TEMPLATE_OF_SHAPE.get(shape, "saloon") if kind == "unitary" else kind


def place_problems(build: Build) -> tuple[Problem, ...]:
    """Return every name in the frame model, and in measures, that leads nowhere."""
    model = build.car["structure"].given.get("frame_model")
    given = model.given if isinstance(model, Section) else {}
    shape = str(build.car["body"].given.get("shape") or "")
    template = str(given.get("template") or usual_template(build.kind, shape))
    own = _sections(given.get("places"))
    stems = {*own, *(_stem(name) for name in nodes(template))}
    found = [
        *(one for name, place in own.items() for one in _whole(build, name, place, template)),
        *(
            one
            for name, member in _sections(given.get("members")).items()
            for one in _ends(build, (*MODEL, "members", name), member, stems)
        ),
        *_left_out(build, given.get("without"), template),
    ]
    for option, section in build.options.get("shell", {}).items():
        for name, measure in _sections(section.given.get("measures")).items():
            steps = ("options", "shell", option, "measures", name)
            found += _ends(build, steps, measure, stems)
    return tuple(found)


def _sections(given: object) -> dict[str, Section]:
    return given if isinstance(given, dict) else {}


def _whole(build: Build, name: str, place: Section, template: str) -> Iterator[Problem]:
    """Yield a problem for a new place that lacks a coordinate; a known place may lack some."""
    known = nodes(template)
    if name in known or f"{name} left" in known:
        return
    lacking = [axis for axis in ("x", "y", "z") if place.given.get(axis) is None]
    if lacking:
        yield _problem(
            build,
            (*MODEL, "places", name),
            f"a new place needs x, y and z; {', '.join(lacking)} is not given",
            'Write all three, as "{x: -300 mm, y: 420 mm, z: 150 mm}".',
        )


def _ends(
    build: Build, steps: tuple[str, ...], member: Section, stems: set[str]
) -> Iterator[Problem]:
    """Yield a problem for each end that is no place, or for both at the same one."""
    ends = {key: member.given.get(key) for key in ("start", "end")}
    for key, name in ends.items():
        if isinstance(name, str) and _stem(name) not in stems:
            yield _problem(
                build,
                (*steps, key),
                f'the frame has no place called "{name}"',
                nearest(name, sorted(stems)),
            )
    if ends["start"] is not None and ends["start"] == ends["end"]:
        yield _problem(
            build,
            (*steps, "end"),
            f'this member begins and ends at "{ends["end"]}", so it has no length',
            'Name another place; across the car it is the same name with " right" behind it.',
        )


def _left_out(build: Build, without: object, template: str) -> Iterator[Problem]:
    parts: tuple[Bar | Sheet, ...] = (*bars(template), *sheets(template))
    known = {name for one in parts for name in (one.name, one.family)}
    for name in without if isinstance(without, tuple) else ():
        if name not in known:
            yield _problem(
                build,
                (*MODEL, "without"),
                f'the {template} frame has no part called "{name}"',
                nearest(name, sorted({one.family for one in parts})),
            )


def _stem(name: str) -> str:
    """Return a place's name without its side."""
    head, _, side = name.rpartition(" ")
    return head if side in SIDES and head else name


def _problem(build: Build, steps: tuple[str, ...], wrong: str, mend: str) -> Problem:
    file, line = build.place_of(*steps)
    return Problem(
        code="reference-unknown",
        file=file,
        line=line,
        field=".".join(steps),
        wrong=wrong,
        mend=mend,
    )
