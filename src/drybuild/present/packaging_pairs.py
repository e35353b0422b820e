"""The pairs of an engine and what stands round it: gap, need, verdict, odds, where they meet."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Any

import numpy as np

from drybuild.checks.verdicts import Doubt, Judged, State, Verdict
from drybuild.physics.solids.sampled import SampledGap
from drybuild.present.numbers import in_units, unit_for, value_and_band
from drybuild.quantities.graph import Evaluation

CHECKS = ("packaging.bay", "packaging.bonnet", "packaging.gearbox", "packaging.radiator")
"""The checks that judge pairs, and the steps below them that hold the contacts."""
STEPS = {
    "packaging.bay": "bay_gaps",
    "packaging.bonnet": "bay_gaps",
    "packaging.gearbox": "gearbox_gaps",
    "packaging.radiator": "radiator_gaps",
}
BONNET = "bonnet"
FAR, SURELY = 0.10, 0.99
"""A pair with so much more room than it needs (m), and so surely, is counted and not listed."""


@dataclass(frozen=True, kw_only=True, eq=False)
class Pair:
    """One pair, judged."""

    name: str
    judged: Judged
    gap: SampledGap
    doubts: tuple[Doubt, ...] = ()

    @property
    def point(self) -> tuple[float, float, float]:
        """Return the point of the engine that comes nearest, in body axes (m)."""
        x, y, z = (float(v) for v in self.gap.nominal.at_moving)
        return x, y, z

    @property
    def where(self) -> str:
        """What of the engine comes nearest, and where the movements stand then."""
        one = self.gap.nominal
        parts = [one.piece] if one.piece != one.moving else [one.moving]
        if one.against not in (one.fixed, ""):
            parts.append(f"at {one.against}")
        return ", ".join([*parts, *([one.position] if one.position else [])])


def pairs_of(verdicts: Iterable[Verdict], gaps: Mapping[str, Any]) -> tuple[Pair, ...]:
    """Return every judged pair, the worst first.

    Parameters
    ----------
    verdicts : iterable of Verdict
        The session's verdicts.
    gaps : mapping
        Values of the steps `bay_gaps` and `gearbox_gaps` by their name; None while open.

    """
    found = []
    for verdict in verdicts:
        step = STEPS.get(verdict.check.id)
        contacts = gaps.get(step) if step else None
        if not contacts:
            continue
        for judged in verdict.judged:
            name = judged.label or BONNET
            if name in contacts:
                who = "gearbox to " if verdict.check.id == "packaging.gearbox" else ""
                found.append(Pair(name=who + name, judged=judged, gap=contacts[name]))
    order = list(State)
    return tuple(sorted(found, key=lambda one: (-order.index(one.judged.state), one.judged.margin)))


def judged_pairs(evaluation: Evaluation, verdicts: Iterable[Verdict]) -> tuple[Pair, ...]:
    """Return every judged pair of a build, the worst first; none while engine or bay is open."""
    gaps = {name: evaluation.result(name).value for name in dict.fromkeys(STEPS.values())}
    return pairs_of(verdicts, gaps)


def near(pairs: Iterable[Pair]) -> tuple[tuple[Pair, ...], int]:
    """Return the pairs worth a line, and how many others are surely far off."""
    kept, far = [], 0
    for one in pairs:
        if one.judged.margin > FAR and one.judged.probability > SURELY:
            far += 1
        else:
            kept.append(one)
    return tuple(kept), far


def pair_cells(pair: Pair, units: str, currency: str) -> tuple[str, ...]:
    """Return a pair as the cells of a table: against, gap, 5 to 95 %, needs, verdict, odds, where.

    Parameters
    ----------
    pair : Pair
        The pair.
    units : str
        The units that the person reads.
    currency : str
        The build's currency; lengths need none, the number's writer asks.

    """
    value, band = value_and_band(pair.judged.value, "m", "mm", units, currency)
    need = np.array(pair.judged.limit)
    x, y, z = (float(in_units(np.array(v), "m", "mm", units)) for v in pair.point)
    digits = 0 if units == "metric" else 1
    at = ", ".join(f"{v:.{digits}f}".replace("-", "−") for v in (x, y, z))
    unit = unit_for("mm", units, "")
    return (
        pair.name,
        value,
        band,
        f"{float(in_units(need, 'm', 'mm', units)):.{digits}f} {unit}",
        str(pair.judged.state),
        f"{pair.judged.probability:.0%}".replace("%", " %"),
        f"{pair.where}; at {at}",
    )


def pair_json(pair: Pair) -> dict[str, Any]:  # JSON is free-form
    """Return a pair for other programs: lengths in metres, body axes."""
    low, high = pair.judged.value[1:]
    one = pair.gap.nominal
    return {
        "pair": pair.name,
        "gap": pair.judged.value[0],
        "low": low,
        "high": high,
        "needed": pair.judged.limit,
        "state": str(pair.judged.state),
        "probability": pair.judged.probability,
        "part": one.piece,
        "against": one.against,
        "position": one.position,
        "point on the engine": [float(v) for v in one.at_moving],
        "point against": [float(v) for v in one.at_fixed],
        "way out": [float(v) for v in one.normal],
    }
