"""What to order for ride and roll, dampers as a curve, and what the stance does to the geometry."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from drybuild.book.numbers import length_text, nominal_of, shown_array, shown_unit
from drybuild.book.pages import Block, Figure, Section, Sheet, Words
from drybuild.book.sheets import beside
from drybuild.present import springs_to_order as orders
from drybuild.present.numbers import as_text
from drybuild.present.plots import Line, lines_plot
from drybuild.session import Session

if TYPE_CHECKING:
    from drybuild.physics.linkage.layouts import Swept

STANCE = (
    "adjusted_height",
    "ride_height",
    "settled_ride_height",
    "static_camber",
    "static_toe_in",
    "toe_drag",
)
STEEL = ("coil_stress", "coil_stroke_left", "full_bump_load")
LOWERED = (-0.04, -0.03, -0.02, -0.01, 0.0, 0.01, 0.02)
"""Changes of the ride height that are shown. [m]"""


def springs(session: Session) -> list[Block]:
    """Return what to order, the dampers' curve and the stance."""
    return [*_orders(session), *_dampers(session), *_stance(session)]


def _orders(session: Session) -> list[Block]:
    line = orders.order_line(session.evaluation)
    if not line:
        return []
    steel = [
        (one.axle, one.size, one.number, one.stress)
        for one in orders.steel_rows(session.evaluation)
    ]
    blocks: list[Block] = [
        Section(title="Springs and bars to order"),
        Words(
            text=f"To order: {line} The brief's ride frequency and roll decide; the rear rides "
            "quicker, so that both ends come into step after a bump at the cruising speed."
        ),
        Sheet(
            title="Wanted, beside the parts as picked",
            columns=("figure", "front", "rear"),
            rows=tuple(orders.order_rows(session.evaluation)),
            widths=(2.6, 2.2, 2.2),
        ),
    ]
    if steel:
        blocks.append(
            Sheet(
                title="What makes the rates",
                columns=("end", "steel", "working coils or leaves", "shear at full bump"),
                rows=tuple(steel),
                widths=(0.7, 1.2, 2.0, 2.2),
                note="Coils on their own diameter, or 115 mm where none is given; two more coils "
                "lie dead at the ends. A maker of springs has the last word.",
            )
        )
    return [*blocks, *beside(session, "The springs as picked", STEEL)]


def _dampers(session: Session) -> list[Block]:
    bands = orders.damper_bands(session.evaluation)
    if not bands:
        return []
    rows = tuple(
        (f"{speed:+.2f} m/s".replace("-", "−"), *(_force(band[place]) for band in bands.values()))
        for place, speed in enumerate(orders.SPEEDS)
    )
    svg = lines_plot(
        [
            Line(label=axle, x=orders.SPEEDS, y=band[:, 0], name=f"{axle} damper")
            for axle, band in bands.items()
        ],
        x_label="Speed of the damper, bump positive [m/s]",
        y_label="Force against it [N]",
        from_zero=False,
        height=170.0,
    )
    return [
        Section(title="Dampers to order"),
        Figure(
            svg=svg,
            caption="Force over speed that gives the damping wanted, on the springs as picked.",
            words="Rebound pulls harder than bump; beyond the knee both rise more slowly.",
        ),
        Sheet(
            title="Force of each damper",
            columns=("speed, bump positive", *bands),
            rows=rows,
            widths=(1.2, 2.0, 2.0),
        ),
    ]


def _force(band: np.ndarray) -> str:  # three figures
    nominal, low, high = (float(one) for one in band)
    if low == high:
        return f"{as_text(nominal)} N"
    told = [as_text(one, low=low, high=high) for one in (nominal, low, high)]
    return f"{told[0]} N ({told[1]} to {told[2]})"


def _stance(session: Session) -> list[Block]:
    blocks: list[Block] = [Section(title="Stance"), *beside(session, "How it stands", STANCE)]
    for axle in ("front", "rear"):
        swept = (session.evaluation.result(f"{axle}_rolling").value or {}).get(axle)
        blocks += _lowered(session, axle, swept)
    return blocks


def _lowered(session: Session, axle: str, swept: Swept | None) -> list[Block]:
    """Return what a higher or lower body does, with the geometry where there are hardpoints."""
    bump = nominal_of(session, "bump_travel_left", axle)
    height = nominal_of(session, "ride_height", axle)
    clearance = nominal_of(session, "ground_clearance")
    if bump is None or height is None:
        return []
    rows = []
    for change in LOWERED:
        cells = [length_text(session, height + change), length_text(session, bump + change)]
        if clearance is not None:
            cells.append(length_text(session, clearance + change / 2.0))
        cells += _geometry(session, swept, -change)
        rows.append((length_text(session, change), *cells))
    columns = ["body", "sill seam", "bump left"]
    columns += ["clearance"] if clearance is not None else []
    columns += ["camber", "toe-in of a wheel", "roll centre"] if swept is not None else []
    return [
        Sheet(
            title=f"A higher or lower {axle}",
            columns=tuple(columns),
            rows=tuple(rows),
            numeric=tuple(range(len(columns))),
            note="The clearance is that between the axles with the other end left alone. Camber "
            "and toe are before they are set again."
            if swept is not None
            else "",
        )
    ]


def _geometry(session: Session, swept: Swept | None, travel: float) -> list[str]:
    if swept is None:
        return []
    reached = swept.motion.travel
    if not reached[0] <= travel <= reached[-1]:
        return [orders.NONE] * 3
    wheel, found = swept.left, []
    for name, unit, shown in (
        ("camber", "rad", "deg"),
        ("toe_in", "rad", "deg"),
        ("roll_centre_height", "m", "mm"),
    ):
        value = np.interp(travel, reached, getattr(wheel, name)[:, 0, 0, 0])
        number = float(shown_array(session, np.array([value]), unit, shown)[0])
        digits = 2 if unit == "rad" else 0
        found.append(f"{number:+.{digits}f} {shown_unit(session, shown)}".replace("-", "−"))
    return found
