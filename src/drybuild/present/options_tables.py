"""What remains possible, why not, and the shortlist, for the terminal and as JSON."""

from __future__ import annotations

from typing import Any

from rich.table import Table
from rich.text import Text

from drybuild.options.chooser import Chooser, Completion, Conflict, State
from drybuild.options.network import Table as Rule
from drybuild.options.reasons import Explanation
from drybuild.options.shortlist import Shortlist
from drybuild.present.numbers import as_text, with_band
from drybuild.quantities.graph import Evaluation

WEEK = 7 * 24 * 3600.0


def count_text(total: int | None) -> str:
    """Return how many complete builds remain, in figures that can be read at a glance."""
    if total is None:
        return "More complete builds than can be counted here"
    if total == 1:
        return "1 complete build"
    if total < 10**6:
        return f"{as_text(float(total)) if total > 9999 else total} complete builds"
    power = len(str(total)) - 1
    return f"{total / 10**power:.2f} × 10^{power} complete builds ({total} exactly)"


def reason_text(reason: Explanation) -> str:
    """Return why an option is out: the picks it clashes with, and what the rules say."""
    others = [f"{system}: {option}" for system, option in reason.picks[:-1]]
    told = "; ".join(reason.sentences())
    return f"{told} (with {', '.join(others)})" if others else told


def state_table(chooser: Chooser, state: State, picks: dict[str, str]) -> Table:
    """Return every system with a choice: what is picked, possible and out, and why."""
    table = Table(title=f"Choices of {chooser.build.name}", title_justify="left")
    for column in ("system", "option", "stands", "builds", "why not, or what it rules out"):
        table.add_column(column, overflow="fold", justify="right" if column == "builds" else "left")
    for system, options in chooser.network.options.items():
        table.add_section()
        for place, option in enumerate(options):
            possible = option in state.possible.get(system, ())
            name = Text(system if place == 0 else "", style="bold")
            count = state.counts.get(system, {}).get(option)
            table.add_row(
                name,
                option,
                _standing(picks.get(system) == option, possible),
                "" if count is None else _short(count),
                _told(state, system, option),
            )
    return table


def _standing(picked: bool, possible: bool) -> Text:
    if picked:
        return Text("● picked" if possible else "● picked, cannot stand", style="bold")
    return Text("○ possible") if possible else Text("✗ out", style="red")


def _short(count: int) -> str:
    return str(count) if count < 10**6 else f"{count:.2e}"


def _told(state: State, system: str, option: str) -> str:
    reason = state.reasons.get((system, option))
    if reason:
        return reason_text(reason)
    gone = state.rules_out.get((system, option), ())
    if not gone:
        return ""
    named = ", ".join(f"{other}: {name}" for other, name in gone[:4])
    more = f" and {len(gone) - 4} more" if len(gone) > 4 else ""
    return f"rules out {named}{more}"


def conflict_lines(conflict: Conflict) -> list[str]:
    """Return why the picks cannot be had together, and the smallest ways out."""
    picks = ", ".join(f"{system}: {option}" for system, option in conflict.explanation.picks)
    lines = [f"These picks cannot be had together: {picks}."]
    lines += [f"  because {told}" for told in conflict.explanation.sentences()]
    lines += [
        "  a way out: give up " + " and ".join(_named(one) for one in way)
        for way in conflict.ways_out[:3]
    ]
    return lines


def _named(one: tuple[str, str] | Rule) -> str:
    if isinstance(one, Rule):
        return f"the line {one.id}"
    return f"{one[0]}: {one[1]}"


def decide_lines(state: State, most: int = 5) -> list[str]:
    """Return which open systems narrow the rest most."""
    return [
        f"{place}. {one.system}: leaves {one.expected:.3g} builds on average "
        f"({one.bits:.1f} halvings)"
        for place, one in enumerate(state.decide_first[:most], start=1)
    ]


def completion_line(by: str, found: Completion | None, currency: str) -> str:
    """Return the cheapest, lightest or soonest completion in a line."""
    words = {"price": "cheapest", "mass": "lightest", "lead_time": "soonest"}
    if found is None:
        return f"The {words[by]} completion: none"
    if by == "price":
        total = f"{as_text(found.total)} {currency}"
    elif by == "mass":
        total = f"{as_text(found.total)} kg of parts"
    else:
        total = f"{found.total / WEEK:.0f} weeks to the last delivery"
    unknown = f", {len(found.unknown)} options do not say" if found.unknown else ""
    return f"The {words[by]} completion: {total}{unknown}"


def shortlist_table(shortlist: Shortlist, evaluation: Evaluation, common: dict[str, str]) -> Table:
    """Return the shortlist: what each build reaches, and where it differs from the picks."""
    table = Table(title="Shortlist: proven by every check, unbeaten so far", title_justify="left")
    table.add_column("#", justify="right")
    names = list(shortlist.listed[0].values) if shortlist.listed else []
    for name in names:
        table.add_column(evaluation.graph.quantities[name].label, overflow="fold")
    table.add_column("picks", overflow="fold")
    build = evaluation.build
    for place, one in enumerate(shortlist.listed, start=1):
        cells = []
        for name in names:
            quantity = evaluation.graph.quantities[name]
            cells.append(
                with_band(
                    one.values[name], quantity.unit, quantity.shown, build.units, build.currency
                )
            )
        differs = [f"{s}: {o}" for s, o in one.build.items() if common.get(s) != o]
        table.add_row(str(place), *cells, "; ".join(differs) or "as picked")
    return table


def options_json(chooser: Chooser, state: State, picks: dict[str, str]) -> dict[str, Any]:
    """Return the state of the choices as JSON (free-form data)."""
    return {
        "build": chooser.build.name,
        "picks": picks,
        "complete_builds": state.total,
        "systems": {
            system: {
                option: {
                    "possible": option in state.possible.get(system, ()),
                    "complete_builds": state.counts.get(system, {}).get(option),
                    "why_not": reason_text(state.reasons[system, option])
                    if (system, option) in state.reasons
                    else None,
                    "rules_out": [list(one) for one in state.rules_out.get((system, option), ())],
                }
                for option in options
            }
            for system, options in chooser.network.options.items()
        },
        "decide_first": [
            {"system": one.system, "expected_builds": one.expected, "bits": one.bits}
            for one in state.decide_first
        ],
        "forced": dict(state.forced),
        "not_tabulated": [check.id for check in chooser.tabulated.wide],
        "nothing_reaches": [table.id for table in chooser.tabulated.hopeless],
    }
