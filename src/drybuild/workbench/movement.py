"""What the last change moved: the headline figures before it and after it, with their spreads."""

from __future__ import annotations

from weakref import WeakKeyDictionary

from drybuild.present.what_moved import Moved, moved_figures
from drybuild.quantities.graph import Result
from drybuild.workbench.desk import Desk

HEADLINE = (
    "kerb_mass",
    "zero_to_100_kmh",
    "top_speed",
    "stopping_distance_100_kmh",
    "pedal_force_at_0_9g",
    "cornering_limit",
    "shell_torsional_stiffness",
    "rust_repair_hours",
    "total_cost",
    "finish_date",
)
"""The figures that tell most of a car."""
BESIDES = ("shell_state_torsion", "shell_state_bending")
"""What a finding moves too; told where it was worked out before and after."""

_BEFORE: WeakKeyDictionary[Desk, tuple[int, dict[str, Result]]] = WeakKeyDictionary()
"""The version before the last change from a page, and what its figures were."""


def remember(desk: Desk) -> None:
    """Keep what the figures are before a change, once they are settled."""
    with desk.lock:
        if desk.settled:
            _BEFORE[desk] = (desk.version, _headline(desk))


def changed_figures(desk: Desk) -> tuple[Moved, ...]:
    """Return the headline figures that the last change moved by more than their noise."""
    version, before = _BEFORE.get(desk, (desk.version, {}))
    if not desk.settled or version == desk.version:
        return ()
    return moved_figures(before, _headline(desk), desk.build, (*HEADLINE, *BESIDES))


def _headline(desk: Desk) -> dict[str, Result]:
    evaluation, picks = desk.session.evaluation, desk.build.assumed_picks()
    found = {name: evaluation.result(name) for name in HEADLINE}
    known = {name: evaluation.memory.get(evaluation.key_of(name, picks)) for name in BESIDES}
    return found | {name: one for name, one in known.items() if one is not None}
