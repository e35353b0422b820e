"""The brake sheet: the chain from foot to road, the distribution, pedal, stops, temperatures."""

from __future__ import annotations

import numpy as np

from drybuild.book.chapters import brakes_sizing as sized
from drybuild.book.numbers import label_value, length_text, nominal_of, shown_unit
from drybuild.book.pages import Block, Chapter, Figure, Section
from drybuild.book.sheets import beside, by_label, cautions, figures, settings, verdicts_of
from drybuild.present import brakes as pictures
from drybuild.present.brakes import Link
from drybuild.present.nominal import nominal, number, picked
from drybuild.present.numbers import as_text, in_units
from drybuild.present.plots import bars_plot
from drybuild.project.brakes import AxleBrakes, BrakeHydraulics
from drybuild.quantities.graph import summary
from drybuild.session import Session

CIRCUIT = ("pedal_ratio", "master_cylinder_bore", "pedal_stroke", "valve_knee", "valve_slope")
AXLE = (
    "rotor_diameter",
    "brake_effective_radius",
    "brake_piston_area",
    "brake_factor",
    "brake_factor_sensitivity",
    "brake_torque",
    "brake_fluid_displaced",
    "lock_deceleration",
    "wet_lock_deceleration",
)
FOOT = (
    "line_pressure_at_0_9g",
    "pedal_force_at_0_9g",
    "booster_assist",
    "booster_knee_pedal_force",
    "line_pressure_at_500_n",
    "master_cylinder_travel",
    "pedal_travel_to_touch",
    "pedal_travel_at_0_9g",
    "pedal_travel_share",
    "pedal_firmness",
    "trapped_air_displaced",
    "residual_pressure_margin",
)
BALANCE = (
    "front_brake_share",
    "ideal_front_brake_share",
    "ideal_front_brake_share_laden",
    "critical_deceleration",
    "braking_efficiency",
    "wet_braking_efficiency",
)
STOPS = (
    "stopping_deceleration",
    "stopping_distance_100_kmh",
    "stopping_distance_80_kmh",
    "wet_stopping_distance_100_kmh",
    "hot_stopping_deceleration",
    "hot_stopping_distance_100_kmh",
    "inspection_brake_effort",
)
HELPLESS = (
    "deceleration_without_booster",
    "stopping_distance_without_booster",
    "pedal_force_without_booster",
    "secondary_pedal_force_without_booster",
)
HEAT = {
    "one stop": "rotor_temperature_one_stop",
    "ten stops": "rotor_temperature_ten_stops",
    "fade test": "rotor_temperature_fade_test",
    "long descent": "rotor_temperature_descent",
    "in a low gear": "rotor_temperature_descent_in_gear",
}
WORK = ("hot_friction_share", "lining_area", "lining_work", "lining_work_rate",
        "rotor_surface_stress")  # fmt: skip
DESCENT = ("descent_braking_power", "descent_engine_power", "descent_time",
           "hot_deceleration_share")  # fmt: skip
HOLD = ("parking_lever_ratio", "parking_lever_travel", "parking_brake_force")


def brakes_chapter(session: Session) -> Chapter:
    """Return everything on the brakes."""
    blocks: list[Block] = [*cautions(session, "brakes"), *_chain(session), *sized.faces(session)]
    hydraulics = picked(session.build, "brake_hydraulics")
    if hydraulics is not None:
        blocks += settings(
            session,
            "Pedal and hydraulics as set",
            [(hydraulics, name, _unit(name)) for name in CIRCUIT],
        )
    blocks += [*figures(session, "Foot to line pressure", FOOT), *sized.pedal(session)]
    blocks += beside(session, "At the wheels", AXLE)
    blocks += [Section(title="Distribution"), *_curves(session)]
    blocks += figures(session, "Balance", BALANCE)
    blocks += [Section(title="Stops"), *figures(session, "Deceleration and distance", STOPS)]
    blocks += by_label(
        session, "If one circuit fails", "what failed", {
            "deceleration": "secondary_deceleration",
            "stop from 100 km/h": "secondary_stopping_distance",
            "pedal used at 0.9 g's pressure": "pedal_travel_share_circuit_failed",
        }, bands=True, widths=(1.6, 2.0, 2.0, 2.0),
    )  # fmt: skip
    if not session.quantities["deceleration_without_booster"].open:
        blocks += figures(session, "If the servo fails", HELPLESS)
    blocks += [Section(title="Heat"), *_heat(session), *sized.warming(session)]
    blocks += figures(session, "The descent, and the stop after the fade test", DESCENT)
    blocks += beside(
        session,
        "Temperatures, and what the brake stands",
        (*HEAT.values(), "lining_temperature_limit", "rotor_temperature_limit",
         "fresh_brake_fluid_margin", "brake_fluid_margin"),
    )  # fmt: skip
    blocks += beside(session, "Work of linings and rotors", WORK)
    blocks += figures(session, "Parking brake", HOLD)
    blocks += by_label(
        session, "", "facing", {"holds a grade of": "parking_brake_hold_grade",
        "adhesion needed": "parking_adhesion_needed"}, bands=True,
    )  # fmt: skip
    blocks += sized.sizing(session)
    blocks += verdicts_of(session, "The questions on brakes", "brakes")
    return Chapter(
        title="Brake sheet",
        intro="From the foot to the road, laden unless it says otherwise.",
        blocks=tuple(blocks),
    )


