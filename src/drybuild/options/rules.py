"""What the options say themselves: areas they alter, joints, what they need and rule out."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from itertools import combinations

import numpy as np

from drybuild.options.network import Flags, Picks, Reason, Table
from drybuild.project.build import Build
from drybuild.project.option import Option

Systems = Mapping[str, tuple[str, ...]]
BUILD_FILE = "the-build-file"
KEEP, JOINT, NEED, EXCLUDE = "keep", "joint", "needs", "excludes"
"""What a rule's id begins with."""


def declared_tables(build: Build, systems: Systems) -> tuple[Table, ...]:
    """Return the tables that follow from the options' own words and from the areas to keep.

    Parameters
    ----------
    build : Build
        The build as read.
    systems : mapping
        The systems to choose for, each with its options; every other system has one option.

    """
    rules = [*_kept(build, systems)]
    for one, other in combinations(build.options, 2):
        rules += [*_joints(build, one, other)]
    for system in build.options:
        rules += [*_relations(build, system)]
    return tuple(_narrowed(rule, build, systems) for rule in rules if not rule.allowed.all())


def _kept(build: Build, systems: Systems) -> Iterator[Table]:
    keep = {area.casefold() for area in _words(build.brief.given.get("keep"))}
    for system in build.options:
        cuts = {
            name: [area for area in _words(option.given.get("alters")) if area.casefold() in keep]
            for name, option in build.options[system].items()
        }

        def reason(picks: Picks, system: str = system, cuts: Mapping[str, list[str]] = cuts) -> str:
            named = [picks[system]] if system in picks else [name for name in cuts if cuts[name]]
            told = [f"{name} ({system}) alters {' and '.join(cuts[name])}" for name in named]
            return f"{', '.join(told)}, which the brief keeps"

        if any(cuts.values()):
            yield Table(
                id=f"{KEEP}.{system}",
                scope=(system,),
                allowed=np.array([not areas for areas in cuts.values()]),
                reason=reason,
                source=BUILD_FILE,
            )


def _joints(build: Build, one: str, other: str) -> Iterator[Table]:
    """Give, for each kind of joint, which options of two systems fit on each other."""
    sides = [
        {name: _by_name(option.given.get("joins")) for name, option in build.options[s].items()}
        for s in (one, other)
    ]
    kinds = [{kind for joins in side.values() for kind in joins} for side in sides]
    for kind in sorted(kinds[0] & kinds[1]):
        left, right = ([set(joins.get(kind, ())) for joins in side.values()] for side in sides)
        allowed = np.array([[not a or not b or bool(a & b) for b in right] for a in left])

        def reason(picks: Picks, kind: str = kind) -> str:
            ends = [
                f"{picks[system]} ({system}) has {kind} {' or '.join(side[picks[system]][kind])}"
                for system, side in zip((one, other), sides, strict=True)
                if kind in side.get(picks.get(system, ""), {})
            ]
            if not ends:
                return f"{kind} of {one} and of {other} must be the same"
            return ", ".join(ends) + ("" if len(ends) > 1 else ", and nothing there matches it")

        yield Table(
            id=f"{JOINT}.{kind}.{one}.{other}",
            scope=(one, other),
            allowed=allowed,
            reason=reason,
            source=BUILD_FILE,
        )


def _relations(build: Build, system: str) -> Iterator[Table]:
    """Give the tables of `needs` and `excludes` of one system's options."""
    options = build.options[system]
    for kind in (NEED, EXCLUDE):
        named = {name: _by_name(option.given.get(kind)) for name, option in options.items()}
        for other in dict.fromkeys(other for words in named.values() for other in words):
            if other not in build.options or other == system:
                continue
            yield Table(
                id=f"{kind}.{system}.{other}",
                scope=(system, other),
                allowed=_matching(kind, options, build.options[other], named, other),
                reason=_relation_words(kind, system, other, named),
                source=BUILD_FILE,
            )


def _matching(
    kind: str,
    options: Mapping[str, Option],
    others: Mapping[str, Option],
    named: Mapping[str, Mapping[str, tuple[str, ...]]],
    other: str,
) -> Flags:
    rows = [
        [
            other not in named[name] or (candidate in named[name][other]) == (kind == NEED)
            for candidate in others
        ]
        for name in options
    ]
    return np.array(rows, dtype=np.bool_)


def _relation_words(
    kind: str, system: str, other: str, named: Mapping[str, Mapping[str, tuple[str, ...]]]
) -> Reason:
    def reason(picks: Picks) -> str:
        verb = "needs" if kind == NEED else "rules out"
        asking = [picks[system]] if system in picks else list(named)
        told = [
            f"{option} ({system}) {verb} {' or '.join(named[option][other])} ({other})"
            for option in asking
            if other in named[option]
        ]
        return ", ".join(told)

    return reason


def _narrowed(table: Table, build: Build, systems: Systems) -> Table:
    """Return the table over the systems that leave a choice; the others stand at their option."""
    single = tuple(axis for axis, system in enumerate(table.scope) if system not in systems)
    fixed = {table.scope[axis]: next(iter(build.options[table.scope[axis]])) for axis in single}
    return Table(
        id=table.id,
        scope=tuple(system for system in table.scope if system in systems),
        allowed=np.asarray(table.allowed.squeeze(axis=single)),
        reason=lambda picks: table.why({**fixed, **picks}),
        source=table.source,
    )


def _words(given: object) -> tuple[str, ...]:
    return given if isinstance(given, tuple) else ()


def _by_name(given: object) -> Mapping[str, tuple[str, ...]]:
    return given if isinstance(given, dict) else {}
