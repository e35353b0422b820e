"""Tables and paragraphs for the terminal."""

from __future__ import annotations

from rich.console import Group
from rich.table import Table
from rich.text import Text

from drybuild.checks.verdicts import State, Verdict
from drybuild.present.as_json import weakest_origin
from drybuild.present.numbers import as_text, date_text, in_unit, unit_for, with_band
from drybuild.quantities.graph import Evaluation, Result, summary
from drybuild.sources import source

MARKS = {
    State.GOOD: ("✓ good", "green"),
    State.TIGHT: ("≈ tight", "yellow"),
    State.OPEN: ("? open", "cyan"),
    State.FAILS: ("✗ fails", "bold red"),
}
"""A verdict is told by sign and word; colour only helps."""


def mark(state: State) -> Text:
    """Return a verdict's sign and word."""
    word, style = MARKS[state]
    return Text(word, style=style)


def quantities_table(results: dict[str, Result], evaluation: Evaluation) -> Table:
    """Return every quantity with its band, weakest origin and source."""
    table = Table(title=f"Quantities of {evaluation.build.name}", title_justify="left")
    for column in ("quantity", "value (5 to 95 %)", "rests on", "source"):
        table.add_column(column, overflow="fold")
    matter = ""
    for name, result in results.items():
        if result.quantity.matter != matter:
            matter = result.quantity.matter
            table.add_section()
            table.add_row(Text(matter, style="bold"))
        title = Text.assemble((name, "bold"), "\n", (result.quantity.label, "dim"))
        found = str(source(result.quantity.source))
        table.add_row(title, result_text(result, evaluation), _rests_on(result, evaluation), found)
    return table


def result_text(result: Result, evaluation: Evaluation) -> str:
    """Return a result in the person's units, one line a label, or what is missing."""
    if result.open:
        return "open: " + "; ".join(f"{one.path} ({one.why})" for one in result.missing[:2])
    build, one = evaluation.build, result.quantity
    lines = []
    for label, values in result.labelled().items():
        text = with_band(summary(values), one.unit, one.shown, build.units, build.currency)
        lines.append(f"{label}: {text}" if label else text)
    return "\n".join(lines)


def _rests_on(result: Result, evaluation: Evaluation) -> str:
    return "" if result.open else weakest_origin(result, evaluation)


def verdicts_table(
    verdicts: tuple[Verdict, ...], evaluation: Evaluation, *, everything: bool
) -> Table:
    """Return the verdicts, worst first; good ones only when asked for."""
    table = Table(title=f"Verdicts on {evaluation.build.name}", title_justify="left")
    table.add_column("verdict", no_wrap=True)
    table.add_column("question", overflow="fold", ratio=3)
    table.add_column("value", overflow="fold", ratio=2)
    table.add_column("limit", overflow="fold")
    table.add_column("sure", justify="right", no_wrap=True)
    for verdict in verdicts:
        if verdict.state is State.GOOD and not everything and not _must(verdict):
            continue
        question = Text.assemble(
            verdict.check.asks,
            " (advice)" if verdict.check.advice else "",
            "\n",
            (verdict.check.id, "dim"),
        )
        table.add_row(
            mark(verdict.state),
            question,
            value_text(verdict, evaluation),
            limit_text(verdict, evaluation),
            sure_text(verdict),
        )
    return table


def _must(verdict: Verdict) -> bool:
    return verdict.check.id.startswith("must.")


def value_text(verdict: Verdict, evaluation: Evaluation) -> str:
    """Return the value that decided, with its label, or what is missing."""
    worst = verdict.worst
    if worst is None:
        return "missing: " + "; ".join(f"{one.path}: {one.why}" for one in verdict.missing[:2])
    one = evaluation.graph.quantities[verdict.check.quantity]
    build = evaluation.build
    text = with_band(worst.value, one.unit, one.shown, build.units, build.currency)
    return f"{worst.label}: {text}" if worst.label else text


