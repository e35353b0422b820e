"""The graph of named quantities: assembled once, evaluated for a build and a set of picks.

Results are remembered by the picks in their scope, so a changed pick recomputes only what depends
on it. Every result knows the readings that it rests on; a missing one makes it open, never an
exception.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, field
from functools import cached_property
from types import ModuleType
from typing import Any

import numpy as np

from drybuild.errors import (
    DoesNotApply,
    GraphError,
    InputError,
    MissingInput,
    TableError,
    UnitError,
)
from drybuild.project.brief import Brief
from drybuild.project.build import Build
from drybuild.project.catalogue import CAR_SECTIONS, NAMED, SYSTEMS, TOPS
from drybuild.project.handbook import published
from drybuild.project.option import Option
from drybuild.project.readings import Reading
from drybuild.project.samples import Values, at_shares, draw
from drybuild.quantities.quantity import Quantity
from drybuild.tables.typical import typical_range
from drybuild.units import to_si

PARTS = "parts"
"""Parameter that stands for every picked option of the build, with what it replaces."""


@dataclass(frozen=True, kw_only=True)
class Missing:
    """Why a quantity is open."""

    path: str
    why: str
    senseless: bool = False
    """Nothing is missing: the question has no sense for this car."""


@dataclass(frozen=True)
class Trail:
    """The readings that a result rests on: those it took itself, and those below it."""

    taken: frozenset[str]
    below: tuple[Trail, ...]

    @cached_property
    def paths(self) -> frozenset[str]:
        """Paths of them all; gathered when first asked for, as most results never are."""
        return self.taken | paths_of(self.below)


def paths_of(trails: tuple[Trail, ...]) -> frozenset[str]:
    """Return the paths of every reading on some trails."""
    return frozenset[str]().union(*(one.paths for one in trails))


@dataclass(frozen=True, kw_only=True)
class Result:
    """A quantity as evaluated: its value, or what is missing, and the readings it rests on."""

    quantity: Quantity
    value: Any
    """An array, a dict of arrays by label, any object for a step, or None when open."""
    missing: tuple[Missing, ...]
    trail: Trail

    @property
    def inputs(self) -> frozenset[str]:
        """Paths of every reading that it rests on, through all its needs."""
        return self.trail.paths

    @property
    def open(self) -> bool:
        """Whether it has no value."""
        return self.value is None

    def labelled(self) -> dict[str, Values]:
        """Return the value by label; a single value has the empty label."""
        if self.value is None:
            return {}
        return self.value if isinstance(self.value, dict) else {"": self.value}


@dataclass(frozen=True, kw_only=True)
class Part:
    """A picked option beside the one that stands for the car as it is."""

    system: str
    name: str
    picked: Option
    as_is: Option | None
    changed: bool


class Parts(Mapping[str, Part]):
    """Every system's picked option; systems that are still open are left out and named."""

    def __init__(self, parts: dict[str, Part], undecided: tuple[str, ...]) -> None:
        self._parts = parts
        self.undecided = undecided

    def __getitem__(self, system: str) -> Part:
        return self._parts[system]

    def __iter__(self) -> Iterator[str]:
        return iter(self._parts)

    def __len__(self) -> int:
        return len(self._parts)


