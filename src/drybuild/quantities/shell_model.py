"""The body as a frame of beams and panels: a template put to this car's size, solved by sample.

How samples are solved: walls, joint rates and panels scale members one by one, so a few samples
(`FULL`, spread over the joint rates, the nominal one among them) are solved in full and all others
as blends of these (`physics.frame.reduced`), which is good to a few parts in a thousand. Places of
the nodes are held at their nominal values; `size_effect` tells what their spread is worth.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from math import prod
from typing import TypeVar
from weakref import WeakKeyDictionary

import numpy as np

from drybuild.errors import MissingInput
from drybuild.physics.frame.assembly import (
    Elements,
    Factors,
    Frame,
    Panels,
    prepare,
)
from drybuild.physics.frame.cases import Case, bending_case, spread_case, torsion_case
from drybuild.physics.frame.reduced import Sampled, joint_scale, reduced_basis, reduced_stiffness
from drybuild.physics.frame.solve import solve
from drybuild.project.samples import Values
from drybuild.quantities.shell_sections import (
    STEEL_DENSITY,
    STEEL_SHEAR,
    frame_members,
    is_open,
    place_number,
)
from drybuild.tables.frame import (
    Bar,
    Change,
    Node,
    SectionSize,
    Sheet,
    bars,
    frame_case,
    sheets,
    side_names,
)

GLASS_SHEAR = 29e9  # [Pa], soda-lime glass, usual text value
GLASS_DENSITY = 2500.0  # [kg/m³], likewise
FULL = 8
"""Samples that are solved in full."""
WIDEST = 30.0
"""Joint rates up to this many times softer and stiffer are solved to find the right one."""
HELD = 7
"""Shares of warping prevented at which a frame with open members is solved."""
RUST_LEAVES = (1.0, 0.8, 0.4)
"""Share of its stiffness that a sound zone has, one to be patched, one to be replaced; common
practice, no source."""
T = TypeVar("T")


@dataclass(frozen=True, kw_only=True)
class Addition:
    """What one measure does to the frame: members it adds, factors it puts on what is there."""

    name: str
    bars: tuple[Bar, ...] = ()
    changes: tuple[Change, ...] = ()
    sheets: tuple[Sheet, ...] = ()


@dataclass(frozen=True, kw_only=True)
class Built:
    """A frame made ready, with what each of its parts is called and belongs to."""

    bars: tuple[Bar, ...]
    sheets: tuple[Sheet, ...]
    elements: Elements
    cases: dict[str, Case]
    """Torsion, bending and spread."""

    @property
    def torsion(self) -> Case:
        """A couple between the axles."""
        return self.cases["torsion"]

    @property
    def bending(self) -> Case:
        """A load between the axles."""
        return self.cases["bending"]

    @property
    def frame(self) -> Frame:
        """The frame itself."""
        return self.elements.frame


@dataclass(frozen=True, kw_only=True, eq=False)
class ShellModel:
    """A template with this car's tape measures, sections, joints and doubts; solved on demand."""

    template: str
    tape: dict[str, Values]
    sizes: dict[str, SectionSize]
    walls: dict[str, Values]
    """Factor on each section's stiffness by sample."""
    joint_rate: Values
    warping_held: Values
    places: dict[str, Node]
    """Every place by name: the template's and the person's own, as shares of tape measures."""
    panel_thickness: Values
    panel_share: Values
    bars: tuple[Bar, ...]
    sheets: tuple[Sheet, ...]
    known: Values | None
    """Torsional stiffness as measured or given, which sets the joint rates."""
    known_path: str

    def built(self, work: tuple[Addition, ...] = ()) -> Built:
        """Return the frame with some work done to it."""
        return self.once(
            ("built", *work),
            lambda: self._build(self._nominal_tape(), work, float(self.warping_held[0])),
        )

    def sampled(
        self,
        case: str,
        work: tuple[Addition, ...] = (),
        *,
        left: Mapping[str, Values] | None = None,
        panes: Values | None = None,
    ) -> Sampled:
        """Return stiffness and energy shares by sample.

        Parameters
        ----------
        case : str
            Torsion, bending or spread.
        work : tuple
            What is done to the body.
        left : mapping
            What is left of members and panels by name, for rust; everything when not given.
        panes : array
            Share of the panes' stiffness that their beads let through; none when not given.

        """
        if left is not None or panes is not None:  # by readings that this model does not rest on
            return self._sampled(case, work, left, panes)
        key = ("sampled", case, *work)
        return self.once(key, lambda: self._sampled(case, work, left, panes))

    def factors(
        self,
        work: tuple[Addition, ...] = (),
        *,
        left: Mapping[str, Values] | None = None,
        panes: Values | None = None,
    ) -> Factors:
        """Return the factors of every part by sample, joints as set by what is known."""
        built = self.built(work)
        raw = self._raw_factors(built, work, left, panes)
        return replace(raw, joint=raw.joint * self.joint_scale()[:, None])

    def nominal(self, work: tuple[Addition, ...] = ()) -> Factors:
        """Return the factors of the nominal body."""
        return self.once(("nominal", *work), lambda: _row(self.factors(work), 0))

    def nominal_factors(self, built: Built, work: tuple[Addition, ...]) -> Factors:
        """Return the nominal factors of a frame's parts with the changes that some work makes."""
        raw = _row(self._raw_factors(built, work, None, None), 0)
        return replace(raw, joint=raw.joint * self.joint_scale()[0])

    def joint_scale(self) -> Values:
        """Return the factor on the joint rate: by its spread, or by what is known."""
        return self.once(("joints",), self._joint_scale)

    def size_effect(self) -> Values:
        """Return the factor on torsional stiffness by the spread of tape measures and warping.

        A power law about the nominal car, its powers from one solution more for each measure; the
        warping that joints prevent by a few solutions over its range.
        """
        return self.once(("size",), self._size_effect)

    def once(self, key: tuple[object, ...], work: Callable[[], T]) -> T:
        """Return what a piece of work gives, done only the first time that it is asked for."""
        memory = SOLVED.setdefault(self, {})
        if key not in memory:
            memory[key] = work()
        found: T = memory[key]  # type: ignore[assignment]  # the key says which type
        return found

    def _nominal_tape(self) -> dict[str, float]:
        return {name: float(values[0]) for name, values in self.tape.items()}

    def _build(self, tape: Mapping[str, float], work: tuple[Addition, ...], held: float) -> Built:
        every = (*self.bars, *(bar for one in work for bar in one.bars))
        panels = (*self.sheets, *(sheet for one in work for sheet in one.sheets))
        used = {end for bar in every for end in (bar.start, bar.end)}
        rows = {name: node for name, node in self.places.items() if name in used}
        found = [
            [sum(share * tape[name] for name, share in axis.items()) for axis in node.shares]
            for node in rows.values()
        ]
        names, places = tuple(rows), np.array(found, dtype=np.float64)
        frame = Frame(
            nodes=names,
            places=places,
            members=frame_members(
                every,
                self.sizes,
                dict(zip(names, places, strict=True)),
                joint_rate=float(self.joint_rate[0]),
                held=held,
            ),
            panels=_panels(panels, names, float(self.panel_thickness[0])),
        )
        return Built(
            bars=every,
            sheets=panels,
            elements=prepare(frame=frame),
            cases=_cases(frame, self.template),
        )

    def _raw_factors(
        self,
        built: Built,
        work: tuple[Addition, ...],
        left: Mapping[str, Values] | None,
        panes: Values | None,
    ) -> Factors:
        changes = [one for each in work for one in each.changes]
        size = len(self.joint_rate)
        remains = left or {}
        member = [
            self.walls[bar.section]
            * _share(changes, "wall", bar.family)
            * remains.get(bar.name, 1.0)
            for bar in built.bars
        ]
        steel = self.panel_share * self.panel_thickness / self.panel_thickness[0]
        glass = np.zeros(size) if panes is None else panes
        panel = [
            (glass if one.metal == "glass" else steel * remains.get(one.name, 1.0))
            * one.share
            * _share(changes, "sheet", one.family)
            for one in built.sheets
        ]
        joints = np.full((size, len(member)), _share(changes, "joint", ""))
        panels = np.stack(panel, axis=1) if panel else np.ones((size, 0))
        return Factors(member=np.stack(member, axis=1), joint=joints, panel=panels)

    def _sampled(
        self,
        case: str,
        work: tuple[Addition, ...],
        left: Mapping[str, Values] | None,
        panes: Values | None,
    ) -> Sampled:
        built = self.built(work)
        factors = self.factors(work, left=left, panes=panes)
        lost = ~np.isfinite(factors.joint[:, 0])
        factors = replace(factors, joint=np.where(lost[:, None], 1.0, factors.joint))
        load = built.cases[case]
        some = _rows(factors, _spread(factors.joint[:, 0]))
        basis = reduced_basis(elements=built.elements, factors=some, case=load)
        found = reduced_stiffness(basis=basis, factors=factors)
        return replace(found, stiffness=np.where(lost, np.nan, found.stiffness))

    def _joint_scale(self) -> Values:
        if self.known is None:
            return np.asarray(self.joint_rate / self.joint_rate[0])
        built = self.built()
        raw = self._raw_factors(built, (), None, None)
        some = _rows(raw, np.linspace(0, len(raw.member) - 1, FULL).round().astype(np.int64))
        scales = np.geomspace(1.0 / WIDEST, WIDEST, FULL)[:, None]
        some = replace(some, joint=some.joint * scales)
        basis = reduced_basis(elements=built.elements, factors=some, case=built.torsion)
        found: Values = joint_scale(basis=basis, factors=raw, stiffness=self.known)
        if not np.isfinite(found[0]):
            raise MissingInput(
                self.known_path,
                "no joint rate gives the frame model this stiffness; measure the sections' walls "
                "under car.structure.frame_model, or take another template",
            )
        return found

    def _size_effect(self) -> Values:
        tape, step = self._nominal_tape(), 1.02
        factors = _row(self.factors(), 0)

        def stiffness(
            sized: Mapping[str, float], held: float = float(self.warping_held[0])
        ) -> float:
            built = self._build(sized, (), held)
            return solve(elements=built.elements, factors=factors, case=built.torsion).stiffness

        base, effect = stiffness(tape), np.ones_like(self.joint_rate)
        held = self.warping_held
        if any(is_open(self.sizes[bar.section]) for bar in self.bars) and np.ptp(held) > 0.0:
            some = np.linspace(held.min(), held.max(), HELD)
            logs = np.log([stiffness(tape, one) / base for one in some])
            effect = effect * np.exp(np.interp(held, some, logs))
        for name, values in self.tape.items():
            if np.ptp(values) > 0.0:
                longer = stiffness({**tape, name: tape[name] * step})
                power = np.log(longer / base) / np.log(step)
                effect = effect * (values / values[0]) ** power
        return effect


