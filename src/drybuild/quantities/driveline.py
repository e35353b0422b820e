"""Gearing, clutch, gearbox, axle and mounts: ratios, torques, speeds, reserves."""

from __future__ import annotations

import numpy as np

from drybuild.errors import DoesNotApply, require
from drybuild.physics.driveline import (
    axle_pitch_torque,
    biased_torque_share,
    clutch_capacity_uniform_wear,
    clutch_launch_work,
    clutch_lining_pressure,
    half_shaft_torque,
    highest_mount_frequency,
    mount_pair_force,
)
from drybuild.physics.drives import Drive
from drybuild.physics.gearing import gearbox_steps, progressive_ratios, road_speed_at
from drybuild.physics.joints import shaft_shear_stress
from drybuild.project.driveline import Axle, Clutch, Gearbox
from drybuild.project.engine import Engine
from drybuild.project.option import ask_where_changed
from drybuild.project.samples import Values
from drybuild.project.tyres import Tyres
from drybuild.quantities.quantity import Labelled, quantity, step
from drybuild.tables.driveline import clutch_lining

PROGRESSION = 1.1  # [-], Naunheimer: 1.0 to 1.2 in cars
THOUSAND_RPM = 1000.0 * np.pi / 30.0  # [rad/s]
USUAL_LAUNCH = 2.0 * THOUSAND_RPM  # [rad/s], Naunheimer's example


@step("Gearbox ratios", source="naunheimer")
def gearbox_ratios(gearbox: Gearbox) -> Values:
    """Take them as given, else step down from first to top gear; a row a gear."""
    if not gearbox.has("ratios"):
        return progressive_ratios(
            lowest_gear=gearbox.first_ratio,
            highest_gear=gearbox.top_ratio,
            gears=round(float(gearbox.gears[0])),
            progression=PROGRESSION,
        )
    ratios = gearbox.ratios
    require(np.diff(ratios, axis=0) < 0.0, "gearbox.ratios", ratios[:, 0], "-", "falling")
    return ratios


@step("Overall ratios", source="definition")
def overall_ratios(gearbox_ratios: Values, axle: Axle) -> Values:
    """Multiply by the final drive; a row a gear."""
    return gearbox_ratios * axle.final_drive


@quantity("-", "Gearbox ratio", per="gear", source="the-build-file")
def gearbox_ratio(gearbox_ratios: Values) -> Labelled:
    """List the ratios of the gearbox."""
    return _by_gear(gearbox_ratios)


@quantity("-", "Overall ratio", per="gear", source="definition")
def overall_ratio(overall_ratios: Values) -> Labelled:
    """Count engine turns for one turn of the wheels."""
    return _by_gear(overall_ratios)


@quantity("-", "Step from gear to gear", per="shift", source="naunheimer")
def gear_step(gearbox_ratios: Values) -> Labelled:
    """Divide each ratio by the next: the engine speed falls by this factor at a shift."""
    steps = gearbox_steps(ratios=gearbox_ratios)
    return {f"{gear + 1} to {gear + 2}": one for gear, one in enumerate(steps)}


@quantity("m", "Rolling radius of the driven wheels", source="etrto-standards-manual", shown="mm")
def driven_radius(axle: Axle, rolling_radius: Labelled) -> Values:
    """Take the driven axle's; the rear's where both are driven."""
    return rolling_radius["front" if axle.driven == "front" else "rear"]


@quantity("-", "Efficiency from flywheel to tyre", source="bosch-handbook-driveline", shown="%")
def driveline_efficiency(gearbox: Gearbox, axle: Axle) -> Values:
    """Multiply gearbox and final drive; a torque converter is apart."""
    return gearbox.efficiency * axle.efficiency


@quantity("m/s", "Road speed at 1000 rpm", per="gear", source="definition", shown="km/h")
def speed_per_1000_rpm(overall_ratios: Values, driven_radius: Values) -> Labelled:
    """Roll the tyre at a thousand turns of the engine."""
    return _by_gear(_speeds(THOUSAND_RPM + 0.0 * driven_radius, overall_ratios, driven_radius))


@quantity(
    "m/s", "Road speed at the highest engine speed", per="gear", source="definition", shown="km/h"
)
def speed_in_gear(
    overall_ratios: Values, driven_radius: Values, engine_limit_speed: Values
) -> Labelled:
    """Roll the tyre at the engine's highest speed."""
    return _by_gear(_speeds(engine_limit_speed, overall_ratios, driven_radius))