class Graph:
    """The quantities by name, with what each depends on."""

    def __init__(self, modules: tuple[ModuleType, ...]) -> None:
        self.quantities: dict[str, Quantity] = {}
        for module in modules:
            for one in vars(module).values():
                if isinstance(one, Quantity) and one.function.__module__ == module.__name__:
                    self._add(one)
        self.sections = {**CAR_SECTIONS, **TOPS, "brief": Brief}
        self._check()

    def _add(self, one: Quantity) -> None:
        if one.name in self.quantities:
            raise GraphError(f"two quantities are called {one.name}")
        self.quantities[one.name] = one

    def _check(self) -> None:
        taken = {*self.sections, *SYSTEMS, *NAMED, PARTS}
        for one in self.quantities.values():
            if one.name in taken:
                raise GraphError(f"{one.name} names a quantity and a section or system")
            for need in one.needs:
                if need not in taken and need not in self.quantities:
                    raise GraphError(f"{one.name} needs {need}, which nothing provides")
            if one.unit not in ("", "-", "date"):
                self._check_unit(one)
        self.order  # noqa: B018  computing it finds circles

    @staticmethod
    def _check_unit(one: Quantity) -> None:
        if one.unit.startswith("money"):
            return
        try:
            to_si(1.0, one.unit, one.unit)
            to_si(1.0, one.shown, one.unit)
        except UnitError as fault:
            raise GraphError(f"{one.name}: unit {one.unit}, shown {one.shown}: {fault}") from fault

    @cached_property
    def order(self) -> tuple[str, ...]:
        """Every quantity after all that it needs.

        Raises
        ------
        GraphError
            Quantities need each other in a circle.

        """
        done: list[str] = []
        state: dict[str, int] = {}

        def visit(name: str, trail: tuple[str, ...]) -> None:
            if name not in self.quantities or state.get(name) == 2:
                return
            if state.get(name) == 1:
                raise GraphError("a circle of needs: " + " -> ".join((*trail, name)))
            state[name] = 1
            for need in self.quantities[name].needs:
                visit(need, (*trail, name))
            state[name] = 2
            done.append(name)

        for name in self.quantities:
            visit(name, ())
        return tuple(done)

    @cached_property
    def _scopes(self) -> dict[bool, dict[str, frozenset[str] | None]]:
        """Scope of each quantity, aggregates whole (False) or cut (True); None = everything."""
        scopes: dict[bool, dict[str, frozenset[str] | None]] = {False: {}, True: {}}
        for cut, found in scopes.items():
            for name in self.order:
                one = self.quantities[name]
                if one.aggregate and cut:
                    found[name] = frozenset()
                    continue
                found[name] = self._union(one, found)
        return scopes

    @staticmethod
    def _union(one: Quantity, found: dict[str, frozenset[str] | None]) -> frozenset[str] | None:
        systems: set[str] = set()
        for need in one.needs:
            if need == PARTS:
                return None
            if need in SYSTEMS:
                systems.add(need)
            elif need in found:
                below = found[need]
                if below is None:
                    return None
                systems |= below
        return frozenset(systems)

    @cached_property
    def summing(self) -> frozenset[str]:
        """Quantities that are aggregates or rest on one."""
        found: set[str] = set()
        for name in self.order:
            one = self.quantities[name]
            if one.aggregate or not found.isdisjoint(one.needs):
                found.add(name)
        return frozenset(found)

    @cached_property
    def systems(self) -> dict[bool, dict[str, tuple[str, ...] | None]]:
        """Systems in each quantity's scope, as `scope` has them, in order of their names."""
        return {
            cut: {
                name: None if scope is None else tuple(sorted(scope))
                for name, scope in found.items()
            }
            for cut, found in self._scopes.items()
        }

    def scope(self, name: str, *, cut: bool = False) -> frozenset[str] | None:
        """Return the systems whose picks a quantity depends on; None for every system.

        With `cut`, aggregates (mass, cost, current over the whole build) count as given.
        """
        return self._scopes[cut][name]


@dataclass
class Evaluation:
    """A build evaluated over one number of samples; remembers results by the picks in scope."""

    graph: Graph
    build: Build
    samples: int
    memory: dict[tuple[Any, ...], Result] = field(default_factory=dict)  # keys mix names and picks
    between: Callable[[], None] | None = None
    """Called before each quantity that is worked out: it may wait, or raise to stop the work."""
    _drawn: _Drawn = field(init=False)

    def __post_init__(self) -> None:
        self._drawn = _Drawn(self.build.kind, self.samples, {}, {})

    @property
    def readings(self) -> dict[str, Reading]:
        """Every reading that was taken so far, by its path."""
        return self._drawn.readings

    def result(
        self,
        name: str,
        picks: Mapping[str, str] | None = None,
        frozen: Frozen | None = None,
    ) -> Result:
        """Return a quantity's result for some picks (the build's own when not given).

        Parameters
        ----------
        name : str
            The quantity.
        picks : mapping
            Option by system; systems left out are open.
        frozen : Frozen
            Aggregates held at given results, for tabulating over a few systems.

        Returns
        -------
        Result
            With a value, or open with what is missing.

        """
        chosen = self.build.assumed_picks() if picks is None else picks
        return self._result(name, chosen, frozen)

    def _result(self, name: str, picks: Mapping[str, str], frozen: Frozen | None) -> Result:
        one = self.graph.quantities[name]
        if frozen and one.aggregate and name in frozen.results:
            return frozen.results[name]
        key = self.key_of(name, picks, frozen)
        found = self.memory.get(key)
        if found is None:
            if self.between is not None:
                self.between()
            found = self.memory[key] = self._compute(one, picks, frozen)
        return found

    def key_of(
        self, name: str, picks: Mapping[str, str], frozen: Frozen | None = None
    ) -> tuple[Any, ...]:  # names and picks
        """Return what a result is remembered by: the quantity and the picks in its scope."""
        held = frozen if name in self.graph.summing else None
        systems = self.graph.systems[held is not None][name]
        if systems is None:
            systems = tuple(self.build.options)
        return (name, held.id if held else "", *map(picks.get, systems))

    def adopt_readings(self, other: Evaluation) -> None:
        """Take over the readings and samples of an evaluation of the same build."""
        self._drawn.readings.update(other.readings)
        self._drawn.samples_of.update(other._drawn.samples_of)

    def _compute(self, one: Quantity, picks: Mapping[str, str], frozen: Frozen | None) -> Result:
        bench = _Recorder(self._drawn)
        arguments: dict[str, Any] = {}
        missing: list[Missing] = []
        trails: list[Trail] = []
        for need in one.needs:
            if need in self.graph.quantities:
                below = self._result(need, picks, frozen)
                trails.append(below.trail)
                missing += below.missing
                arguments[need] = below.value
            elif need == PARTS:
                arguments[need] = self._parts(picks, bench)
            elif need in SYSTEMS:
                option = self._picked(need, picks)
                if option is None:
                    missing.append(Missing(path=f"picks.{need}", why=f"no pick yet for {need}"))
                else:
                    arguments[need] = option.bound(bench)
            else:
                arguments[need] = self._section(need, bench)
        value = None
        if not missing:
            try:
                with np.errstate(all="ignore"):  # a sample without a solution is nan, and counted
                    value = one.function(**arguments)
            except MissingInput as lack:
                missing.append(
                    Missing(path=lack.path, why=lack.why, senseless=isinstance(lack, DoesNotApply))
                )
            except (InputError, TableError) as fault:
                missing.append(Missing(path=one.name, why=str(fault)))
        return Result(
            quantity=one,
            value=value,
            missing=tuple(dict.fromkeys(missing)),
            trail=Trail(frozenset(bench.taken), tuple(trails)),
        )

    def _section(self, need: str, bench: _Recorder) -> Any:  # a section, or sections by name
        if need == "brief":
            return self.build.brief.bound(bench)
        if need in self.build.named:
            return {name: one.bound(bench) for name, one in self.build.named[need].items()}
        return (self.build.car.get(need) or self.build.tops[need]).bound(bench)

    def _picked(self, system: str, picks: Mapping[str, str]) -> Option | None:
        name = picks.get(system)
        return self.build.options[system][name] if name is not None else None

    def _parts(self, picks: Mapping[str, str], bench: _Recorder) -> Parts:
        found: dict[str, Part] = {}
        for system in self.build.options:
            picked = self._picked(system, picks)
            if picked is None:
                continue
            as_is = self.build.as_is(system)
            standing = self.build.options[system][as_is] if as_is else None
            found[system] = Part(
                system=system,
                name=picks[system],
                picked=picked.bound(bench),
                as_is=standing.bound(bench) if standing else None,
                changed=picks[system] != as_is,
            )
        undecided = tuple(one for one in self.build.options if one not in found)
        return Parts(found, undecided)

    def drawn(self, path: str) -> Values:
        """Return the samples of a reading that was taken."""
        return self._drawn.of(path)

    def forget(self, paths: frozenset[str]) -> None:
        """Drop every result that rests on one of these readings, after they changed."""
        self.memory = {key: one for key, one in self.memory.items() if one.inputs.isdisjoint(paths)}
        for path in paths:
            self._drawn.samples_of.pop(path, None)
            self._drawn.readings.pop(path, None)


