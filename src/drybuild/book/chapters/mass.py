"""The weight sheet: item by item what comes off and goes on, axle loads, centre of gravity."""

from __future__ import annotations

import numpy as np

from drybuild.book.numbers import label_value, length_text, nominal_of
from drybuild.book.pages import Block, Chapter, Figure, Sheet, Words
from drybuild.book.sheets import beside, cautions, figures, known, short_of, text_of, verdicts_of
from drybuild.physics.rigid_body import RigidBody
from drybuild.present.mass import Loaded, balance_drawing
from drybuild.present.numbers import in_units, unit_for
from drybuild.present.path_words import system_words
from drybuild.present.plots import bars_plot
from drybuild.project.samples import Values
from drybuild.quantities.graph import summary
from drybuild.session import Session

MOST_BARS = 16


def mass_chapter(session: Session) -> Chapter:
    """Return what changes the mass, and how the car then stands."""
    blocks: list[Block] = [
        *cautions(session, "mass"),
        *_balance(session),
        *_items(session),
        *_bars(session),
    ]
    blocks += beside(
        session,
        "Axle loads",
        ("axle_load", "laden_axle_load", "axle_load_limit", "unsprung_mass", "sprung_axle_load"),
    )
    blocks += beside(
        session,
        "Wheel loads, nobody aboard",
        ("wheel_load",),
        ("front left", "front right", "rear left", "rear right"),
    )
    blocks += figures(
        session,
        "Mass and where it lies",
        (
            "standing_mass",
            "kerb_mass",
            "laden_mass",
            "gross_mass_limit",
            "front_axle_share",
            "laden_front_axle_share",
            "cross_weight",
            "cg_behind_front_axle",
            "cg_height",
            "laden_cg_height",
            "yaw_inertia",
            "pitch_inertia",
            "roll_inertia",
            "yaw_dynamic_index",
        ),
    )
    blocks += verdicts_of(session, "The questions on mass", "mass")
    return Chapter(
        title="Weight sheet",
        intro="What comes off, what goes on and where it sits. Places count from the front wheel "
        "centres, forward plus, and up from the sill seam.",
        blocks=tuple(blocks),
    )


def _items(session: Session) -> list[Block]:
    changes = session.evaluation.result("mass_changes").value
    if not changes:
        return [Words(text="Nothing changes the mass: no part is swapped yet.")]
    picks, rows = session.build.assumed_picks(), []
    for system, bodies in changes.items():
        off = next((one for one in bodies if np.ravel(one.mass)[0] < 0.0), None)
        on = bodies[-1]
        change = sum(np.asarray(one.mass) for one in bodies)
        rows.append(
            (
                system_words(system),
                picks.get(system, ""),
                _mass(session, -np.asarray(off.mass)) if off else "",
                _mass(session, np.asarray(on.mass)),
                _mass(session, np.asarray(change)),
                _place(session, on),
            )
        )
    result = session.quantities["kerb_mass"]
    standing = session.quantities["standing_mass"]
    if not result.open and not standing.open:
        change = result.value - standing.value
        rows.append(("All together", "", "", "", _mass(session, change), ""))
    unit = unit_for("kg", session.build.units, "")
    return [
        Sheet(
            title="Item by item",
            columns=(
                "system",
                "what goes on",
                f"off [{unit}]",
                f"on [{unit}]",
                f"change [{unit}]",
                "along / up",
            ),
            rows=tuple(rows),
            numeric=(2, 3, 4, 5),
            widths=(1.5, 2.3, 0.8, 0.8, 0.9, 1.6),
            total=True,
        )
    ]


def _mass(session: Session, values: Values) -> str:
    value = float(in_units(np.array(np.ravel(values)[0]), "kg", "kg", session.build.units))
    return f"{value:.1f}".replace("-", "−")


def _place(session: Session, body: RigidBody) -> str:
    x, z = (float(np.ravel(one)[0]) for one in (body.x, body.z))
    return f"{length_text(session, x)} / {length_text(session, z)}"


def _bars(session: Session) -> list[Block]:
    result = session.quantities["mass_change"]
    if result.open or not result.labelled():
        return []
    units = session.build.units
    entries = [
        (system_words(name), in_units(np.array(summary(values)), "kg", "kg", units).tolist())
        for name, values in result.labelled().items()
    ]
    entries = [one for one in entries if any(abs(value) > 1e-6 for value in one[1])]
    if not entries:
        return []
    entries.sort(key=lambda one: -abs(one[1][0]))
    entries = sorted(entries[:MOST_BARS], key=lambda one: -one[1][0])
    unit = unit_for("kg", units, "")
    svg = bars_plot(
        [name for name, _ in entries],
        [one[0] for _, one in entries],
        x_label=f"change of mass [{unit}]",
        low=[one[1] for _, one in entries],
        high=[one[2] for _, one in entries],
    )
    words = "; ".join(f"{name} {one[0]:+.1f} {unit}" for name, one in entries)
    return [
        Figure(
            svg=svg,
            caption="What changes the mass most, heaviest gain first, with the band of each.",
            words=f"Change of mass by system: {words}.",
        )
    ]


def _balance(session: Session) -> list[Block]:
    base, front_radius = (
        nominal_of(session, "wheelbase"),
        nominal_of(session, "static_radius", "front"),
    )
    rear_radius = nominal_of(session, "static_radius", "rear")
    states = [
        one
        for one in (
            _state(session, "kerb", "kerb_mass", "axle_load", "cg_height", "front_axle_share"),
            _state(
                session,
                "on a journey",
                "laden_mass",
                "laden_axle_load",
                "laden_cg_height",
                "laden_front_axle_share",
            ),
        )
        if one
    ]
    if base is None or front_radius is None or rear_radius is None or not states:
        return []
    svg = balance_drawing(
        base, (front_radius, rear_radius), states, label_value(session, "wheelbase")
    )
    words = "; ".join(
        f"{one.name}: {one.words}, front {one.front}, rear {one.rear}" for one in states
    )
    return [
        Figure(
            svg=svg,
            caption="Centre of gravity and axle loads; front of the car to the left.",
            words=f"The car from the side. {words}.",
        )
    ]


def _state(
    session: Session, name: str, mass: str, load: str, height: str, share: str
) -> Loaded | None:
    found = known(session, (mass, load, height, share, "wheelbase"))
    if len(found) < 5:
        return None
    total, loads, high, front, base = found
    return Loaded(
        name=name,
        behind=float((1.0 - front.value[0]) * base.value[0]),
        height=float(high.value[0]),
        words=f"{short_of(session, total, total.value)}, {text_of(session, high, high.value)} up",
        front=short_of(session, loads, loads.value["front"]),
        rear=short_of(session, loads, loads.value["rear"]),
    )
