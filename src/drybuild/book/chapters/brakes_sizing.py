"""Blocks of the brake sheet that size and draw: faces, pedal curve, corridors, heat, sizing."""

from __future__ import annotations

import numpy as np

from drybuild.book.numbers import label_value, nominal_of, shown_array, shown_unit
from drybuild.book.pages import Block, Figure, Section, Sheet, Words
from drybuild.present import brakes_sizing as pictures
from drybuild.present import brakes_tables as tables
from drybuild.present.brakes import bounds
from drybuild.present.brakes_drawing import Face, faces_drawing
from drybuild.present.nominal import nominal, picked
from drybuild.present.numbers import as_text
from drybuild.project.brakes import AxleBrakes
from drybuild.session import Session

Labels = dict[str, np.ndarray]  # by axle


def faces(session: Session) -> list[Block]:
    """Return the two brakes drawn with their dimensions."""
    found = {}
    for axle in ("front", "rear"):
        one = picked(session.build, f"{axle}_brakes")
        radius = nominal_of(session, "brake_effective_radius", axle)
        if not isinstance(one, AxleBrakes) or radius is None:
            return []
        found[axle] = _face(axle, nominal(one, session.build), radius)
    lengths = {
        value
        for one in found.values()
        for value in (one.diameter, one.radius, one.pad_height, one.piston)
    }
    told = {value: _length(session, value) for value in lengths}
    words = "; ".join(
        f"{axle} {one.kind} of {told[one.diameter]}, piston {told[one.piston]}"
        for axle, one in found.items()
    )
    return [
        Figure(
            svg=faces_drawing(found["front"], found["rear"], told),
            caption="Both brakes to one scale, seen along the axle. Linings are shaded; the dashed "
            "circle is where a disc's pads act.",
            words=f"Brakes with dimensions: {words}.",
        )
    ]


def _length(session: Session, metres: float) -> str:
    shown = float(shown_array(session, np.array(metres), "m", "mm"))
    return f"{as_text(round(shown, 2))} {shown_unit(session, 'mm')}"


def _face(axle: str, one: AxleBrakes, radius: float) -> Face:
    disc = one.kind == "disc"
    return Face(
        title=f"{axle.capitalize()}: {'disc' if disc else f'{one.kind} drum'}",
        disc=disc,
        diameter=float(one.rotor_diameter[0]),
        radius=radius,
        pad_height=float(one.pad_height[0]),
        pistons=round(float(one.pistons[0])) if disc else 1,
        piston=float(one.piston_diameter[0]),
        wall=float(one.drum_wall[0]),
        arc=float(one.lining_arc[0]),
    )


def pedal(session: Session) -> list[Block]:
    """Return foot force over pedal travel."""
    feel, sizing = (
        session.evaluation.result(name).value for name in ("pedal_feel", "pedal_sizing")
    )
    if feel is None or sizing is None:
        return []
    svg = pictures.pedal_curve(feel, sizing, feel.bore, feel.ratio, session.build.units)
    force, travel, firm = (
        label_value(session, name)
        for name in ("pedal_force_at_0_9g", "pedal_travel_at_0_9g", "pedal_firmness")
    )
    return [
        Figure(
            svg=svg,
            caption="What the foot feels, from rest to a 0.9 g stop, laden: free play and gaps "
            "first, then the give of hoses, linings, calipers and fluid.",
            words=f"At 0.9 g the foot presses {force} and the pedal has gone {travel}; in a usual "
            f"stop it is {firm} firm.",
        )
    ]


