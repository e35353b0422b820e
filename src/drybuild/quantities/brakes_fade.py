"""Hot brakes: friction at temperature, the stop after the fade test, work of linings and rotors."""

from __future__ import annotations

import numpy as np

from drybuild.physics.brakes import stopping, warming
from drybuild.project.brakes import AxleBrakes, BrakeHydraulics, FrontBrakes, RearBrakes
from drybuild.project.samples import Values
from drybuild.quantities.axles import FRONT, REAR, each_axle, of_axle
from drybuild.quantities.brakes import BrakeLine
from drybuild.quantities.brakes_heat import HUNDRED, MODERATE_STOP
from drybuild.quantities.quantity import Labelled, quantity
from drybuild.tables.brakes import friction_over_temperature
from drybuild.units import STANDARD_GRAVITY

IRON_MODULUS, IRON_EXPANSION, IRON_POISSON = 1.03e11, 1.10e-5, 0.25
"""Grey iron of 250 MPa. [Pa], [1/K], [-]; Shigley table A-24 and A-5, from memory."""


@quantity(
    "-", "Friction of the linings after the fade test, over cold", per="axle",
    source="common-practice", shown="%",
)  # fmt: skip
def hot_friction_share(
    rotor_temperature_fade_test: Labelled, front_brakes: FrontBrakes, rear_brakes: RearBrakes
) -> Labelled:
    """By the kind of lining, at the rotor's temperature."""
    return each_axle(
        lambda axle: hot_friction(
            of_axle(axle, front_brakes, rear_brakes), rotor_temperature_fade_test[axle]
        )
    )


@quantity("-", "Deceleration after the fade test over cold, same foot", source="un-r13h", shown="%")
def hot_deceleration_share(
    hot_friction_share: Labelled,
    brake_factor_sensitivity: Labelled,
    laden_brake_line: BrakeLine,
    line_pressure_at_500_n: Values,
    line_pressure_at_0_9g: Values,
) -> Values:
    """At the line pressure of the cold stop; a drum loses more than its lining does."""
    pressure = np.minimum(line_pressure_at_500_n, line_pressure_at_0_9g)
    return hot_force_share(laden_brake_line, pressure, hot_friction_share, brake_factor_sensitivity)


@quantity("m/s²", "Deceleration of a full stop after the fade test", source="un-r13h")
def hot_stopping_deceleration(
    hot_deceleration_share: Values,
    pedal_limited_deceleration: Values,
    attainable_deceleration: Values,
) -> Values:
    """Laden, with 500 N on the pedal or what the tyres hold."""
    return np.minimum(pedal_limited_deceleration * hot_deceleration_share, attainable_deceleration)


@quantity("m", "Stopping distance from 100 km/h after the fade test", source="un-r13h")
def hot_stopping_distance_100_kmh(
    hot_stopping_deceleration: Values, brake_hydraulics: BrakeHydraulics
) -> Values:
    """Laden, dry, no axle locked."""
    return stopping.stopping_distance(
        speed=HUNDRED, deceleration=hot_stopping_deceleration, delay=brake_hydraulics.delay
    )


@quantity("m²", "Lining of one brake", per="axle", source="definition", shown="cm²")
def lining_area(front_brakes: FrontBrakes, rear_brakes: RearBrakes) -> Labelled:
    """Two pads, or two shoes."""

    def area(axle: str) -> Values:
        one = of_axle(axle, front_brakes, rear_brakes)
        if one.kind == "disc":
            return 2.0 * one.pad_area
        return one.lining_width * one.rotor_diameter * one.lining_arc

    return each_axle(area)


@quantity("J/m²", "Work of the linings in one stop from 100 km/h", per="axle", source="limpert",
          shown="J/mm²")  # fmt: skip
def lining_work(
    stop_heat: Values,
    rotor_heat_share: Labelled,
    lining_area: Labelled,
    front_brakes: FrontBrakes,
    rear_brakes: RearBrakes,
) -> Labelled:
    """All that the brake turns to heat, over its lining; compare it with the maker's figure."""
    return each_axle(
        lambda axle: (
            stop_heat
            * rotor_heat_share[axle]
            / of_axle(axle, front_brakes, rear_brakes).heat_share
            / lining_area[axle]
        )
    )


@quantity("W/m²", "Mean work rate of the linings in that stop", per="axle", source="limpert",
          shown="W/mm²")  # fmt: skip
def lining_work_rate(lining_work: Labelled) -> Labelled:
    """At 0.5 g; the first moment has twice as much."""
    time = HUNDRED / (MODERATE_STOP * STANDARD_GRAVITY)
    return each_axle(lambda axle: lining_work[axle] / time)


@quantity("Pa", "Stress of the rubbed surface in one stop", per="axle", source="timoshenko-goodier",
          shown="MPa")  # fmt: skip
def rotor_surface_stress(rotor_surface_rise_one_stop: Labelled) -> Labelled:
    """Hold a hot skin on cold iron, pressed both ways; heat cracks begin where it yields."""
    return each_axle(
        lambda axle: warming.restrained_surface_stress(
            rise=rotor_surface_rise_one_stop[axle],
            modulus=IRON_MODULUS,
            expansion=IRON_EXPANSION,
            poisson=IRON_POISSON,
        )
    )


def hot_force_share(
    line: BrakeLine, pressure: Values, friction: Labelled, sensitivity: Labelled
) -> Values:
    """Return what is left of the braking force at a line pressure, linings hot over cold. [-]."""
    cold = {FRONT: line.front(pressure), REAR: line.rear(pressure)}
    left = {axle: cold[axle] * np.power(friction[axle], sensitivity[axle]) for axle in cold}
    return (left[FRONT] + left[REAR]) / (cold[FRONT] + cold[REAR])


def hot_friction(one: AxleBrakes, temperature: Values) -> Values:
    """Return a lining's friction at a temperature over its cold friction."""
    known = friction_over_temperature(one.lining)
    least, likely, largest = (
        np.interp(temperature, known.temperature, share)
        for share in (known.least, known.likely, known.largest)
    )
    place = one.fade_resistance
    low = least + (likely - least) * 2.0 * np.minimum(place, 0.5)
    return np.asarray(low + (largest - likely) * 2.0 * np.maximum(place - 0.5, 0.0))