def limit_text(verdict: Verdict, evaluation: Evaluation) -> str:
    """Return the limit with its side."""
    worst = verdict.worst
    if worst is None:
        return ""
    one, build = evaluation.graph.quantities[verdict.check.quantity], evaluation.build
    sign = "≥" if worst.limit <= worst.value[0] - worst.margin + 1e-9 * abs(worst.limit) else "≤"
    if one.unit == "date":
        return f"{sign} {date_text(worst.limit)}"
    number = as_text(in_unit(worst.limit, one.unit, one.shown, build.units))
    unit = unit_for(one.shown, build.units, build.currency)
    return f"{sign} {number}" + ("" if unit == "-" else f" {unit}")


def sure_text(verdict: Verdict) -> str:
    """Return the probability that the check holds."""
    worst = verdict.worst
    if worst is None:
        return ""
    percent = worst.probability * 100.0
    if 0.0 < percent < 1.0:
        return "< 1 %"
    return "> 99 %" if 99.0 < percent < 100.0 else f"{percent:.0f} %"


def verdict_summary(verdicts: tuple[Verdict, ...]) -> Text:
    """Return how many verdicts are in each state, advice apart."""
    told = Text()
    for state in State:
        count = sum(one.state is state and not one.check.advice for one in verdicts)
        word, style = MARKS[state]
        told.append(f"{word.split()[0]} {count} {state}   ", style=style)
    poor = sum(one.state in (State.FAILS, State.TIGHT) and one.check.advice for one in verdicts)
    told.append(f"advice to heed: {poor}")
    return told


def verdict_lines(verdict: Verdict, evaluation: Evaluation) -> Group:
    """Return one verdict explained: numbers, source, readings, doubt, caution, mend."""
    check = verdict.check
    lines: list[Text | Table] = [
        Text.assemble(mark(verdict.state), "  ", (check.asks, "bold"), f"   {check.id}"),
        Text(f"{value_text(verdict, evaluation)}, wanted {limit_text(verdict, evaluation)}"),
        Text(
            f"Sure: {sure_text(verdict) or 'cannot be said'}. Limit from: {source(check.source)}."
        ),
    ]
    for one in verdict.judged[1:]:
        quantity = evaluation.graph.quantities[check.quantity]
        text = with_band(
            one.value,
            quantity.unit,
            quantity.shown,
            evaluation.build.units,
            evaluation.build.currency,
        )
        lines.append(Text(f"  {one.label}: {text}, {one.state}"))
    if verdict.doubts:
        lines.append(Text("The doubt comes from:"))
        for doubt in verdict.doubts:
            reading = evaluation.readings[doubt.path]
            lines.append(
                Text(
                    f"  {doubt.share * 100:.0f} %  {doubt.path} = {reading.text} ({reading.origin})"
                )
            )
    lines.append(Text("How it was found:"))
    lines += [Text(f"  {line}") for line in derivation(check.quantity, evaluation)]
    lines.append(Text(f"What helps: {check.mend}"))
    if check.caution:
        lines.append(Text(f"Caution: {check.caution}", style="yellow"))
    return Group(*lines)


def derivation(name: str, evaluation: Evaluation, depth: int = 3) -> list[str]:
    """Return how a quantity was found: it, what it needs, and what those need, with values."""
    lines: list[str] = []
    seen: set[str] = set()

    def tell(one: str, level: int) -> None:
        if one in seen or level > depth or one not in evaluation.graph.quantities:
            return
        seen.add(one)
        result = evaluation.result(one)
        quantity = result.quantity
        if not quantity.step:
            text = result_text(result, evaluation).replace("\n", "; ")
            lines.append(f"{'  ' * level}{quantity.label} = {text} [{source(quantity.source)}]")
        for need in quantity.needs:
            tell(need, level + (0 if quantity.step else 1))

    tell(name, 0)
    return lines