@dataclass(frozen=True, kw_only=True)
class Frozen:
    """Aggregates held at known results while a few systems are tabulated."""

    id: str
    results: Mapping[str, Result]


@dataclass(frozen=True)
class _Drawn:
    """The readings of an evaluation and their samples, apart from what came of them.

    A result may keep a section, and so its bench; that shall not keep all other results.
    """

    kind: str
    samples: int
    readings: dict[str, Reading]
    samples_of: dict[str, Values]

    def of(self, path: str) -> Values:
        """Return the samples of a reading that was taken."""
        found = self.samples_of.get(path)
        if found is None:
            found = self.samples_of[path] = draw(self.readings[path], path, self.samples)
        return found


class _Recorder:
    """The bench that sections are bound to while one quantity is computed."""

    def __init__(self, drawn: _Drawn) -> None:
        self.drawn = drawn
        self.taken: set[str] = set()

    def take(self, path: str, reading: Reading) -> Values:
        """Return the samples of a reading and note that it was taken."""
        self.taken.add(path)
        self.drawn.readings.setdefault(path, reading)
        return self.drawn.of(path)

    def again(self, path: str) -> Values | None:
        """Return the samples of a reading that was taken before, and note it."""
        if path not in self.drawn.readings:
            return None
        self.taken.add(path)
        return self.drawn.of(path)

    def note(self, path: str) -> None:
        """Note that a value that is no number was taken or asked for."""
        self.taken.add(path)

    def typical(self, key: str, unit: str) -> Reading | None:
        """Return the published typical range of a field for this car, if there is one."""
        found = typical_range(key, self.drawn.kind)
        return published(found, unit) if found else None


def summary(values: Values) -> tuple[float, float, float]:
    """Return nominal, 5 % and 95 % of a quantity; samples without a solution are left out."""
    nominal, drawn = float(values[0]), values[1:]
    drawn = drawn[np.isfinite(drawn)]
    if drawn.size == 0:
        return nominal, nominal, nominal
    low, high = at_shares(drawn, 0.05, 0.95)
    return nominal, low, high


class Results(Mapping[str, Result]):
    """Every quantity of a build as picked, by name; each is worked out when it is asked for."""

    def __init__(self, evaluation: Evaluation) -> None:
        self.evaluation = evaluation
        self.names = {
            name: None for name, one in evaluation.graph.quantities.items() if not one.step
        }

    def __getitem__(self, name: str) -> Result:
        """Return one result."""
        if name not in self.names:
            raise KeyError(name)
        return self.evaluation.result(name)

    def __iter__(self) -> Iterator[str]:
        """Run through the names."""
        return iter(self.names)

    def __len__(self) -> int:
        """Return how many there are."""
        return len(self.names)
