"""Suspensions for the tests of the linkage room; all invented but the one that names its book."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from drybuild.physics.linkage.layout import Setting
from drybuild.physics.linkage.layouts import Linkage, Swept, linkage

Array = NDArray[np.float64]
Points = dict[str, Array]
NONE = np.zeros(1)
UPRIGHT = Setting(camber=NONE, toe_in=NONE, radius=np.array([0.30]))

# Rill and Arrieta Castro, Road Vehicle Dynamics, 2nd ed. 2020, ch. 5, double wishbone listing
# (attribution from memory; the listing was found in a public file that does not name its origin).
BOOK = {
    "wheel_centre": (0.0, 0.768, 0.0),
    "lower_rear": (-0.251, 0.320, -0.080),
    "lower_front": (0.148, 0.320, -0.094),
    "lower_outer": (0.013, 0.737, -0.145),
    "upper_rear": (-0.105, 0.435, 0.196),
    "upper_front": (0.122, 0.435, 0.230),
    "upper_outer": (-0.025, 0.680, 0.162),
    "tie_inner": (-0.150, 0.380, -0.038),
    "tie_outer": (-0.137, 0.690, -0.088),
}
# The listing leans the wheel by the vector (0, 1, -0.8 deg), whose angle is the arctangent.
BOOK_SETTING = Setting(camber=np.arctan(np.radians([0.8])), toe_in=NONE, radius=np.array([0.285]))
STRUT = {
    "wheel_centre": (0.0, 0.74, 0.30),
    "lower_front": (0.20, 0.35, 0.20),
    "lower_rear": (-0.20, 0.35, 0.20),
    "lower_outer": (0.0, 0.70, 0.18),
    "strut_top": (0.0, 0.56, 0.85),
    "tie_inner": (0.12, 0.35, 0.20),
    "tie_outer": (0.12, 0.70, 0.18),
}
FIVE_LINK = {
    "wheel_centre": (0.0, 0.74, 0.30),
    "lower_front_inner": (0.30, 0.35, 0.24),
    "lower_front_outer": (0.04, 0.69, 0.19),
    "lower_rear_inner": (-0.06, 0.30, 0.21),
    "lower_rear_outer": (-0.03, 0.70, 0.18),
    "upper_front_inner": (0.22, 0.42, 0.43),
    "upper_front_outer": (0.02, 0.66, 0.44),
    "upper_rear_inner": (-0.10, 0.40, 0.42),
    "upper_rear_outer": (-0.04, 0.67, 0.45),
    "toe_inner": (-0.20, 0.36, 0.25),
    "toe_outer": (-0.16, 0.70, 0.24),
}
LOWER = {
    "wheel_centre": (0.0, 0.70, 0.30),
    "lower_axle": (0.0, 0.50, 0.22),
    "lower_body": (0.50, 0.50, 0.25),
}
FOUR_LINK = {**LOWER, "upper_axle": (0.0, 0.10, 0.42), "upper_body": (0.45, 0.40, 0.40)}
PANHARD = {
    **LOWER,
    "top_axle": (0.0, 0.0, 0.42),
    "top_body": (0.40, 0.0, 0.40),
    "panhard_body": (-0.10, -0.50, 0.28),
    "panhard_axle": (-0.10, 0.45, 0.26),
}
WATT = {
    **LOWER,
    "upper_axle": (0.0, 0.50, 0.40),
    "upper_body": (0.50, 0.50, 0.43),
    "watt_pivot": (-0.10, 0.0, 0.27),
    "watt_upper": (-0.10, 0.0, 0.35),
    "watt_lower": (-0.10, 0.0, 0.19),
    "watt_upper_body": (-0.10, 0.50, 0.35),
    "watt_lower_body": (-0.10, -0.50, 0.19),
}
LEAF = {
    "wheel_centre": (0.0, 0.70, 0.30),
    "front_eye": (0.60, 0.50, 0.33),
    "rear_eye": (-0.70, 0.50, 0.33),
    "seat": (0.0, 0.50, 0.25),
}
BEAM = {
    "wheel_centre": (0.0, 0.65, 0.30),
    "front_eye": (0.50, 0.35, 0.35),
    "rear_eye": (-0.50, 0.35, 0.35),
    "seat": (0.0, 0.35, 0.30),
    "kingpin_lower": (0.0, 0.56, 0.24),
    "kingpin_upper": (0.0, 0.54, 0.36),
    "tie_outer": (-0.15, 0.53, 0.27),
    "drag_inner": (-0.60, 0.42, 0.36),
    "drag_outer": (0.0, 0.42, 0.36),
    "pitman_pivot": (-0.60, 0.40, 0.50),
    "pitman_axis": (-0.60, 0.30, 0.50),
}
TORQUE_TUBE = {
    "wheel_centre": (0.0, 0.70, 0.30),
    "tube_ball": (1.20, 0.0, 0.30),
    "panhard_body": (-0.10, -0.50, 0.28),
    "panhard_axle": (-0.10, 0.45, 0.26),
}
TWIN_BEAM = {
    "wheel_centre": (0.0, 0.70, 0.30),
    "beam_pivot": (0.0, -0.30, 0.35),
    "radius_arm_body": (-0.90, 0.35, 0.35),
    "kingpin_lower": (0.0, 0.62, 0.22),
    "kingpin_upper": (-0.01, 0.58, 0.42),
    "tie_inner": (-0.12, -0.20, 0.33),
    "tie_outer": (-0.12, 0.60, 0.28),
}
TORQUE_ARM = {
    **LOWER,
    "arm_front_end": (1.10, 0.0, 0.36),
    "panhard_body": (-0.10, -0.50, 0.28),
    "panhard_axle": (-0.10, 0.45, 0.26),
}
TWIST_BEAM = {
    "wheel_centre": (0.0, 0.70, 0.30),
    "beam_bush": (0.42, 0.52, 0.33),
    "beam_centre": (0.20, 0.0, 0.31),
}
PILLAR = {
    "wheel_centre": (0.0, 0.65, 0.30),
    "pillar_lower": (0.01, 0.58, 0.20),
    "pillar_upper": (-0.02, 0.56, 0.55),
    "tie_inner": (-0.14, 0.30, 0.31),
    "tie_outer": (-0.14, 0.55, 0.30),
}
SEMI_TRAILING = {
    "wheel_centre": (0.0, 0.70, 0.30),
    "arm_inner": (0.35, 0.20, 0.27),
    "arm_outer": (0.48, 0.56, 0.29),
}
SWING = {
    "wheel_centre": (0.0, 0.70, 0.30),
    "arm_front": (0.50, 0.10, 0.31),
    "arm_rear": (0.0, 0.10, 0.30),
}
ALL = {
    "double wishbone": BOOK,
    "strut": STRUT,
    "multi-link": FIVE_LINK,
    "trailing arm": {**SEMI_TRAILING, "arm_outer": (0.35, 0.56, 0.27)},
    "semi-trailing arm": SEMI_TRAILING,
    "swing axle": SWING,
    "live axle on links": FOUR_LINK,
    "de Dion axle": WATT,
    "live axle on leaf springs": LEAF,
    "beam axle on leaf springs": BEAM,
    "live axle on torque tube": TORQUE_TUBE,
    "twin beam": TWIN_BEAM,
    "live axle on torque arm": TORQUE_ARM,
    "twist beam": TWIST_BEAM,
    "sliding pillar": PILLAR,
}


def points_of(raw: dict[str, tuple[float, float, float]]) -> Points:
    """Return points as arrays."""
    return {name: np.array(one) for name, one in raw.items()}


def made(layout: str, raw: dict[str, tuple[float, float, float]], arm: str = "") -> Linkage:
    """Return a suspension with an upright wheel, or the book's own setting."""
    setting = BOOK_SETTING if raw is BOOK else UPRIGHT
    return linkage(layout=layout, points=points_of(raw), setting=setting, spring_arm=arm)


def moved(
    layout: str,
    raw: dict[str, tuple[float, float, float]],
    travel: Array = NONE,
    steer: Array = NONE,
    roll: Array = NONE,
    arm: str = "",
) -> Swept:
    """Return a suspension over a grid."""
    return made(layout, raw, arm).motion(travel=travel, steer=steer, roll=roll)
