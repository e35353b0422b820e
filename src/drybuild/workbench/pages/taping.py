"""Where to put the tape in the bay: drawings whose numbers lead to entries; drawn when asked."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from weakref import WeakKeyDictionary

from drybuild.session import Session
from drybuild.workbench.apart import apart, ready
from drybuild.workbench.desk import Desk
from drybuild.workbench.places import shown_at


@dataclass(frozen=True, kw_only=True)
class Row:
    """One reading of the sheet."""

    number: int
    what: str
    """From where to where."""
    value: str
    tells: str
    to: str
    """Where its entry is."""


@dataclass(frozen=True, kw_only=True)
class BaySheet:
    """What is to be measured in the bay, those readings first that would settle most."""

    drawings: tuple[tuple[str, str], ...] = ()
    """By title."""
    rows: tuple[Row, ...] = ()
    numbers: Mapping[str, tuple[int, ...]]
    """The numbers of each entry, by its path."""

    def __bool__(self) -> bool:
        """Whether there is anything to measure."""
        return bool(self.rows)


_SHEETS: WeakKeyDictionary[Desk, tuple[int, bool, BaySheet]] = WeakKeyDictionary()
"""The sheet of a version of the build that was shown, and whether its verdicts had settled."""


def bay_sheet(desk: Desk) -> BaySheet | None:
    """Return the sheet of the build as it is shown; nothing while it is not drawn."""
    version, settled, sheet = _SHEETS.get(desk, (0, False, None))
    return sheet if (version, settled) == (desk.version, desk.settled) else None


def draw_bay(desk: Desk) -> None:
    """Draw the sheet, unless it is there."""
    if not ready(desk) or bay_sheet(desk) is not None:
        return
    version, settled = desk.version, desk.settled
    with apart(desk, queued=True) as session:
        _SHEETS[desk] = (version, settled, _sheet(session))


def _sheet(session: Session) -> BaySheet:
    from drybuild.book.tape import tapes, tells  # noqa: PLC0415  the first page draws nothing
    from drybuild.present.packaging_tape_drawing import tape_drawings  # noqa: PLC0415  likewise
    from drybuild.present.packaging_views import bay_scene_of, empty_bay_of  # noqa: PLC0415

    scene = bay_scene_of(session.evaluation) or empty_bay_of(session.evaluation)
    found = tapes(session) if scene is not None else ()
    if scene is None or not found:
        return BaySheet(numbers={})
    links = {one.path: shown_at(session.build, one.path) for one in found}
    rows = tuple(
        Row(
            number=number,
            what=one.what,
            value=f"{one.value} ({one.band})" if one.band else one.value,
            tells=tells(one),
            to=links[one.path],
        )
        for number, one in enumerate(found, start=1)
    )
    numbers: dict[str, tuple[int, ...]] = {}
    for number, one in enumerate(found, start=1):
        path = one.path.partition("[")[0]
        numbers[path] = (*numbers.get(path, ()), number)
    drawings = tuple(tape_drawings(scene, found, links).items())
    return BaySheet(drawings=drawings, rows=rows, numbers=numbers)
