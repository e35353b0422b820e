"""How the car goes: road load, grip, acceleration from rest, top speed, fuel and range."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from drybuild.physics.acceleration import (
    Run,
    full_throttle_run,
    speed_at_distance,
    time_to_distance,
    time_to_speed,
)
from drybuild.physics.acceleration import top_speed as greatest_speed
from drybuild.physics.cooling import (
    four_stroke_power,
    friction_pressure_barnes_moss,
    fuel_heat_willans,
)
from drybuild.physics.drives import Drive, clutch_drive, converter_drive
from drybuild.physics.gearing import engine_speed_at, grade_for_force
from drybuild.physics.performance import (
    constant_power_time_to_distance,
    top_speed_from_power,
    traction_limit_four_wheel,
    traction_limit_live_axle,
    traction_limit_two_wheel,
)
from drybuild.physics.road_load import coast_down_force
from drybuild.physics.sampled import look_up
from drybuild.project.body import Body
from drybuild.project.brief import Brief
from drybuild.project.driveline import Axle, Gearbox
from drybuild.project.engine import Engine
from drybuild.project.performance import Running
from drybuild.project.samples import Values
from drybuild.project.tyres import Tyres
from drybuild.quantities.engine import EngineCurve, Peaks
from drybuild.quantities.quantity import quantity, step
from drybuild.tables.fuel import fuel_named
from drybuild.units import STANDARD_GRAVITY

AIR_DENSITY = 1.2  # [kg/m³], 20 °C at sea level
TEST_LOAD = 136.078  # [kg], 300 lb, 40 CFR 86.082-2: loaded vehicle weight
ROTATING_SHARE = 0.04  # [-], Wong: wheels and driveline in the mass factor 1.04 + 0.0025 N²
ENGINE_SHARE = 0.0025  # [-], the engine's part of it, for each unit of overall ratio squared
STALL_SHARE = 0.45  # [-], stall speed over rated speed, common practice
LEAST_PULL_SHARE = 0.15  # [-], lowest useful engine speed over rated speed, common practice
SIXTY_MPH = 26.8224  # [m/s]
HUNDRED_KMH = 100.0 / 3.6  # [m/s]
CRUISE_110 = 110.0 / 3.6  # [m/s]
QUARTER_MILE = 402.336  # [m]


@dataclass(frozen=True, kw_only=True)
class RoadLoad:
    """Force against speed on the level, A + B v + C v²."""

    constant: Values
    linear: Values
    quadratic: Values

    def at(self, speed: Values | float) -> Values:
        """Return the force [N] at a speed [m/s]."""
        return np.asarray(
            coast_down_force(
                speed=speed, constant=self.constant, linear=self.linear, quadratic=self.quadratic
            )
        )


@quantity("kg", "Mass for acceleration and top speed", source="epa-loaded-weight")
def test_mass(kerb_mass: Values) -> Values:
    """Add 300 lb to the kerb mass: two people, or one and instruments."""
    return kerb_mass + TEST_LOAD


@quantity("W/kg", "Peak power for the kerb mass", source="definition")
def power_to_weight(peak_power: Values, kerb_mass: Values) -> Values:
    """Divide peak power by kerb mass."""
    return peak_power / kerb_mass


@quantity("m²", "Drag area", source="hucho-drag")
def drag_area(body: Body) -> Values:
    """Multiply drag coefficient and frontal area."""
    return body.drag_coefficient * body.frontal_area


@step("Road load on the level", source="gillespie-road-load")
def road_load(running: Running, drag_area: Values, test_mass: Values) -> RoadLoad:
    """Take it as coasted down, else from rolling resistance and drag."""
    measured = ("coast_down_constant", "coast_down_linear", "coast_down_quadratic")
    if all(running.has(name) for name in measured):
        return RoadLoad(
            constant=running.coast_down_constant,
            linear=running.coast_down_linear,
            quadratic=running.coast_down_quadratic,
        )
    rolling = running.rolling_resistance * test_mass * STANDARD_GRAVITY
    return RoadLoad(constant=rolling, linear=0.0 * rolling, quadratic=0.5 * AIR_DENSITY * drag_area)


@quantity("N", "Road load at the cruising speed", source="gillespie-road-load")
def road_load_at_cruise(road_load: RoadLoad, brief: Brief) -> Values:
    """Take the road load at the brief's cruising speed, else 110 km/h."""
    return road_load.at(brief.cruise_speed)


