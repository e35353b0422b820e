"""``drybuild brakes``."""

from __future__ import annotations

from pathlib import Path

import click
from rich.text import Text

from drybuild.checks.brakes import CAUTION
from drybuild.cli.opening import (
    anyway_option,
    console,
    folder_argument,
    json_option,
    open_session,
    print_json,
    samples_option,
    stop_on_problems,
)
from drybuild.present import brakes_tables as tables
from drybuild.present.as_json import quantities_json, verdicts_json
from drybuild.present.brakes_sizing import unassisted_words
from drybuild.present.tables import quantities_table, verdicts_table


@click.command()
@folder_argument
@json_option
@samples_option
@anyway_option
@click.option("--sheet", is_flag=True, help="Also list every figure on the brakes.")
def command(folder: Path, *, as_json: bool, samples: int, anyway: bool, sheet: bool) -> None:
    """Judge the brakes and size them: bores, pistons, valve, and whether they do unassisted."""
    session = open_session(folder, samples)
    if not as_json:
        stop_on_problems(session, anyway=anyway)
    sizing, pistons, settings, unassisted, feel = (
        session.evaluation.result(name)
        for name in (
            "pedal_sizing", "piston_choices", "valve_settings", "unassisted_brakes", "pedal_feel"
        )
    )  # fmt: skip
    figures = {n: r for n, r in session.quantities.items() if r.quantity.matter == "brakes"}
    verdicts = tuple(one for one in session.verdicts if one.check.matter == "brakes")
    units = session.build.units
    if as_json:
        found = quantities_json(figures, session.evaluation, session.problems, units)
        found["verdicts"] = verdicts_json(verdicts, session.evaluation, session.problems, units)[
            "verdicts"
        ]
        if not (sizing.open or pistons.open or settings.open):
            found["sizing"] = tables.sizing_json(
                sizing.value, feel.value.ratio, pistons.value, settings.value, unassisted.value
            )
        found["caution"] = CAUTION
        print_json(found, session.problems)
        return
    out = console()
    out.print(Text(CAUTION, style="bold"))
    out.print(verdicts_table(verdicts, session.evaluation, everything=True))
    if sheet:
        out.print(quantities_table(figures, session.evaluation))
    if sizing.open or pistons.open or settings.open:
        missing = {str(one.path) for r in (sizing, pistons, settings) for one in r.missing}
        out.print(f"No sizing yet; missing: {', '.join(sorted(missing))}")
        return
    bore = float(feel.value.bore[0])
    out.print(tables.as_table(tables.bore_rows(sizing.value, bore, feel.value.ratio, units)))
    for axle in ("front", "rear"):
        out.print(tables.as_table(tables.piston_rows(pistons.value, axle, units)))
    out.print(tables.as_table(tables.valve_rows(settings.value, units)))
    limits = session.evaluation.result("lining_temperature_limit")
    if not unassisted.open and not limits.open:
        out.print("Unassisted brakes with the largest disc that fits: will they do?", style="bold")
        out.print(Text(unassisted_words(unassisted.value, limits.value, units)))
