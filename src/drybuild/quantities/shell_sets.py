"""Which measures together stiffen this body most for their mass or money, each set solved anew."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np

from drybuild.physics.frame.assembly import Factors
from drybuild.physics.frame.best_set import BestSet, best_set
from drybuild.physics.frame.solve import solve
from drybuild.project.option import Option
from drybuild.project.readings import Reading
from drybuild.quantities.shell_families import added_mass
from drybuild.quantities.shell_model import Addition, ShellModel

Prices = dict[str, float]
ABSENT = 1e-9
"""What an addition that is not taken has of its stiffness, so that its nodes hang on something."""


@dataclass(frozen=True, kw_only=True)
class Chosen:
    """The best set within a limit."""

    names: tuple[str, ...]
    gain: float
    """Torsional stiffness gained over the body's, nominal."""
    mass: float
    price: float | None
    solved: int
    """Sets that were solved for it."""
    allowed: int
    """Sets there are within the limit: those not solved are proven to be no better."""


class Sets:
    """The nominal body with every candidate in it, of which each can be there or not."""

    def __init__(self, model: ShellModel, candidates: Mapping[str, Addition]) -> None:
        self.names = tuple(candidates)
        self.model = model
        works = tuple(candidates.values())
        self.built = model.built(works)
        self.mass = [added_mass(model, one) for one in works]
        self.factors = [self._factors(model, works, {number}) for number in range(len(works))]
        self.bare = self._factors(model, works, set())
        self.rivals = _rivals(works)
        self._known: dict[frozenset[int], float] = {}

    def stiffness(self, chosen: frozenset[int]) -> float:
        """Return the torsional stiffness with some of the candidates; solved once for each set."""
        if chosen not in self._known:
            self._known[chosen] = self._solved(chosen)
        return self._known[chosen]

    def _solved(self, chosen: frozenset[int]) -> float:
        parts = [self.factors[one] for one in sorted(chosen)]
        factors = Factors(
            member=np.max([self.bare.member, *(one.member for one in parts)], axis=0),
            joint=np.max([self.bare.joint, *(one.joint for one in parts)], axis=0),
            panel=np.max([self.bare.panel, *(one.panel for one in parts)], axis=0)
            if len(self.bare.panel)
            else self.bare.panel,
        )
        return solve(
            elements=self.built.elements, factors=factors, case=self.built.torsion
        ).stiffness

    def best(
        self,
        mass: float | None = None,
        money: float | None = None,
        prices: Mapping[str, float] | None = None,
    ) -> Chosen:
        """Return the stiffest set within a mass, a price, or both; what has no price is left out.

        Parameters
        ----------
        mass : float, optional
            Steel that may be added. [kg]
        money : float, optional
            What may be spent. [money]
        prices : mapping, optional
            Price by name. [money]

        """
        known = prices or {}
        costs = [known.get(name, np.inf) for name in self.names]
        columns, limits = [], []
        if mass is not None:
            columns.append(self.mass)
            limits.append(mass)
        if money is not None:
            columns.append(costs)
            limits.append(money)
        found: BestSet = best_set(
            stiffness=self.stiffness,
            weights=np.array(columns, dtype=np.float64).T.reshape(len(self.names), len(limits)),
            limits=np.array(limits),
            rivals=self.rivals,
        )
        names = tuple(self.names[one] for one in found.chosen)
        priced = all(name in known for name in names)
        return Chosen(
            names=names,
            gain=found.stiffness / self.stiffness(frozenset()) - 1.0,
            mass=sum(self.mass[one] for one in found.chosen),
            price=sum(known[name] for name in names) if priced else None,
            solved=found.solved,
            allowed=found.allowed,
        )

    def _factors(self, model: ShellModel, works: tuple[Addition, ...], taken: set[int]) -> Factors:
        """Return the factors with some candidates there: none of the changes of the others."""
        there = tuple(one for number, one in enumerate(works) if number in taken)
        plain = model.nominal_factors(self.built, there)
        places = np.cumsum([len(model.bars), *(len(one.bars) for one in works)])
        member = plain.member.copy()
        for number in range(len(works)):
            if number not in taken:
                member[places[number] : places[number + 1]] *= ABSENT
        return Factors(member=member, joint=plain.joint, panel=plain.panel)


def known_prices(options: Mapping[str, Option]) -> Prices:
    """Return what measures cost alone, by the kind that the frame model calls them.

    A measure's own price counts, and that of an option which is one measure and no more.
    """
    found: Prices = {}
    for option in options.values():
        whole, given = option.given.get("price"), option.given.get("measures")
        parts = given if isinstance(given, dict) else {}
        for name, one in parts.items():
            alone = one.given.get("price") or (whole if len(parts) == 1 else None)
            if isinstance(alone, Reading):
                found.setdefault(str(one.given.get("kind") or name), alone.value)
        if isinstance(whole, Reading) and not parts and option.given.get("gain") is None:
            found.setdefault(str(option.given.get("work") or ""), whole.value)
    return found


def _rivals(works: tuple[Addition, ...]) -> frozenset[frozenset[int]]:
    """Return pairs of which one brings nothing but members that the other brings too."""
    spans = [{frozenset((bar.start, bar.end)) for bar in one.bars} for one in works]
    return frozenset(
        frozenset({a, b})
        for a, one in enumerate(spans)
        for b, other in enumerate(spans)
        if a != b and one and one <= other
    )