@quantity("W", "Road load power at 110 km/h", source="gillespie-road-load", shown="kW")
def road_load_power_at_110_kmh(road_load: RoadLoad) -> Values:
    """Take it at the driven tyres, on the level in still air."""
    return road_load.at(CRUISE_110) * CRUISE_110


@quantity("N", "Greatest drive force on a dry road", source="gillespie-acceleration")
def launch_traction_limit(
    axle: Axle,
    tyres: Tyres,
    body: Body,
    test_mass: Values,
    front_axle_share: Values,
    cg_height: Values,
    driven_radius: Values,
) -> Values:
    """Find what the driven tyres hold; a live axle with an open differential lifts one."""
    weight = test_mass * STANDARD_GRAVITY
    if axle.driven == "both":
        return np.asarray(traction_limit_four_wheel(weight=weight, friction=tyres.adhesion))
    rear = axle.driven == "rear"
    slender = cg_height / body.wheelbase
    if rear and axle.kind == "live" and axle.differential == "open":
        return np.asarray(
            traction_limit_live_axle(
                weight=weight,
                friction=tyres.adhesion,
                rear_share=1.0 - front_axle_share,
                height_over_wheelbase=slender,
                rolling_radius=driven_radius,
                final_drive=axle.final_drive,
                track=body.rear_track,
                front_roll_share=axle.front_roll_share,
            )
        )
    return np.asarray(
        traction_limit_two_wheel(
            weight=weight,
            friction=tyres.adhesion,
            driven_share=1.0 - front_axle_share if rear else front_axle_share,
            height_over_wheelbase=slender,
            rear_driven=rear,
        )
    )


@quantity(
    "m/s²",
    "Greatest acceleration that the tyres hold",
    source="gillespie-acceleration",
    shown="g_0",
)
def launch_acceleration_limit(launch_traction_limit: Values, test_mass: Values) -> Values:
    """Divide the greatest drive force by the mass."""
    return launch_traction_limit / test_mass


@quantity("-", "First-gear drive force over what the tyres hold", source="gillespie-acceleration")
def launch_grip_use(
    wheel_torque_first_gear: Values, driven_radius: Values, launch_traction_limit: Values
) -> Values:
    """Compare them; above one the driver must feed the power in."""
    return wheel_torque_first_gear / driven_radius / launch_traction_limit


@quantity("kg·m²", "Inertia of engine and flywheel", source="wong-performance")
def engine_inertia(engine: Engine, test_mass: Values, driven_radius: Values) -> Values:
    """Take it as given, else the engine's part of the usual mass factor of cars."""
    return engine.inertia if engine.has("inertia") else ENGINE_SHARE * test_mass * driven_radius**2


@step("What drives the gearbox", source="naunheimer")
def gearbox_drive(
    engine: Engine,
    gearbox: Gearbox,
    running: Running,
    engine_curve: EngineCurve,
    engine_peaks: Peaks,
) -> Drive:
    """Put the engine before a clutch or a torque converter, or take an electric engine."""
    curve = {"limit_speed": engine_curve.limit_speed, "torque": engine_curve.torque}
    rated = engine_peaks.rated_speed
    if engine.kind == "electric":
        return clutch_drive(
            launch_speed=0.0,
            idle_speed=0.0,
            drag_torque=0.0,
            **curve,
        )
    if gearbox.kind == "automatic":
        return converter_drive(
            stall_speed=gearbox.stall_speed if gearbox.has("stall_speed") else STALL_SHARE * rated,
            stall_torque_ratio=gearbox.stall_torque_ratio,
            coupling_ratio=gearbox.coupling_ratio,
            **curve,
        )
    launch = running.launch_speed if running.has("launch_speed") else engine_peaks.band_start
    drag = friction_pressure_barnes_moss(engine_speed=rated) * engine.displacement / (4.0 * np.pi)
    return clutch_drive(
        launch_speed=np.clip(launch, None, 0.95 * engine_curve.limit_speed),
        idle_speed=LEAST_PULL_SHARE * rated,
        drag_torque=drag,
        **curve,
    )


