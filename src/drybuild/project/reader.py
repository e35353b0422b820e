"""What reading a file needs at hand: the list of problems, the currency, nearest names."""

from __future__ import annotations

import difflib
from collections.abc import Iterable
from dataclasses import dataclass, field

from drybuild.errors import Problem
from drybuild.project.document import Where


@dataclass
class Reader:
    """Collects what is wrong while a build file is read; nothing here raises."""

    problems: list[Problem] = field(default_factory=list)
    currency: str | None = None
    currency_where: Where | None = None

    def problem(self, code: str, where: Where, field: str, wrong: str, mend: str) -> None:
        """Add one problem."""
        self.problems.append(
            Problem(
                code=code, file=where.file, line=where.line, field=field, wrong=wrong, mend=mend
            )
        )

    def see_currency(self, code: str, where: Where, field: str) -> None:
        """Note the currency of a price; one build has one."""
        if self.currency is None:
            self.currency, self.currency_where = code, where
        elif code != self.currency and self.currency_where:
            first = self.currency_where
            self.problem(
                "two-currencies",
                where,
                field,
                f"{code} stands here, {self.currency} at {first.file.name}:{first.line}",
                f"Use one currency in a build; write this price in {self.currency}.",
            )


def nearest(name: str, known: Iterable[str]) -> str:
    """Return a hint that names the nearest known names, or lists a few, or nothing."""
    names = sorted(known)
    close = difflib.get_close_matches(name, names, n=3, cutoff=0.6)
    if close:
        return "Did you mean " + " or ".join(f'"{one}"' for one in close) + "?"
    if not names:
        return "No name is known here; leave it out."
    shown = ", ".join(names[:12]) + (", ..." if len(names) > 12 else "")
    return f"Known names here: {shown}."
