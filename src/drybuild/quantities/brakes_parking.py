"""What the parking brake holds, by hand and by tyres, both ways on the grade."""

from __future__ import annotations

import numpy as np

from drybuild.errors import DoesNotApply
from drybuild.physics.brakes import parking
from drybuild.project.brakes import ParkingBrake, RearBrakes
from drybuild.project.driveline import Axle
from drybuild.project.samples import Values
from drybuild.project.tyres import Tyres
from drybuild.quantities.axles import REAR
from drybuild.quantities.brakes import Stance, drum_factor
from drybuild.quantities.quantity import Labelled, quantity
from drybuild.tables.brakes import parking_grade

FACINGS = {"nose up": 1, "nose down": -1}
TRANSMISSION = "transmission drum"


@quantity("-", "Parking lever's ratio", source="definition")
def parking_lever_ratio(parking_brake: ParkingBrake) -> Values:
    """By the lever's two lengths where they are measured."""
    if parking_brake.has("lever_length") and parking_brake.has("lever_arm"):
        return parking_brake.lever_length / parking_brake.lever_arm
    return parking_brake.lever_ratio


@quantity("m", "Travel of the parking lever's grip", source="limpert", shown="mm")
def parking_lever_travel(
    parking_brake: ParkingBrake, parking_lever_ratio: Values, rear_brakes: RearBrakes
) -> Values:
    """To close the gaps of rear shoes or pads; the stretch of the cables comes on top."""
    if parking_brake.kind in (TRANSMISSION, "drums in discs"):
        raise DoesNotApply(parking_brake.path_of("kind"), "its own shoes are set by hand")
    return rear_brakes.take_up * parking_brake.brake_ratio * parking_lever_ratio


@quantity("N", "Parking brake's force at the road", source="limpert")
def parking_brake_force(
    parking_brake: ParkingBrake,
    parking_lever_ratio: Values,
    rear_brakes: RearBrakes,
    axle: Axle,
    static_radius: Labelled,
) -> Values:
    """Both rear wheels, with the force on the grip that may be asked."""
    rubbing = parking_brake.friction if parking_brake.has("friction") else rear_brakes.friction
    if parking_brake.kind == "rear calipers":
        factor, radius = (
            2.0 * rubbing,
            rear_brakes.rotor_diameter / 2.0 - rear_brakes.pad_height / 2.0,
        )
    elif parking_brake.kind in ("drums in discs", TRANSMISSION):
        servo = parking_brake.kind == "drums in discs"
        factor = drum_factor(rear_brakes, "duo-servo" if servo else "simplex", rubbing)
        radius = parking_brake.drum_diameter / 2.0
    else:
        kind = rear_brakes.kind if rear_brakes.kind != "disc" else "simplex"
        # The lever spreads the shoes of a two-leading-shoe brake as it does any other's.
        factor = drum_factor(rear_brakes, "simplex" if kind == "duplex" else kind, rubbing)
        radius = rear_brakes.rotor_diameter / 2.0
    torque = parking.cable_brake_torque(
        hand_force=parking_brake.hand_force,
        lever_ratio=parking_lever_ratio,
        cable_efficiency=parking_brake.cable_efficiency,
        brake_ratio=parking_brake.brake_ratio,
        brake_factor=factor,
        radius=radius,
    )
    # One drum on the transmission has the whole pull, and the final drive multiplies its torque.
    gearing = axle.final_drive if parking_brake.kind == TRANSMISSION else 1.0
    return 2.0 * torque * gearing / static_radius[REAR]


@quantity(
    "-", "Grade that the parking brake holds, laden", per="facing", source="limpert", shown="%"
)
def parking_brake_hold_grade(
    parking_brake_force: Values, laden_stance: Stance, tyres: Tyres
) -> Labelled:
    """By the grip's force or the rear tyres' dry adhesion, whichever gives way first."""
    by_force = parking.largest_grade_by_force(force=parking_brake_force, weight=laden_stance.weight)
    found = {}
    for words, facing in FACINGS.items():
        by_tyres = parking.largest_grade_by_adhesion_rear(
            adhesion=tyres.adhesion,
            front_share=laden_stance.front_share,
            height_ratio=laden_stance.height_ratio,
            facing=facing,
        )
        found[words] = np.fmin(by_force, by_tyres)
    return found


@quantity("-", "Adhesion the rear tyres need to stay parked", per="facing", source="limpert")
def parking_adhesion_needed(laden_stance: Stance) -> Labelled:
    """On the older directive's grade, laden, rear wheels braked only."""
    grade = parking_grade("71/320/EEC")
    return {
        words: parking.adhesion_needed_rear(
            grade=grade,
            front_share=laden_stance.front_share,
            height_ratio=laden_stance.height_ratio,
            facing=facing,
        )
        for words, facing in FACINGS.items()
    }