def _unit(name: str) -> str:
    return {"master_cylinder_bore": "mm", "pedal_stroke": "mm", "valve_knee": "bar"}.get(name, "")


def _chain(session: Session) -> list[Block]:
    hydraulics = picked(session.build, "brake_hydraulics")
    front, rear = (picked(session.build, f"{axle}_brakes") for axle in ("front", "rear"))
    if (
        not isinstance(hydraulics, BrakeHydraulics)
        or not isinstance(front, AxleBrakes)
        or not isinstance(rear, AxleBrakes)
    ):
        return []
    build = session.build
    ratio, bore = (
        number(hydraulics, "pedal_ratio", build),
        number(hydraulics, "master_cylinder_bore", build),
    )
    booster = str(nominal(hydraulics, build).booster)
    help_ = (
        "no help" if booster == "none" else f"{booster}, {label_value(session, 'booster_assist')}"
    )
    chain = [
        Link(name="Foot", what="0.9 g stop", out=label_value(session, "pedal_force_at_0_9g")),
        Link(name="Pedal and servo", what=f"ratio {as_text(ratio or 0.0)}", out=help_),
        Link(
            name="Master cylinder",
            what=f"bore {_bore(session, bore)}",
            out=label_value(session, "line_pressure_at_0_9g"),
        ),
    ]
    valve = number(hydraulics, "valve_knee", build)
    svg = pictures.chain_drawing(
        chain,
        _wheel_end(session, "front", front),
        _wheel_end(session, "rear", rear),
        "through the valve" if valve is not None else "",
    )
    words = ", ".join(f"{one.name}: {one.what}, {one.out}" for one in chain)
    return [
        Figure(
            svg=svg,
            caption="From foot to road in a 0.9 g stop, laden. Torques are those of one brake.",
            words=words,
        )
    ]


def _bore(session: Session, bore: float | None) -> str:
    if bore is None:
        return "?"
    value = float(in_units(np.array(bore), "m", "mm", session.build.units))
    return f"{as_text(value)} {shown_unit(session, 'mm')}"


def _wheel_end(session: Session, axle: str, brakes: AxleBrakes) -> Link:
    kind = str(nominal(brakes, session.build).kind)
    diameter = nominal_of(session, "rotor_diameter", axle)
    what = "disc" if kind == "disc" else f"{kind} drum"
    size = length_text(session, diameter) if diameter else "?"
    return Link(
        name=f"{axle.capitalize()} brakes",
        what=f"{what} {size}",
        out=label_value(session, "brake_torque", axle),
    )


def _curves(session: Session) -> list[Block]:
    line, kerb, laden = (
        session.evaluation.result(name).value
        for name in ("brake_line", "kerb_stance", "laden_stance")
    )
    if line is None or kerb is None or laden is None:
        return []
    share, ideal = (label_value(session, n) for n in BALANCE[:2])
    return [
        Figure(
            svg=pictures.distribution_plot(line, kerb, laden),
            caption="Distribution as fitted against the ideal. Below the ideal curve the front "
            "axle locks first and the car stays straight; above it the rear does.",
            words=f"At 0.9 g the front share is {share}; the ideal at kerb weight is {ideal}.",
        ),
        *sized.corridors(session),
    ]


def _heat(session: Session) -> list[Block]:
    labels, triples, limits = [], [], []
    units = session.build.units
    for axle in ("front", "rear"):
        limit = nominal_of(session, "lining_temperature_limit", axle)
        for words, name in HEAT.items():
            result = session.quantities[name]
            if result.open or axle not in result.labelled():
                continue
            low_high = np.array(summary(result.labelled()[axle]))
            triples.append([float(v) for v in in_units(low_high, "K", "°C", units)])
            labels.append(f"{axle}: {words}")
            limits.append(
                None if limit is None else float(in_units(np.array(limit), "K", "°C", units))
            )
    if not labels:
        return []
    unit = shown_unit(session, "°C")
    svg = bars_plot(
        labels,
        [one[0] for one in triples],
        x_label=f"rotor temperature [{unit}]",
        low=[one[1] for one in triples],
        high=[one[2] for one in triples],
        limits=limits,
        limit_words="the linings' limit",
    )
    words = "; ".join(f"{n} {t[0]:.0f} {unit}" for n, t in zip(labels, triples, strict=True))
    return [
        Figure(
            svg=svg,
            caption="How hot disc and drum become, against what the linings stand.",
            words=words,
        )
    ]
