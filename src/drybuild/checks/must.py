"""The person's ``must`` lines and own limits become checks; unreadable ones become problems."""

from __future__ import annotations

from drybuild.checks.check import Check
from drybuild.checks.verdicts import readable_limit
from drybuild.errors import Problem
from drybuild.project.brief import MustLine
from drybuild.project.build import Build
from drybuild.project.reader import nearest
from drybuild.quantities.graph import Graph

BUILD_FILE = "the-build-file"


def must_lines(build: Build) -> tuple[MustLine, ...]:
    """Return the must lines that read well."""
    given = build.brief.given.get("must")
    return given if isinstance(given, tuple) else ()


def must_checks(build: Build, graph: Graph) -> tuple[Check, ...]:
    """Return a check for each must line about a known quantity with a readable limit."""
    return tuple(
        Check(
            id=f"must.{number}",
            asks=f"{line.text}?",
            quantity=line.quantity,
            label=line.label,
            at_least=line.limit if line.at_least else None,
            at_most=None if line.at_least else line.limit,
            probability=line.probability,
            source=BUILD_FILE,
            mend="Choose other options, or ask less in the brief.",
            fails=f"the brief keeps {graph.quantities[line.quantity].label.lower()} at {{limit}}, "
            "and this makes it {value}",
            file=line.file,
            line=line.line,
        )
        for number, line in enumerate(must_lines(build), start=1)
        if _wrong(line, graph) is None
    )


def must_problems(build: Build, graph: Graph, checks: tuple[Check, ...]) -> tuple[Problem, ...]:
    """Return a problem for each must line, preference or own limit that leads nowhere."""
    found = []
    for number, line in enumerate(must_lines(build)):
        wrong = _wrong(line, graph)
        if wrong:
            code, words, mend = wrong
            found.append(
                Problem(
                    code=code,
                    file=line.file,
                    line=line.line,
                    field=f"brief.must[{number}]",
                    wrong=words,
                    mend=mend,
                )
            )
    found += _preference_problems(build, graph)
    found += _limit_problems(build, graph, {check.id: check for check in checks})
    return tuple(found)


def _wrong(line: MustLine, graph: Graph) -> tuple[str, str, str] | None:
    known = [one.name for one in graph.quantities.values() if not one.step]
    if line.quantity not in known:
        return (
            "quantity-unknown",
            f'there is no quantity "{line.quantity}"',
            nearest(line.quantity, known) + ' "drybuild quantities" lists them all.',
        )
    quantity = graph.quantities[line.quantity]
    if line.label is not None and quantity.per in ("", "axle"):
        ends = ("front", "rear") if quantity.per else ()
        if line.label not in ends:
            wrong = f'{line.quantity} has no "{line.label}"'
            mend = nearest(line.label, ends) if ends else f"Write {line.quantity} alone."
            return "quantity-unknown", wrong, mend
    if line.limit in known:
        return None
    unit = quantity.unit
    fault = readable_limit(line.limit, unit)
    if fault:
        return "limit-unreadable", fault, f"Give the limit in a unit that measures {unit}."
    return None


def _preference_problems(build: Build, graph: Graph) -> list[Problem]:
    given = build.brief.given.get("prefer")
    known = [one.name for one in graph.quantities.values() if not one.step]
    weights = given if isinstance(given, dict) else {}
    places = {name: build.place_of("brief", "prefer", name) for name in weights}
    return [
        Problem(
            code="quantity-unknown",
            file=places[name][0],
            line=places[name][1],
            field=f"brief.prefer.{name}",
            wrong=f'there is no quantity "{name}"',
            mend=nearest(name, known),
        )
        for name in weights
        if name not in known
    ]


def _limit_problems(build: Build, graph: Graph, checks: dict[str, Check]) -> list[Problem]:
    found = []
    for name, text in build.limits.items():
        file, line = build.place_of("limits", name)
        check = checks.get(name)
        fault = (
            f'there is no check "{name}"'
            if check is None
            else readable_limit(text, graph.quantities[check.quantity].unit)
        )
        if fault:
            mend = nearest(name, checks) if check is None else "Give it in the unit of the check."
            found.append(
                Problem(
                    code="limit-unreadable",
                    file=file,
                    line=line,
                    field=f"limits.{name}",
                    wrong=fault,
                    mend=mend,
                )
            )
    return found
