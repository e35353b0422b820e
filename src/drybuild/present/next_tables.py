"""What to do next, for the terminal and as JSON."""

from __future__ import annotations

from typing import Any

from rich.table import Table
from rich.text import Text

from drybuild.next_steps.step import Step
from drybuild.present.numbers import date_text
from drybuild.present.schedule_tables import money_text


def steps_table(steps: tuple[Step, ...], currency: str, most: int) -> Table:
    """Return the steps, the most rewarding an hour first."""
    table = Table(title="Next steps, by what they are worth an hour", title_justify="left")
    for column in ("#", "do", "worth", "effort", "how, and what it settles"):
        table.add_column(column, overflow="fold")
    for place, one in enumerate(steps[:most], start=1):
        title = Text.assemble((f"{one.act}: ", "bold"), one.what, "\n", (one.about, "dim"))
        table.add_row(str(place), title, worth_text(one, currency), effort_text(one), how_text(one))
    return table


def worth_text(one: Step, currency: str) -> str:
    """Return what a step saves: money, weeks, money set free; and its last safe day."""
    told = []
    if one.worth >= 1.0:
        told.append(money_text(one.worth, currency))
    if one.frees >= 1.0:
        told.append(f"frees {money_text(one.frees, currency)}")
    if one.weeks >= 0.05:
        told.append(f"{one.weeks:.1f} weeks")
    if one.by is not None:
        told.append(f"by {date_text(one.by)}")
    return "\n".join(told)


def effort_text(one: Step) -> str:
    """Return how long a step takes."""
    if one.minutes <= 0.0:
        return ""
    return f"{one.minutes:.0f} min" if one.minutes < 120.0 else f"{one.minutes / 60.0:.0f} h"


def how_text(one: Step) -> str:
    """Return how it is done, with its caution, and the checks that it makes surer."""
    told = []
    if one.how is not None:
        told.append(f"{one.how.method} ({one.how.tool})" if one.how.tool else one.how.method)
        if one.how.caution:
            told.append(f"Caution: {one.how.caution}")
    if one.helps:
        named = ", ".join(f"{help_.check} {help_.share * 100:.0f} %" for help_ in one.helps[:3])
        told.append(f"settles {named}")
    return "\n".join(told)


def steps_json(steps: tuple[Step, ...], currency: str) -> dict[str, Any]:
    """Return the steps as JSON (free-form data)."""
    return {
        "currency": currency,
        "steps": [
            {
                "act": str(one.act),
                "about": one.about,
                "what": one.what,
                "worth": one.worth,
                "frees": one.frees,
                "weeks": one.weeks,
                "minutes": one.minutes,
                "by": None if one.by is None else date_text(one.by),
                "helps": [{"check": help_.check, "share": help_.share} for help_ in one.helps],
                "how": one.how and vars(one.how),
                "score": one.score,
            }
            for one in steps
        ],
    }