@step("Full-throttle run from rest", source="gillespie-acceleration")
def acceleration_run(
    gearbox_drive: Drive,
    overall_ratios: Values,
    driveline_efficiency: Values,
    driven_radius: Values,
    test_mass: Values,
    road_load: RoadLoad,
    launch_traction_limit: Values,
    gearbox: Gearbox,
    engine_inertia: Values,
    top_speed: Values,
) -> Run:
    """Integrate over speed in the best gear, gripped and geared as the car is."""
    return full_throttle_run(
        drive=gearbox_drive,
        overall_ratios=overall_ratios,
        greatest_speed=top_speed,
        engine_inertia=engine_inertia,
        efficiency=driveline_efficiency,
        rolling_radius=driven_radius,
        mass=test_mass,
        rotating_mass=ROTATING_SHARE * test_mass,
        constant_load=road_load.constant,
        linear_load=road_load.linear,
        quadratic_load=road_load.quadratic,
        traction_force=launch_traction_limit,
        shift_time=gearbox.shift_time,
    )


@quantity("s", "Time from rest to 60 mph", source="gillespie-acceleration")
def zero_to_60_mph(acceleration_run: Run) -> Values:
    """Run from standstill, no roll-out taken off."""
    return time_to_speed(run=acceleration_run, speed=SIXTY_MPH)


@quantity("s", "Time from rest to 100 km/h", source="gillespie-acceleration")
def zero_to_100_kmh(acceleration_run: Run) -> Values:
    """Run from standstill, no roll-out taken off."""
    return time_to_speed(run=acceleration_run, speed=HUNDRED_KMH)


@quantity("s", "Time at full throttle from 80 to 120 km/h", source="gillespie-acceleration")
def eighty_to_120_kmh(acceleration_run: Run) -> Values:
    """Read it off the run: the best gear, with the shifts in between."""
    done = time_to_speed(run=acceleration_run, speed=120.0 / 3.6)
    return done - time_to_speed(run=acceleration_run, speed=80.0 / 3.6)


@quantity("s", "Time for a quarter mile from rest", source="gillespie-acceleration")
def quarter_mile_time(acceleration_run: Run) -> Values:
    """Run from standstill, no roll-out taken off.

    Thirty-two road tests of 1973 and 1974 are met within 1.2 s (root mean square).
    """
    return time_to_distance(run=acceleration_run, distance=QUARTER_MILE)


@quantity(
    "m/s", "Speed at the end of the quarter mile", source="gillespie-acceleration", shown="km/h"
)
def quarter_mile_speed(acceleration_run: Run) -> Values:
    """Read the speed off the run."""
    return speed_at_distance(run=acceleration_run, distance=QUARTER_MILE)


@quantity("s", "Least time for a quarter mile that the power allows", source="fox-1973")
def quarter_mile_bound(
    peak_power: Values, driveline_efficiency: Values, test_mass: Values
) -> Values:
    """Assume perfect grip and gearing, no drag."""
    return np.asarray(
        constant_power_time_to_distance(
            mass=test_mass, wheel_power=peak_power * driveline_efficiency, distance=QUARTER_MILE
        )
    )


@quantity("m/s", "Top speed", source="gillespie-acceleration", shown="km/h")
def top_speed(
    gearbox_drive: Drive,
    overall_ratios: Values,
    driveline_efficiency: Values,
    driven_radius: Values,
    road_load: RoadLoad,
) -> Values:
    """Find it on the level in the fastest gear; what the tyres bear is apart."""
    return greatest_speed(
        drive=gearbox_drive,
        overall_ratios=overall_ratios,
        efficiency=driveline_efficiency,
        rolling_radius=driven_radius,
        constant_load=road_load.constant,
        linear_load=road_load.linear,
        quadratic_load=road_load.quadratic,
    )


