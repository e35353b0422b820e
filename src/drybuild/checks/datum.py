"""Whether the shell is straight, square and level, and whether the readings can be believed."""

from __future__ import annotations

from drybuild.checks.check import Check
from drybuild.tables.datum import allowed

CAUTION = (
    "A bent or cut shell steers and brakes crooked: straightening and structural welding belong to "
    "a jig and to licensed practice. Stands rated for the load on firm ground; nobody in or under "
    "the car while it is measured on its supports."
)
MEND = (
    "Measure the worst again before anything else. If it stands, brace the shell and have it set "
    "on a jig before anything is welded into it."
)


def _within(name: str, asks: str, quantity: str, what: str, mend: str = MEND) -> Check:
    limit = f"{allowed(what) * 1e3:g} mm"
    return Check(
        id=f"datum.{name}",
        asks=asks,
        quantity=quantity,
        at_least=f"-{limit}",
        at_most=limit,
        caution=CAUTION,
        mend=mend,
    )


CHECKS = (
    Check(
        id="datum.readings",
        asks="Do all lengths of the datum sheet fit together?",
        quantity="datum_misfit",
        at_most="3.29",
        source="baarda-snooping",
        caution=CAUTION,
        mend="Measure the length with the largest misfit again, and those that share its points.",
        advice=True,
    ),
    _within("square", "Does each pair of points stand square?", "datum_square", "square"),
    _within("diagonals", "Are the diagonals of each field alike?", "datum_diagonals", "diagonals"),
    _within("sideways", "Is the shell straight seen from above?", "datum_sideways", "sideways"),
    _within("twist", "Is the shell free of twist?", "datum_twist", "twist"),
    _within(
        "sag",
        "Are the sills straight from end to end?",
        "datum_sag",
        "sag",
        "Prop the middle to its line, brace the door openings, and only then cut or weld.",
    ),
    _within("wheelbase", "Is the wheelbase alike on both sides?", "datum_wheelbase", "wheelbase"),
    _within(
        "openings",
        "Are the openings' diagonals alike?",
        "datum_openings",
        "opening",
        "Hang the door and look where the gap closes; support the shell there before welding.",
    ),
)
