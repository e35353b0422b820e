"""Entries about time: which days of the week count, spans with other hours, dates by name."""

from __future__ import annotations

import datetime
import re
from dataclasses import dataclass
from typing import Any

from drybuild.errors import UnitError
from drybuild.project.document import Listing, Mapping, Node, Scalar
from drybuild.project.fields import DateField
from drybuild.project.groups import SharesField
from drybuild.project.reader import Reader
from drybuild.project.readings import parse_reading
from drybuild.project.sections import Field, Section, describe, is_empty, unknown_entry

DAYS = ("monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday")
_SPAN = re.compile(r"^(?P<first>\S+)(?:\s+to\s+(?P<last>\S+))?(?:\s+at\s+(?P<hours>.+))?$")
SPAN_EXAMPLE = "2027-07-12 to 2027-08-01"


class WeekdaysField(SharesField):
    """Weights by day of the week."""

    kind = "weights by weekday"

    def __init__(self, words: str) -> None:
        super().__init__(words, total=None)

    def read(self, node: Node, path: str, reader: Reader) -> dict[str, float] | None:
        """Return the weights of the days that exist."""
        for name, entry in node.entries.items() if isinstance(node, Mapping) else ():
            if name not in DAYS:
                unknown_entry(reader, entry, f"{path}.{name}", DAYS)
        found = super().read(node, path, reader)
        kept = {day: weight for day, weight in (found or {}).items() if day in DAYS}
        if sum(kept.values()) > 0.0:
            return kept
        if kept:
            reader.problem(
                "no-weekday",
                node.where,
                path,
                "every day has the weight 0, so that no work would ever be done",
                "Give at least one day a weight above 0, or leave the whole entry out.",
            )
        return None


@dataclass(frozen=True, kw_only=True)
class WeeksOff:
    """A span of days with other hours a week than usual."""

    first: datetime.date
    last: datetime.date
    hours: float
    """Hours a week in that span, in seconds; 0 for a holiday."""


class WeeksOffField(Field[tuple[WeeksOff, ...]]):
    """A list of spans: ``2027-07-12 to 2027-08-01``, ``2027-12-20 to 2028-01-02 at 20 h``."""

    kind = "list of spans"

    def read(self, node: Node, path: str, reader: Reader) -> tuple[WeeksOff, ...] | None:
        """Return the spans that read well."""
        if is_empty(node):
            return None
        items = node.items if isinstance(node, Listing) else (node,)
        found = [self._span(item, f"{path}[{k}]", reader) for k, item in enumerate(items)]
        return tuple(span for span in found if span)

    def _span(self, node: Node, path: str, reader: Reader) -> WeeksOff | None:
        typed = node.value if isinstance(node, Scalar) and node.value else ""
        match = _SPAN.match(typed.strip())
        try:
            first = datetime.date.fromisoformat(match["first"] if match else "")
            last = datetime.date.fromisoformat((match and match["last"]) or first.isoformat())
            hours = parse_reading(match["hours"], "s").value if match and match["hours"] else 0.0
        except (ValueError, UnitError):
            first, last, hours = datetime.date.max, datetime.date.min, 0.0
        if first <= last and hours >= 0.0:
            return WeeksOff(first=first, last=last, hours=hours)
        reader.problem(
            "span-unreadable",
            node.where,
            path,
            f"{describe(node)} is no span of days",
            f'Write the first and the last day, as "{SPAN_EXAMPLE}", with "at 20 h" behind it for '
            "other hours a week.",
        )
        return None

    def take(self, section: Section) -> tuple[WeeksOff, ...]:
        """Return the spans; none when not given."""
        section.bench.note(section.path_of(self.name))
        given = section.given.get(self.name)
        return given if isinstance(given, tuple) else ()

    def schema(self) -> dict[str, Any]:  # JSON Schema is free-form JSON
        """Return the JSON Schema."""
        return {"description": self.words, "type": ["array", "null"], "items": {"type": "string"}}


class DatesField(Field[dict[str, datetime.date]]):
    """Dates by name: ``{engine: 2027-02-01}``."""

    kind = "dates by name"

    def read(self, node: Node, path: str, reader: Reader) -> dict[str, datetime.date] | None:
        """Return the dates that read well."""
        if is_empty(node):
            return None
        if not isinstance(node, Mapping):
            reader.problem(
                "mapping-wanted",
                node.where,
                path,
                f"this is {describe(node)}, but dates by name belong here",
                'Write it as "{engine: 2027-02-01}".',
            )
            return None
        one = DateField(self.words)
        read = {
            name: one.read(entry.node, f"{path}.{name}", reader)
            for name, entry in node.entries.items()
        }
        return {name: day for name, day in read.items() if day}

    def take(self, section: Section) -> dict[str, datetime.date]:
        """Return the dates; none when not given."""
        section.bench.note(section.path_of(self.name))
        given = section.given.get(self.name)
        return given if isinstance(given, dict) else {}

    def schema(self) -> dict[str, Any]:  # JSON Schema is free-form JSON
        """Return the JSON Schema."""
        day = {"type": ["string", "null"], "format": "date"}
        return {
            "description": self.words,
            "type": ["object", "null"],
            "additionalProperties": day,
        }


weekdays = WeekdaysField
weeks_off = WeeksOffField
dates = DatesField