@quantity("m/s", "Top speed if geared for it", source="gillespie-acceleration", shown="km/h")
def top_speed_by_power(
    peak_power: Values,
    driveline_efficiency: Values,
    running: Running,
    test_mass: Values,
    drag_area: Values,
) -> Values:
    """Find where road load takes all the power."""
    return np.asarray(
        top_speed_from_power(
            wheel_power=peak_power * driveline_efficiency,
            weight=test_mass * STANDARD_GRAVITY,
            rolling_coefficient=running.rolling_resistance,
            drag_area=drag_area,
            air_density=AIR_DENSITY,
        )
    )


@quantity("-", "Top speed over what the power would allow", source="naunheimer", shown="%")
def top_speed_share(top_speed: Values, top_speed_by_power: Values) -> Values:
    """Show whether some gear suits the top speed: near one it does."""
    return top_speed / top_speed_by_power


@quantity(
    "rad/s", "Engine speed in top gear at cruise", source="gillespie-acceleration", shown="rpm"
)
def cruise_engine_speed(overall_ratios: Values, driven_radius: Values, brief: Brief) -> Values:
    """Leave out a converter's slip; the cruising speed is the brief's, else 110 km/h."""
    return np.asarray(
        engine_speed_at(
            road_speed=brief.cruise_speed,
            overall_ratio=overall_ratios[-1],
            rolling_radius=driven_radius,
        )
    )


@quantity("-", "Cruising engine speed over that of peak power", source="common-practice", shown="%")
def cruise_speed_share(
    engine: Engine, cruise_engine_speed: Values, engine_rated_speed: Values
) -> Values:
    """Show how relaxed the engine is."""
    engine.require_piston()
    return cruise_engine_speed / engine_rated_speed


@quantity("-", "Steepest grade in first gear, laden", source="wong-performance", shown="%")
def gradeability(
    wheel_torque_first_gear: Values,
    driven_radius: Values,
    launch_traction_limit: Values,
    test_mass: Values,
    laden_mass: Values,
    running: Running,
) -> Values:
    """Climb with peak torque, or as far as the tyres hold; rise over run."""
    grip = launch_traction_limit * laden_mass / test_mass
    force = np.minimum(wheel_torque_first_gear / driven_radius, grip)
    weight = laden_mass * STANDARD_GRAVITY
    surplus = force - running.rolling_resistance * weight
    return np.asarray(grade_for_force(surplus_force=surplus, weight=weight))


@quantity(
    "-", "Grade that top gear holds at the cruising speed", source="wong-performance", shown="%"
)
def cruise_gradeability(
    engine_curve: EngineCurve,
    cruise_engine_speed: Values,
    overall_ratios: Values,
    driveline_efficiency: Values,
    driven_radius: Values,
    road_load_at_cruise: Values,
    test_mass: Values,
) -> Values:
    """Hold the cruising speed without changing down."""
    share = cruise_engine_speed / engine_curve.limit_speed
    force = (
        _torque_at(engine_curve, share) * overall_ratios[-1] * driveline_efficiency / driven_radius
    )
    return np.asarray(
        grade_for_force(
            surplus_force=force - road_load_at_cruise, weight=test_mass * STANDARD_GRAVITY
        )
    )


@quantity("m²", "Fuel use at the cruising speed", source="guzzella-sciarretta", shown="l/100 km")
def fuel_use_at_cruise(
    engine: Engine,
    road_load_at_cruise: Values,
    driveline_efficiency: Values,
    cruise_engine_speed: Values,
    brief: Brief,
) -> Values:
    """Run steady on the level: road load and friction over the indicated efficiency."""
    engine.require_piston()
    fuel = fuel_named(engine.fuel)
    friction = four_stroke_power(
        mean_pressure=friction_pressure_barnes_moss(engine_speed=cruise_engine_speed),
        displacement=engine.displacement,
        engine_speed=cruise_engine_speed,
    )
    heat = fuel_heat_willans(
        brake_power=road_load_at_cruise * brief.cruise_speed / driveline_efficiency,
        friction_power=friction,
        indicated_efficiency=engine.indicated_efficiency,
    )
    return np.asarray(heat / (fuel.heating_value * fuel.density) / brief.cruise_speed)


def _torque_at(curve: EngineCurve, share: Values) -> Values:
    """Full-load torque at a share of the limit speed; nothing beyond it."""
    found = look_up(table=curve.torque, share=share[np.newaxis])[0]
    return np.where(share <= 1.0, found, 0.0)
