"""The wheel and tyre sheet, with a dimensioned section of each wheel."""

from __future__ import annotations

from drybuild.book.chapters.wheels_envelope import envelope_blocks
from drybuild.book.numbers import length_text, nominal_of
from drybuild.book.pages import Block, Chapter, Figure, Words
from drybuild.book.sheets import beside, cautions, figures, verdicts_of
from drybuild.present.nominal import nominal, number, picked
from drybuild.present.wheels import WheelSection, wheels_drawing
from drybuild.project.brakes import AxleBrakes
from drybuild.session import Session

TYRES = (
    "tyre_outside_diameter",
    "tyre_section_width",
    "tyre_section_height",
    "static_radius",
    "rolling_circumference",
    "revs_per_km",
    "tyre_load_capacity",
    "tyre_load_margin",
    "tyre_speed_rating",
    "tyre_pressure",
    "tyre_pressure_needed",
)
WHEELS = (
    "wheel_diameter",
    "wheel_width",
    "least_rim_width",
    "largest_rim_width",
    "wheel_offset",
    "backspacing",
    "track_change",
    "wheel_load_margin",
)
GAPS = (
    "wheel_inner_clearance",
    "wheel_outer_clearance",
    "wheel_radial_clearance",
    "rotor_diameter",
    "rotor_clearance",
    "rotor_outline_gain",
    "largest_rotor_inside_wheel",
    "largest_rotor_in_practice",
)
FASTENERS = (
    "wheel_fastener_torque",
    "wheel_fastener_preload",
    "wheel_fastener_proof_share",
    "wheel_fastener_turns",
    "least_fastener_turns",
)


def wheels_chapter(session: Session) -> Chapter:
    """Return sizes, gaps, loads and fasteners of wheels and tyres."""
    blocks: list[Block] = [
        *cautions(session, "tyres", "wheels"),
        *_drawing(session),
        *_chosen(session),
    ]
    blocks += beside(session, "Tyres", TYRES)
    blocks += beside(session, "Wheels", WHEELS)
    blocks += beside(session, "Room round the tyre and inside the wheel", GAPS)
    blocks += envelope_blocks(session)
    blocks += figures(session, "Fasteners", FASTENERS)
    blocks += verdicts_of(session, "The questions on wheels and tyres", "tyres", "wheels")
    return Chapter(
        title="Wheel and tyre sheet",
        intro="Wheels and tyres are settled first: they bound the brakes inside them and the "
        "suspension beside them.",
        blocks=tuple(blocks),
    )


def _chosen(session: Session) -> list[Block]:
    tyres = picked(session.build, "tyres")
    size = tyres.given.get("size") if tyres else None
    rear = tyres.given.get("rear_size") if tyres else None
    if not isinstance(size, str):
        return [Words(text="No tyre size is given: the figures stand on usual sizes.")]
    return [Words(text=f"Tyres: {size}" + (f" in front, {rear} behind." if rear else "."))]


def _drawing(session: Session) -> list[Block]:
    found = [one for axle in ("front", "rear") if (one := _section(session, axle))]
    if not found:
        return [Words(text="There is not enough known of the wheels to draw them.")]

    def told(metres: float) -> str:
        return length_text(session, metres)

    words = "; ".join(
        f"{one.title}: rim {told(one.rim_width)} wide, offset {told(one.offset)}, tyre "
        f"{told(one.tyre_width)} wide and {told(one.tyre_diameter)} tall, "
        f"{one.rotor_word} {told(one.rotor_diameter)}"
        for one in found
    )
    return [
        Figure(
            svg=wheels_drawing(found, told),
            caption="Upper half of each wheel in section, outboard to the right; to scale, but "
            "the brake's place along the axle is only indicated. Orange: the gaps left.",
            words=words,
        )
    ]


def _section(session: Session, axle: str) -> WheelSection | None:
    names = {
        "rim_diameter": "bead_seat_diameter",
        "rim_width": "wheel_width",
        "offset": "wheel_offset",
        "tyre_diameter": "tyre_outside_diameter",
        "tyre_width": "tyre_section_width",
        "rotor_diameter": "rotor_diameter",
    }
    found: dict[str, float] = {}
    for field, name in names.items():
        value = nominal_of(session, name, axle)
        if value is None:
            return None
        found[field] = value
    wheels, brakes = picked(session.build, "wheels"), picked(session.build, f"{axle}_brakes")
    if wheels is None or not isinstance(brakes, AxleBrakes):
        return None
    kind = str(nominal(brakes, session.build).kind)
    beyond = number(brakes, "caliper_bridge" if kind == "disc" else "drum_wall", session.build)
    return WheelSection(
        title=f"{axle.capitalize()} wheel",
        well_depth=number(wheels, "well_depth", session.build) or 0.0,
        brake_radius=found["rotor_diameter"] / 2.0 + (beyond or 0.0),
        rotor_word="disc" if kind == "disc" else "drum",
        brake_gap=nominal_of(session, "rotor_clearance", axle),
        inner_gap=nominal_of(session, "wheel_inner_clearance", axle),
        outer_gap=nominal_of(session, "wheel_outer_clearance", axle),
        radial_gap=nominal_of(session, "wheel_radial_clearance", axle),
        **found,
    )