@quantity("N·m", "Greatest torque into the gearbox", source="naunheimer")
def gearbox_input_torque(gearbox: Gearbox, gearbox_drive: Drive, peak_torque: Values) -> Values:
    """Take the engine's peak, or what a torque converter makes of it."""
    if gearbox.kind == "automatic":
        return np.asarray(np.nanmax(gearbox_drive.torque, axis=0))
    return peak_torque


@quantity("N·m", "Torque at the driven wheels in first gear", source="gillespie-acceleration")
def wheel_torque_first_gear(
    gearbox_input_torque: Values, overall_ratios: Values, driveline_efficiency: Values
) -> Values:
    """Multiply the greatest input torque by ratio and efficiency; both wheels together."""
    torque: Values = gearbox_input_torque * overall_ratios[0] * driveline_efficiency
    return torque


@quantity("-", "Gearbox's rated torque over the engine's peak", source="common-practice")
def gearbox_torque_margin(engine: Engine, gearbox: Gearbox, peak_torque: Values) -> Values:
    """Divide the rated engine torque by the peak torque."""
    given = gearbox.has("torque_rating")
    ask_where_changed(gearbox, engine, given=given, why="engine and gearbox stay as they are")
    return gearbox.torque_rating / peak_torque


# ------------------------------------------------------------------ clutch


@quantity("N·m", "Torque at which the clutch slips", source="shigley-clutches")
def clutch_capacity(clutch: Clutch, gearbox: Gearbox) -> Values:
    """Take it as its maker says, else from lining, force and friction, worn in."""
    _needs_clutch(gearbox)
    if clutch.has("torque_rating"):
        return clutch.torque_rating
    return np.asarray(
        clutch_capacity_uniform_wear(
            friction=clutch.friction,
            clamp_force=clutch.clamp_force,
            outer_radius=clutch.outer_diameter / 2.0,
            inner_radius=clutch.inner_diameter / 2.0,
            faces=2.0 * clutch.plates,
        )
    )


@quantity("-", "Clutch torque over the engine's peak", source="bosch-handbook-driveline")
def clutch_reserve(engine: Engine, clutch_capacity: Values, peak_torque: Values) -> Values:
    """Divide the torque at which it slips by the peak torque; electric motors need no clutch."""
    engine.require_piston()
    return clutch_capacity / peak_torque


@quantity("Pa", "Pressure on the clutch lining", source="shigley-clutches", shown="MPa")
def clutch_pressure(engine: Engine, clutch: Clutch, gearbox: Gearbox) -> Values:
    """Divide the force of the pressure plate by the ring of the lining."""
    engine.require_piston()
    _needs_clutch(gearbox)
    return np.asarray(
        clutch_lining_pressure(
            clamp_force=clutch.clamp_force,
            outer_radius=clutch.outer_diameter / 2.0,
            inner_radius=clutch.inner_diameter / 2.0,
        )
    )


@quantity("Pa", "Pressure that the lining lasts at", source="bosch-handbook-driveline", shown="MPa")
def clutch_pressure_allowed(clutch: Clutch) -> Values:
    """Look up the lining."""
    return np.array([clutch_lining(clutch.lining).greatest_pressure])


@quantity("J", "Heat in the clutch of one start from rest, laden", source="naunheimer", shown="kJ")
def clutch_launch_heat(
    gearbox: Gearbox,
    laden_mass: Values,
    driven_radius: Values,
    overall_ratios: Values,
    peak_torque: Values,
    clutch_reserve: Values,
) -> Values:
    """Start at 2000 rpm with peak torque, on the level."""
    _needs_clutch(gearbox)
    return np.asarray(
        clutch_launch_work(
            mass=laden_mass,
            rolling_radius=driven_radius,
            overall_ratio=overall_ratios[0],
            launch_speed=USUAL_LAUNCH,
            clutch_torque=peak_torque * np.minimum(clutch_reserve, 1.0),
            resisting_torque=0.0,
        )
    )


# ------------------------------------------------------------------ axle and half-shafts


