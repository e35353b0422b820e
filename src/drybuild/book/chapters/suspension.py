"""The suspension, ride and alignment sheet, with the car's stance."""

from __future__ import annotations

import math

from drybuild.book.chapters.suspension_compare import candidates
from drybuild.book.chapters.suspension_geometry import geometry
from drybuild.book.chapters.suspension_springs import springs
from drybuild.book.numbers import length_text, nominal_of
from drybuild.book.pages import Block, Chapter, Figure, Section
from drybuild.book.sheets import (
    beside,
    by_label,
    cautions,
    figures,
    settings,
    verdicts_of,
)
from drybuild.present.nominal import number, picked
from drybuild.present.suspension import AxleStance, Standing, stance_drawing
from drybuild.session import Session

ALIGNMENT = {
    "caster": "deg",
    "camber": "deg",
    "toe_in": "deg",
    "kingpin_inclination": "deg",
    "mechanical_trail": "mm",
}
SPRINGS = (
    "motion_ratio",
    "spring_rate",
    "wheel_rate",
    "tyre_vertical_rate",
    "ride_rate",
    "static_deflection",
    "bump_travel_left",
    "suspension_travel",
)
RIDE = (
    "ride_frequency",
    "empty_ride_frequency",
    "wheel_hop_frequency",
    "wheel_damping",
    "damping_ratio",
    "axle_body_acceleration",
    "travel_in_use",
    "travel_in_hand",
    "dynamic_wheel_load_share",
)
ROLL = (
    "anti_roll_bar_stiffness",
    "suspension_roll_stiffness",
    "roll_stiffness",
    "roll_centre_height",
    "lateral_load_transfer",
    "cornering_stiffness",
    "wheel_lean",
    "roll_steer",
    "axle_cornering_limit",
)
CORNER = (
    "roll_gradient",
    "front_roll_stiffness_share",
    "front_load_transfer_share",
    "load_transfer_lead",
    "understeer_gradient",
    "characteristic_speed",
    "cornering_limit",
    "limit_balance",
    "static_stability_factor",
    "yaw_frequency",
    "yaw_damping",
)
STEERING = (
    "steering_ratio",
    "steering_wheel_turns",
    "scrub_radius",
    "turning_circle",
    "ackermann_share",
)
MATTERS = ("suspension", "ride", "handling", "steering")


def suspension_chapter(session: Session) -> Chapter:
    """Return rates, frequencies, roll, balance and what to set."""
    blocks: list[Block] = [*cautions(session, *MATTERS), *_stance(session)]
    front = picked(session.build, "front_suspension")
    if front is not None:
        blocks += settings(
            session,
            "To set on the front wheels",
            [(front, name, unit) for name, unit in ALIGNMENT.items()],
            note=_toe_note(session),
        )
    blocks += figures(session, "Steering", STEERING)
    blocks += by_label(
        session, "", "wheel", {"full lock": "lock_angles"}, bands=True, widths=(1.0, 2.0)
    )
    blocks += beside(session, "Springs and travel", SPRINGS)
    blocks += [Section(title="Ride"), *beside(session, "Frequencies and damping", RIDE)]
    blocks += figures(
        session, "The whole body", ("flat_ride_ratio", "bounce_pitch_ratio", "ride_comfort")
    )
    blocks += by_label(
        session, "Felt on the seat", "road", {"acceleration": "seat_acceleration"}, bands=True,
        widths=(1.0, 2.0),
    )  # fmt: skip
    blocks += [Section(title="Corners"), *beside(session, "Roll and grip of each end", ROLL)]
    blocks += figures(session, "Balance in a corner", CORNER)
    blocks += by_label(
        session, "What the understeer is made of", "cause", {"share": "understeer_terms"},
        bands=True, widths=(1.0, 2.0),
    )  # fmt: skip
    blocks += springs(session)
    blocks += geometry(session)
    blocks += candidates(session)
    blocks += verdicts_of(session, "The questions on suspension, ride and steering", *MATTERS)
    return Chapter(
        title="Suspension, ride and alignment sheet",
        intro="How it stands, springs, rolls and steers, and what to set on the alignment bench.",
        blocks=tuple(blocks),
    )


def _toe_note(session: Session) -> str:
    told = "Toe-in is that of both wheels together. Set it last, at ride height, laden as usual."
    rim = nominal_of(session, "bead_seat_diameter", "front")
    if rim is None:
        return told
    gap = length_text(session, rim * math.tan(math.radians(0.5)))
    return f"{told} Half a degree is {gap} between the rims' front and rear edges."


def _stance(session: Session) -> list[Block]:
    ends = {axle: _axle(session, axle) for axle in ("front", "rear")}
    front, rear = ends["front"], ends["rear"]
    base, height = nominal_of(session, "wheelbase"), nominal_of(session, "cg_height")
    behind = nominal_of(session, "cg_behind_front_axle")
    if front is None or rear is None or base is None or height is None or behind is None:
        return []
    car = Standing(
        wheelbase=base,
        front=front,
        rear=rear,
        cg_behind=behind,
        cg_height=height,
        clearance=nominal_of(session, "ground_clearance"),
    )

    def told(metres: float) -> str:
        return length_text(session, metres)

    words = (
        f"Ride height {told(front.ride_height)} in front, {told(rear.ride_height)} behind; roll "
        f"centres {told(front.roll_centre)} and {told(rear.roll_centre)} over the road; centre of "
        f"gravity {told(height)}."
    )
    return [
        Figure(
            svg=stance_drawing(car, told),
            caption="The stance at kerb weight, front to the left. Beside each end: sill seam over "
            "the road, and the wheel's travel up and down.",
            words=words,
        )
    ]


def _axle(session: Session, axle: str) -> AxleStance | None:
    found = {
        field: nominal_of(session, name, axle)
        for field, name in (
            ("radius", "static_radius"),
            ("ride_height", "ride_height"),
            ("roll_centre", "roll_centre_height"),
        )
    }
    known = {field: value for field, value in found.items() if value is not None}
    suspension = picked(session.build, f"{axle}_suspension")
    if len(known) < len(found) or suspension is None:
        return None
    droop = number(suspension, "droop_travel", session.build)
    return AxleStance(bump=nominal_of(session, "bump_travel_left", axle), droop=droop, **known)