def corridors(session: Session) -> list[Block]:
    """Return the adhesion curves at both loads with their bands."""
    blocks: list[Block] = []
    for line, stance, words in (
        ("brake_line", "kerb_stance", "at kerb weight"),
        ("laden_brake_line", "laden_stance", "laden"),
    ):
        fitted, car = (session.evaluation.result(name).value for name in (line, stance))
        if fitted is None or car is None:
            continue
        blocks.append(
            Figure(
                svg=pictures.adhesion_band_plot(fitted, car, bounds()),
                caption=f"Adhesion that each axle needs {words}, with its 5 to 95 % band. Both "
                "should stay under the regulations' bounds, and the front axle's over the rear's.",
                words=f"Adhesion needed by front and rear axle against braking rate, {words}, with "
                "the bounds of UN R13-H and of the older European directive.",
            )
        )
    return blocks


def warming(session: Session) -> list[Block]:
    """Return the rotors' temperatures down the descent and through the fade test."""
    units = session.build.units
    limit = session.quantities["lining_temperature_limit"].labelled()
    limits = {f"{axle} linings' limit": float(one[0]) for axle, one in limit.items()}
    time = nominal_of(session, "descent_time") or 0.0
    blocks: list[Block] = []
    for name, words, label in (
        ("rotor_temperatures_descent", "down the longest descent, out of gear", "time [min]"),
        ("rotor_temperatures_fade_test", "right after each stop of the fade test", "stop [-]"),
    ):
        curves: Labels | None = session.evaluation.result(name).value
        if curves is None:
            continue
        rows = len(curves["front"])
        descent = name == "rotor_temperatures_descent"
        x = np.linspace(0.0, time / 60.0, rows) if descent else np.arange(1.0, rows + 1.0)
        ends = ", ".join(
            f"{axle} {label_value(session, name.replace('temperatures', 'temperature'), axle)}"
            for axle in curves
        )
        blocks.append(
            Figure(
                svg=pictures.warming_plot(curves, x, limits, x_label=label, units=units),
                caption=f"Discs and drums {words}: air, radiation and the hub carry heat off.",
                words=f"Rotor temperatures {words}; at the end: {ends}.",
            )
        )
    return blocks


def sizing(session: Session) -> list[Block]:
    """Return the map of bore and ratio, what is made, and the brakes without a servo."""
    map_, pistons, valves, unassisted, feel = (
        session.evaluation.result(name).value
        for name in (
            "pedal_sizing", "piston_choices", "valve_settings", "unassisted_brakes", "pedal_feel"
        )
    )  # fmt: skip
    if map_ is None or feel is None:
        return []
    units = session.build.units
    bore, ratio = float(feel.bore[0]), float(feel.ratio[0])
    blocks: list[Block] = [
        Section(title="Sizing"),
        Figure(
            svg=pictures.sizing_map(map_, bore, ratio, units),
            caption="Bore and pedal ratio for a 0.9 g stop, laden: along a line the foot force, or "
            "the share of the pedal's travel, is the same. Shaded: at most 500 N and 60 %. Ticks "
            f"at the foot: bores that are made. Sizes in mm; {shown_unit(session, 'N')} on lines.",
            words="Map of master cylinder bore against pedal ratio with lines of foot force and "
            f"of pedal travel; as picked {bore * 1000:.1f} mm at {ratio:.1f}.",
        ),
        _sheet(tables.bore_rows(map_, bore, feel.ratio, units)),
    ]
    if pistons is not None:
        blocks += [_sheet(tables.piston_rows(pistons, axle, units)) for axle in ("front", "rear")]
    if valves is not None:
        blocks.append(_sheet(tables.valve_rows(valves, units)))
    limit = session.quantities["lining_temperature_limit"]
    if unassisted is not None and not limit.open:
        blocks.append(Section(title="Unassisted, with the largest disc that fits: will they do?"))
        blocks.append(Words(text=pictures.unassisted_words(unassisted, limit.labelled(), units)))
    return blocks


def _sheet(rows: tables.Rows) -> Sheet:
    columns = len(rows.columns)
    return Sheet(
        title=rows.title,
        columns=rows.columns,
        rows=rows.rows,
        widths=(1.5, *(1.2 for _ in range(columns - 1))),
        note=rows.note,
    )
