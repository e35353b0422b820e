"""The propshaft: torque it must carry, speed at which it whirls, angles of its joints."""

from __future__ import annotations

import numpy as np

from drybuild.errors import DoesNotApply
from drybuild.physics.driveline import shaft_torque_at_wheel_slip, shaft_torque_from_engine
from drybuild.physics.joints import (
    compound_joint_angle,
    joint_excitation,
    joint_speed_fluctuation,
    residual_joint_angle,
    shaft_critical_speed,
    shaft_shear_stress,
)
from drybuild.project.driveline import Axle, Gearbox, Propshaft
from drybuild.project.engine import Engine
from drybuild.project.option import ask_where_changed
from drybuild.project.samples import Values
from drybuild.quantities.quantity import Labelled, quantity
from drybuild.units import STANDARD_GRAVITY

RULE_EFFICIENCY = {"manual": 0.85, "automatic": 0.80}  # [-], manual J3311-1, low on purpose
ELASTICITY = {"steel": (207e9, 7850.0), "aluminium": (70e9, 2700.0)}  # [Pa], [kg/m³]
END_EFFECT = 0.92  # [-], yokes lower the critical speed; trade rule, from memory
TOP_SPEED_MARGIN = 1.1  # [-], downhill and with the wind, common practice
ALLOWED_SHEAR = 0.5 / 1.5  # [-], of the yield strength, common practice


@quantity("N·m", "Propshaft torque that the engine can make", source="driveline-manual-j3311")
def propshaft_torque_from_engine(
    axle: Axle,
    gearbox: Gearbox,
    gearbox_ratios: Values,
    peak_torque: Values,
) -> Values:
    """Multiply peak torque by the lowest gear and, if any, converter and low range."""
    _needs_propshaft(axle)
    automatic = gearbox.kind == "automatic"
    return np.asarray(
        shaft_torque_from_engine(
            engine_torque=peak_torque,
            lowest_gear=gearbox_ratios[0],
            gearbox_efficiency=RULE_EFFICIENCY[gearbox.kind],
            stall_torque_ratio=gearbox.stall_torque_ratio if automatic else 1.0,
            transfer_ratio=gearbox.transfer_ratio if gearbox.has("transfer_ratio") else 1.0,
        )
    )


@quantity("N·m", "Propshaft torque at which the tyres slip", source="driveline-manual-j3311")
def propshaft_torque_at_wheel_slip(
    axle: Axle, laden_axle_load: Labelled, driven_radius: Values
) -> Values:
    """Apply the manual's rule to the laden rear axle."""
    _needs_propshaft(axle)
    return np.asarray(
        shaft_torque_at_wheel_slip(
            axle_weight=laden_axle_load["rear"] * STANDARD_GRAVITY,
            rolling_radius=driven_radius,
            final_drive=axle.final_drive,
        )
    )


@quantity("N·m", "Torque to design the propshaft for", source="driveline-manual-j3311")
def propshaft_design_torque(
    propshaft_torque_from_engine: Values, propshaft_torque_at_wheel_slip: Values
) -> Values:
    """Take the lesser of what the engine makes and what the tyres hold."""
    return np.minimum(propshaft_torque_from_engine, propshaft_torque_at_wheel_slip)


@quantity("Pa", "Shear stress in the propshaft's tube", source="shigley-torsion", shown="MPa")
def propshaft_stress(propshaft: Propshaft, propshaft_design_torque: Values) -> Values:
    """Twist the tube with the design torque."""
    return np.asarray(
        shaft_shear_stress(
            torque=propshaft_design_torque,
            outside_diameter=propshaft.outside_diameter,
            inside_diameter=propshaft.outside_diameter - 2.0 * propshaft.wall,
        )
    )


@quantity("Pa", "Shear stress that the tube may have", source="common-practice", shown="MPa")
def propshaft_stress_allowed(propshaft: Propshaft) -> Values:
    """Take half the yield strength, and a margin of 1.5."""
    return ALLOWED_SHEAR * propshaft.yield_strength


@quantity("-", "Joints' rated torque over the design torque", source="driveline-manual-j3311")
def propshaft_joint_margin(
    engine: Engine, gearbox: Gearbox, propshaft: Propshaft, propshaft_design_torque: Values
) -> Values:
    """Divide the rating of the joints by the design torque."""
    why = "engine, gearbox and propshaft stay as they are"
    ask_where_changed(propshaft, engine, gearbox, given=propshaft.has("joint_rating"), why=why)
    return propshaft.joint_rating / propshaft_design_torque