SOLVED: WeakKeyDictionary[ShellModel, dict[tuple[object, ...], object]] = WeakKeyDictionary()
"""What was solved for each model, beside it and not in it: a model is its inputs alone."""


def rust_left(
    model: ShellModel, grades: Mapping[str, Values], odds: Mapping[str, tuple[float, float, float]]
) -> dict[str, Values]:
    """Return what rust leaves of each member and panel: nominal by odds, samples as drawn.

    A part that lies in several zones keeps their mean; one in no zone that was surveyed keeps all.
    """
    table = np.array(RUST_LEAVES)
    found = {}
    parts: tuple[Bar | Sheet, ...] = (*model.bars, *model.sheets)
    for one in parts:
        kept = []
        for zone in one.zones:
            if zone in grades:
                drawn = table[grades[zone][1:].astype(np.int64)]
                kept.append(np.concatenate([[float(table @ np.asarray(odds[zone]))], drawn]))
        if kept:
            found[one.name] = np.mean(kept, axis=0)
    return found


def template_bars(template: str, without: tuple[str, ...]) -> tuple[Bar, ...]:
    """Return a template's members but for those named, with or without their side."""
    return tuple(one for one in bars(template) if not {one.name, one.family} & set(without))


def template_sheets(template: str, without: tuple[str, ...]) -> tuple[Sheet, ...]:
    """Return a template's panels but for those named, with or without their side."""
    return tuple(one for one in sheets(template) if not {one.name, one.family} & set(without))


