"""Rates of springs and bars from their dimensions, as far as a suspension option gives them."""

from __future__ import annotations

import numpy as np

from drybuild.physics import springs
from drybuild.physics.air_springs import air_spring_pressure, air_spring_rate
from drybuild.physics.anti_roll_bars import BarShape, bar_shape, shaped_bar_rate
from drybuild.project.handbook import given_or_handbook
from drybuild.project.samples import Values
from drybuild.project.sections import Section
from drybuild.project.suspension import (
    AirSpring,
    AntiRollBar,
    CoilSpring,
    LeafSpring,
    Suspension,
    TorsionBar,
)
from drybuild.tables.suspension import layout_of
from drybuild.units import STANDARD_GRAVITY


def motion_ratio_of(suspension: Suspension) -> Values:
    """Return spring travel over wheel travel: given, else what the layout usually has."""
    known = layout_of(suspension.layout).motion_ratio
    return given_or_handbook(suspension, "motion_ratio", known)


def rate_from_dimensions(suspension: Suspension, sprung: Values, ratio: Values) -> Values | None:
    """Return the rate of one spring; of a torsion bar, at the wheel; None if nothing is given."""
    if suspension.has("spring_rate"):
        return suspension.spring_rate
    if suspension.has("coil"):
        return _coil(suspension.coil)
    if suspension.has("leaf"):
        return _leaf(suspension.leaf)
    if suspension.has("torsion_bar"):
        return _torsion_bar(suspension.torsion_bar, sprung)
    if suspension.has("air_spring"):
        return _air(suspension.air_spring, sprung * STANDARD_GRAVITY / ratio)
    return None


def bar_end_rate(suspension: Suspension) -> Values:
    """Return the rate of the anti-roll bar at its ends: given, else from its dimensions."""
    bar: AntiRollBar = suspension.anti_roll_bar
    if bar.has("rate"):
        return bar.rate
    if bar.has("line"):
        return np.asarray(
            shaped_bar_rate(
                shape=bar_line(bar),
                diameter=bar.diameter,
                bore=_or_none(bar, "bore"),
                bush_rate=bar.bush_rate,
                youngs_modulus=bar.youngs_modulus,
                shear_modulus=bar.shear_modulus,
            )
        )
    arm = bar.arm_length
    length = bar.centre_length
    return np.asarray(
        springs.anti_roll_bar_rate(
            diameter=bar.diameter,
            bore=_or_none(bar, "bore"),
            arm_length=arm,
            lever=np.minimum(bar.lever, arm) if bar.has("lever") else arm,
            centre_length=length,
            bush_spacing=np.minimum(bar.bush_spacing, length)
            if bar.has("bush_spacing")
            else length,
            bush_rate=bar.bush_rate,
            youngs_modulus=bar.youngs_modulus,
            shear_modulus=bar.shear_modulus,
        )
    )


def bar_line(bar: AntiRollBar) -> BarShape:
    """Return what the bar's own line makes of a force at its end."""
    return bar_shape(line=bar.line, bush=bar.bush_place)


def _air(spring: AirSpring, force: Values) -> Values:
    return np.asarray(
        air_spring_rate(
            pressure=air_spring_pressure(load=force, area=spring.area),
            area=spring.area,
            volume=spring.volume,
            area_slope=_or_none(spring, "area_slope"),
            exponent=spring.exponent,
        )
    )


def _coil(coil: CoilSpring) -> Values:
    rate = springs.coil_spring_rate(
        wire_diameter=coil.wire_diameter,
        mean_diameter=coil.mean_diameter,
        active_coils=coil.active_coils,
        shear_modulus=coil.shear_modulus,
    )
    if coil.has("coils_removed"):
        rate = springs.cut_coil_spring_rate(
            rate=rate, active_coils=coil.active_coils, coils_removed=coil.coils_removed
        )
    return np.asarray(rate)


def _leaf(leaf: LeafSpring) -> Values:
    return np.asarray(
        springs.leaf_spring_rate(
            front_length=leaf.front_length,
            rear_length=leaf.rear_length,
            inertia_sum=leaf.leaves * leaf.leaf_width * leaf.leaf_thickness**3 / 12.0,
            youngs_modulus=leaf.youngs_modulus,
            stiffening_factor=leaf.stiffening,
        )
    )


def _torsion_bar(bar: TorsionBar, sprung: Values) -> Values:
    twist = springs.torsion_bar_twist_rate(
        diameter=bar.diameter,
        bore=_or_none(bar, "bore"),
        length=bar.length,
        shear_modulus=bar.shear_modulus,
    )
    return np.asarray(
        springs.torsion_bar_wheel_rate(
            twist_rate=twist,
            arm_length=bar.arm_length,
            arm_angle=_or_none(bar, "arm_angle"),
            static_force=sprung * STANDARD_GRAVITY,
        )
    )


def _or_none(section: Section, name: str) -> Values:
    """Return an entry that counts as zero when it is not given: a solid bar, a level arm."""
    value: Values = getattr(section, name) if section.has(name) else np.zeros(1)
    return value