@quantity("rad/s", "Critical speed of the propshaft", source="timoshenko-vibration", shown="rpm")
def propshaft_critical_speed(propshaft: Propshaft) -> Values:
    """Take the first bending speed of the tube, less 8 % for its ends."""
    modulus, density = ELASTICITY[propshaft.material]
    return END_EFFECT * np.asarray(
        shaft_critical_speed(
            outside_diameter=propshaft.outside_diameter,
            inside_diameter=propshaft.outside_diameter - 2.0 * propshaft.wall,
            length=propshaft.length,
            elastic_modulus=modulus,
            density=density,
        )
    )


@quantity("rad/s", "Highest speed of the propshaft", source="common-practice", shown="rpm")
def propshaft_highest_speed(
    axle: Axle,
    gearbox_ratios: Values,
    engine_limit_speed: Values,
    top_speed: Values,
    driven_radius: Values,
) -> Values:
    """Take 10 % over the top speed on the level, but no more than the engine can turn it.

    With an overdrive the shaft turns faster than the engine.
    """
    _needs_propshaft(axle)
    by_road = TOP_SPEED_MARGIN * top_speed * axle.final_drive / driven_radius
    return np.asarray(np.minimum(engine_limit_speed / gearbox_ratios[-1], by_road))


@quantity("-", "Propshaft's highest speed over its critical speed", source="sae-ae-7")
def propshaft_speed_share(
    propshaft_highest_speed: Values, propshaft_critical_speed: Values
) -> Values:
    """Divide them; makers stop at 0.75."""
    return propshaft_highest_speed / propshaft_critical_speed


@quantity(
    "rad",
    "True joint angle of the propshaft",
    per="joint",
    source="driveline-manual-j3311",
    shown="deg",
)
def propshaft_joint_angle(axle: Axle, propshaft: Propshaft) -> Labelled:
    """Join the angles seen from the side and from above; standing, at ride height."""
    _needs_propshaft(axle)
    return {
        "front": _true_angle(propshaft.front_angle, propshaft.front_plan_angle),
        "rear": _true_angle(propshaft.rear_angle, propshaft.rear_plan_angle),
    }


@quantity("rad", "Difference of the two joint angles", source="driveline-manual-j3311", shown="deg")
def propshaft_angle_difference(propshaft_joint_angle: Labelled) -> Values:
    """Subtract them, whichever is larger."""
    return np.abs(propshaft_joint_angle["front"] - propshaft_joint_angle["rear"])


@quantity("-", "Unevenness of one joint alone", per="joint", source="sae-ae-7", shown="%")
def propshaft_fluctuation(propshaft_joint_angle: Labelled) -> Labelled:
    """Take the greatest less the least output speed, over the input speed."""
    return {
        joint: np.asarray(joint_speed_fluctuation(joint_angle=angle))
        for joint, angle in propshaft_joint_angle.items()
    }


@quantity(
    "rad/s²",
    "Angular acceleration that each joint makes at the highest speed",
    per="joint",
    source="sae-ae-7",
)
def propshaft_joint_excitation(
    propshaft_joint_angle: Labelled, propshaft_highest_speed: Values
) -> Labelled:
    """Square speed times angle; the makers' angle table keeps it near 1000 rad/s²."""
    return {
        joint: np.asarray(joint_excitation(shaft_speed=propshaft_highest_speed, joint_angle=angle))
        for joint, angle in propshaft_joint_angle.items()
    }


@quantity("rad/s²", "Angular acceleration left over by both joints", source="sae-ae-7")
def propshaft_residual_excitation(
    propshaft: Propshaft, propshaft_joint_angle: Labelled, propshaft_highest_speed: Values
) -> Values:
    """Let the second joint undo the first, as far as angles and phase allow."""
    residual = residual_joint_angle(
        first=propshaft_joint_angle["front"],
        second=propshaft_joint_angle["rear"],
        in_phase=not propshaft.out_of_phase,
    )
    return np.asarray(joint_excitation(shaft_speed=propshaft_highest_speed, joint_angle=residual))


def _true_angle(side: Values, plan: Values) -> Values:
    return np.asarray(compound_joint_angle(side_angle=side, plan_angle=plan))


def _needs_propshaft(axle: Axle) -> None:
    if axle.driven == "front":
        raise DoesNotApply(axle.path_of("driven"), "with front-wheel drive there is no propshaft")