def _panels(every: tuple[Sheet, ...], names: tuple[str, ...], thickness: float) -> Panels:
    corners = [[place_number(one, names) for one in sheet.corners] for sheet in every]
    glass = np.array([sheet.metal == "glass" for sheet in every], dtype=bool)
    return Panels(
        names=tuple(sheet.name for sheet in every),
        corners=np.array(corners, dtype=np.int64).reshape(-1, 4),
        thickness=np.where(glass, 0.005, thickness),
        shear_modulus=np.where(glass, GLASS_SHEAR, STEEL_SHEAR),
        density=np.where(glass, GLASS_DENSITY, STEEL_DENSITY),
    )


def _cases(frame: Frame, template: str) -> dict[str, Case]:
    case = frame_case(template)
    front = (f"{case.front} left", f"{case.front} right")
    rear = (f"{case.rear} left", f"{case.rear} right")
    loaded = side_names(case.loaded, frozenset(frame.nodes))
    return {
        "torsion": torsion_case(frame=frame, front=front, centre=case.centre, rear=rear),
        "bending": bending_case(frame=frame, front=front, rear=rear, loaded=loaded),
        "spread": spread_case(frame=frame, front=front, rear=rear),
    }


def _share(changes: list[Change], action: str, family: str) -> float:
    every = (one.share for one in changes if one.action == action and one.target == family)
    return float(prod(every))


def _spread(joint: Values) -> np.ndarray[tuple[int], np.dtype[np.int64]]:
    """Return the nominal sample and others spread evenly over the joint rates, ends included."""
    order = np.argsort(joint)
    places = order[np.linspace(0, len(order) - 1, FULL - 1).round().astype(np.int64)]
    return np.array(sorted({0, *(int(one) for one in places)}))


def _rows(factors: Factors, rows: np.ndarray[tuple[int], np.dtype[np.int64]]) -> Factors:
    return Factors(
        member=factors.member[rows], joint=factors.joint[rows], panel=factors.panel[rows]
    )


def _row(factors: Factors, row: int) -> Factors:
    return Factors(member=factors.member[row], joint=factors.joint[row], panel=factors.panel[row])
