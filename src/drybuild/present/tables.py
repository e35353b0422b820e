"""Tables and paragraphs for the terminal."""

from __future__ import annotations

from rich.console import Group
from rich.table import Table
from rich.text import Text

from drybuild.checks.verdicts import State, Verdict
from drybuild.present.as_json import weakest_origin
from drybuild.present.derivations import derivation
from drybuild.present.numbers import with_band
from drybuild.present.quantity_texts import result_text
from drybuild.present.verdict_texts import limit_text, sure_text, value_text
from drybuild.quantities.graph import Evaluation, Result
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
