"""The wiring sheet: circuit by circuit, and whether the alternator keeps up."""

from __future__ import annotations

import numpy as np

from drybuild.book.figures import labelled_bars
from drybuild.book.numbers import shown_unit
from drybuild.book.pages import Block, Chapter, Sheet
from drybuild.book.sheets import by_label, cautions, figures, short_of, verdicts_of
from drybuild.present.numbers import as_text, in_units
from drybuild.project.samples import Values
from drybuild.session import Session

BATTERY = (
    "alternator_output_wanted",
    "alternator_belt_power",
    "idle_time_on_battery",
    "battery_reserve_time",
    "parked_battery_time",
    "starter_voltage",
    "starter_cable_drop",
    "cranking_reserve",
    "charging_cable_drop",
)
BALANCE = {
    "drawn": "electrical_load",
    "alternator gives": "alternator_current",
    "left over": "alternator_margin",
    "cover": "alternator_cover",
}
NOTE = (
    "Run: wire one way, or out and back where a wire returns. Wanted: the smallest wire and fuse "
    "that carry the current for good, at the drop allowed. A dagger marks a wire that its fuse "
    "does not protect."
)


def electrics_chapter(session: Session) -> Chapter:
    """Return circuits, charging and battery."""
    blocks: list[Block] = [*cautions(session, "electrics"), *_circuits(session)]
    blocks += labelled_bars(
        session,
        "electrical_load",
        caption="What is drawn in each situation, against what the alternator gives there.",
        limit="alternator_current",
        limit_words="what the alternator gives",
    )
    blocks += by_label(session, "Charging balance", "situation", BALANCE, bands=True,
                       widths=(1.3, 1.5, 1.5, 1.5, 1.3))  # fmt: skip
    blocks += figures(session, "Alternator, battery and starter", BATTERY)
    blocks += verdicts_of(session, "The questions on the wiring", "electrics")
    return Chapter(
        title="Wiring sheet",
        intro="Every circuit with its current, wire and fuse. Circuits that the file does not name "
        "are those of an ordinary car.",
        blocks=tuple(blocks),
    )


def _circuits(session: Session) -> list[Block]:
    circuits = session.evaluation.result("circuits").value
    if not circuits:
        return []
    named = {
        key: session.quantities[name]
        for key, name in (
            ("current", "circuit_current"),
            ("drop", "circuit_voltage_drop"),
            ("allowed", "circuit_allowed_drop"),
            ("wire", "circuit_wire_wanted"),
            ("fuse", "circuit_fuse_wanted"),
            ("over", "circuit_wire_over_fuse"),
        )
    }

    def told(key: str, circuit: str) -> str:
        result = named[key]
        values = result.labelled().get(circuit)
        return "" if values is None else short_of(session, result, values)

    rows = []
    for circuit, one in circuits.items():
        over = named["over"].labelled().get(circuit)
        mark = " †" if over is not None and over[0] < 1.0 else ""
        rows.append(
            (
                circuit + mark,
                told("current", circuit),
                _value(session, one.wire_length, "m", "m"),
                _value(session, one.area, "m²", "mm²"),
                told("wire", circuit),
                _value(session, one.fuse, "A", "A"),
                told("fuse", circuit),
                f"{told('drop', circuit)} of {told('allowed', circuit)}",
            )
        )
    return [
        Sheet(
            title="Circuits",
            columns=("circuit", "current", "run", "wire", "wanted", "fuse", "wanted", "drop"),
            rows=tuple(rows),
            numeric=(1, 2, 3, 4, 5, 6, 7),
            widths=(1.9, 0.9, 0.8, 1.0, 1.0, 0.8, 0.9, 1.5),
            note=NOTE,
        )
    ]


def _value(session: Session, values: Values, si_unit: str, shown: str) -> str:
    # Wires are sold by square millimetres everywhere; only lengths follow the person's units.
    units = session.build.units if shown == "m" else "metric"
    value = float(in_units(np.array(np.ravel(values)[0]), si_unit, shown, units))
    unit = shown_unit(session, shown) if shown == "m" else shown
    return f"{as_text(round(value, 3))} {unit}"
