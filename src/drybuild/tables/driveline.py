"""Typed readers of the driveline tables: joint angles and clutch linings."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from drybuild.tables.table import read_table


@dataclass(frozen=True, kw_only=True)
class ClutchLining:
    """What a clutch lining holds."""

    least_friction: float
    """[-]"""
    design_friction: float
    """[-]"""
    greatest_friction: float
    """[-]"""
    greatest_pressure: float
    """[Pa]"""


def clutch_lining(lining: str) -> ClutchLining:
    """Return a clutch lining by its name: ``organic``, ``sintered``."""
    row = read_table("driveline_clutch_lining").row("lining", lining)
    return ClutchLining(
        least_friction=float(row["least_friction"]),
        design_friction=float(row["design_friction"]),
        greatest_friction=float(row["greatest_friction"]),
        greatest_pressure=float(row["greatest_pressure"]) * 1e6,
    )


def joint_angle_rows() -> tuple[tuple[float, float], ...]:
    """Return the makers' table: shaft speed [rad/s] and largest joint angle [rad]."""
    table = read_table("driveline_joint_angle")
    return tuple(
        (speed * math.pi / 30.0, math.radians(angle))
        for speed, angle in zip(
            table.numbers("shaft_speed"), table.numbers("largest_angle"), strict=True
        )
    )


def largest_joint_angle(shaft_speed: npt.NDArray[np.float64]) -> npt.NDArray[np.float64]:
    """Return the largest joint angle [rad] at shaft speeds [rad/s].

    Between the rows the product of speed and angle, which the table keeps nearly constant, is
    interpolated; outside them nothing is printed and nan is returned.
    """
    speeds, angles = np.array(joint_angle_rows()).T
    product = np.interp(shaft_speed, speeds, speeds * angles, left=np.nan, right=np.nan)
    return np.asarray(product / shaft_speed)
