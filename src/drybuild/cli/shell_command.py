"""``drybuild shell``."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import click

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
from drybuild.errors import UnitError
from drybuild.present.as_json import quantity_json
from drybuild.present.shell_compare import shell_options
from drybuild.present.shell_drawing import shell_drawing, strain_words
from drybuild.present.shell_tables import (
    CASES,
    MEASURES,
    POINTS,
    STATES,
    labelled_table,
    options_tables,
    sets_table,
)
from drybuild.quantities.shell_mesh import frame_mesh
from drybuild.quantities.shell_sets import Chosen, Sets, known_prices
from drybuild.session import Session
from drybuild.units import MONEY, to_si

MASSES = ("5 kg", "15 kg", "30 kg")
"""Mass limits that are asked when none is given."""
CAUTION = (
    "Change against the original first: no stiffness on its own is sure. These sums size, they "
    "approve nothing; structural welding, belts and seats belong to licensed practice and local "
    "codes."
)
TOLD = (
    "shell_frame_torsion",
    "shell_frame_bending",
    "shell_state_torsion",
    "shell_state_bending",
    "shell_state_mode",
    "shell_frame_candidate_gain",
    "shell_frame_candidate_yield",
    "shell_frame_energy",
    "shell_frame_worth",
    "shell_frame_loss",
    "shell_case_stress",
    "shell_case_stress_ratio",
    "shell_torque_stress",
    "shell_weld_fatigue_use",
    "shell_belt_stress",
    "shell_hardpoint_stiffness",
    "shell_camber_given",
    "shell_toe_given",
    "shell_work_force",
)
"""Quantities that the JSON holds beside the options."""


@click.command()
@folder_argument
@json_option
@samples_option
@anyway_option
@click.option(
    "--mass", "masses", multiple=True, metavar="LIMIT", help='Steel a set may add: "15 kg".'
)
@click.option(
    "--money", "monies", multiple=True, metavar="LIMIT", help='What a set may cost: "900".'
)
@click.option(
    "--svg", type=click.Path(path_type=Path), help="Write the drawing of the strain here."
)
def command(
    folder: Path,
    *,
    as_json: bool,
    samples: int,
    anyway: bool,
    masses: tuple[str, ...],
    monies: tuple[str, ...],
    svg: Path | None,
) -> None:
    """Compare what can be done to the body: stiffness, mass, money, weeks, stress, best sets.

    Example: drybuild shell my-car --money "900 EUR" --svg strain.svg
    """
    session = open_session(folder, samples)
    if not as_json:
        stop_on_problems(session, anyway=anyway)
    picture = session.evaluation.result("shell_picture")
    if picture.open:
        lack = picture.missing[0]
        raise click.ClickException(f"the frame model is open: {lack.path}: {lack.why}")
    if svg is not None:
        svg.write_text(shell_drawing(picture.value), encoding="utf-8")
    sets = _best(session, masses, monies)
    if as_json:
        print_json(_json(session, sets), session.problems)
        return
    _print(session, sets)
    console().print(strain_words(picture.value) + ".")
    console().print(CAUTION)


def _best(
    session: Session, masses: tuple[str, ...], monies: tuple[str, ...]
) -> list[tuple[str, Chosen]]:
    """Return the best set for every limit that is asked for."""
    sets: Sets = session.evaluation.result("frame_sets").value
    prices = known_prices(session.build.options["shell"])
    found = []
    for text in masses or (() if monies else MASSES):
        found.append((text, sets.best(mass=_amount(text, "kg"), prices=prices)))
    for text in monies:
        found.append((text, sets.best(money=_amount(text, MONEY), prices=prices)))
    return found


def _amount(text: str, unit: str) -> float:
    """Return a limit in SI; a bare number is taken in the unit."""
    number, _, given = text.strip().partition(" ")
    try:
        value = float(number)
        return value if unit == MONEY else float(to_si(value, given or unit, unit))
    except (ValueError, UnitError) as fault:
        raise click.ClickException(f'"{text}" is no limit; write it as "15 kg" or "900"') from fault


def _print(session: Session, sets: list[tuple[str, Chosen]]) -> None:
    out, evaluation = console(), session.evaluation
    tables = (
        *options_tables(shell_options(evaluation), session.build.name),
        labelled_table(evaluation, "The body in each state", "state", STATES),
        labelled_table(
            evaluation, "What each usual measure gives alone", "measure", MEASURES, ranked=True
        ),
        sets_table(evaluation, sets),
        labelled_table(evaluation, "Stress at peak loads, and where", "case: part", CASES),
        labelled_table(evaluation, "How firm the hardpoints are", "hardpoint", POINTS),
    )
    for table in tables:
        if table is not None:
            out.print(table)


def _json(session: Session, sets: list[tuple[str, Chosen]]) -> dict[str, Any]:  # JSON
    evaluation, build = session.evaluation, session.build
    work = tuple(evaluation.result("frame_work").value.values())
    return {
        "build": build.name,
        "currency": build.currency,
        "caution": CAUTION,
        "options": [
            {
                "name": one.name,
                "picked": one.picked,
                "figures": {
                    heading: {
                        "value": told.triple[0],
                        "low": told.triple[1],
                        "high": told.triple[2],
                        "unit": told.unit.replace(MONEY, build.currency),
                        "shown": told.words,
                    }
                    for heading, told in one.told.items()
                },
            }
            for one in shell_options(evaluation)
        ],
        "sets": [{"limit": limit, **vars(chosen)} for limit, chosen in sets],
        "quantities": {
            name: quantity_json(evaluation.result(name), evaluation, build.units) for name in TOLD
        },
        "frame": frame_mesh(evaluation.result("shell_model").value, work),
    }