@quantity("N·m", "Torque to design the axle for", source="gillespie-acceleration")
def axle_design_torque(
    wheel_torque_first_gear: Values, launch_traction_limit: Values, driven_radius: Values
) -> Values:
    """Take the lesser of what arrives and what the tyres hold; both wheels together."""
    return np.minimum(wheel_torque_first_gear, launch_traction_limit * driven_radius)


@quantity("-", "Axle's rated torque over the design torque", source="common-practice")
def axle_torque_margin(
    engine: Engine, gearbox: Gearbox, axle: Axle, axle_design_torque: Values
) -> Values:
    """Divide the rating by the design torque."""
    why = "engine, gearbox and axle stay as they are"
    ask_where_changed(axle, engine, gearbox, given=axle.has("torque_rating"), why=why)
    return axle.torque_rating / axle_design_torque


@quantity("N·m", "Torque that the axle is held against", source="definition")
def axle_reaction_torque(
    axle: Axle, axle_design_torque: Values, launch_traction_limit: Values, driven_radius: Values
) -> Values:
    """Hold the nose of the axle down: springs or links must."""
    force = np.minimum(axle_design_torque / driven_radius, launch_traction_limit)
    return np.asarray(axle_pitch_torque(drive_force=force, rolling_radius=driven_radius))


@quantity("N·m", "Torque that one half-shaft must carry", source="common-practice")
def half_shaft_design_torque(
    axle: Axle,
    tyres: Tyres,
    wheel_torque_first_gear: Values,
    launch_traction_limit: Values,
    driven_radius: Values,
) -> Values:
    """Take one side's share by the differential, but no more than its tyre holds."""
    return np.asarray(
        half_shaft_torque(
            axle_torque=wheel_torque_first_gear,
            torque_share=biased_torque_share(bias_ratio=np.maximum(axle.bias_ratio, 1.0)),
            wheel_weight=launch_traction_limit / tyres.adhesion / 2.0,
            friction=tyres.adhesion,
            rolling_radius=driven_radius,
        )
    )


@quantity("Pa", "Shear stress in a half-shaft", source="shigley-torsion", shown="MPa")
def half_shaft_stress(axle: Axle, half_shaft_design_torque: Values) -> Values:
    """Twist its least diameter."""
    return np.asarray(
        shaft_shear_stress(
            torque=half_shaft_design_torque,
            outside_diameter=axle.half_shaft_diameter,
            inside_diameter=0.0,
        )
    )


@quantity("Pa", "Shear stress that a half-shaft stands", source="common-practice", shown="MPa")
def half_shaft_stress_allowed(axle: Axle) -> Values:
    """Take it as given, else as hardened alloy shafts stand."""
    return axle.half_shaft_strength


# ------------------------------------------------------------------ mounts


@quantity("N", "Up and down force on each engine mount in first gear", source="definition")
def mount_reaction(engine: Engine, gearbox_input_torque: Values, gearbox_ratios: Values) -> Values:
    """Let the two mounts hold engine and gearbox; a dumped clutch adds half as much or more."""
    return np.asarray(
        mount_pair_force(
            engine_torque=gearbox_input_torque,
            gear_ratio=gearbox_ratios[0],
            mount_spacing=engine.mount_spacing,
        )
    )


@quantity("Hz", "Roll frequency of the engine on its mounts", source="the-build-file")
def mount_roll_frequency(engine: Engine) -> Values:
    """Take it as measured or quoted."""
    given = engine.has("mount_roll_frequency")
    ask_where_changed(engine, given=given, why="the engine stays on its mounts")
    return engine.mount_roll_frequency


@quantity("Hz", "Roll frequency above which idle shakes the car", source="den-hartog")
def mount_frequency_limit(idle_firing_frequency: Values) -> Values:
    """Divide the firing frequency at idle by the root of two."""
    return np.asarray(highest_mount_frequency(firing_frequency=idle_firing_frequency))


def _by_gear(rows: Values) -> Labelled:
    return {str(gear): row for gear, row in enumerate(rows, start=1)}


def _speeds(engine_speed: Values, ratios: Values, radius: Values) -> Values:
    return np.asarray(
        road_speed_at(engine_speed=engine_speed, overall_ratio=ratios, rolling_radius=radius)
    )


def _needs_clutch(gearbox: Gearbox) -> None:
    if gearbox.kind == "automatic":
        raise DoesNotApply(gearbox.path_of("kind"), "an automatic gearbox has no clutch to judge")
