"""Static camber and toe of both axles, and what toe costs in rubber."""

from __future__ import annotations

import numpy as np

from drybuild.project.handbook import given_or_handbook
from drybuild.project.samples import Values
from drybuild.project.suspension import FrontSuspension, RearSuspension
from drybuild.quantities.axles import FRONT, REAR, constant
from drybuild.quantities.quantity import Labelled, quantity
from drybuild.tables.ranges import Range
from drybuild.tables.suspension import layout_of

DEGREE = float(np.radians(1.0))
REAR_CAMBER = Range(
    low=-1.5 * DEGREE, value=-0.7 * DEGREE, high=0.3 * DEGREE, unit="rad",
    source_id="common-practice", locator="independent rear wheels",
)  # fmt: skip
REAR_TOE = Range(
    low=-0.10 * DEGREE, value=0.15 * DEGREE, high=0.40 * DEGREE, unit="rad",
    source_id="common-practice", locator="independent rear wheels, both together",
)  # fmt: skip


def rear_camber(rear: RearSuspension) -> Values:
    """Return the rear wheels' static camber: given, none of a rigid axle, else the usual."""
    return _rear(rear, "camber", REAR_CAMBER)


def rear_toe_in(rear: RearSuspension) -> Values:
    """Return the rear wheels' toe-in together: given, none of a rigid axle, else the usual."""
    return _rear(rear, "toe_in", REAR_TOE)


def _rear(rear: RearSuspension, name: str, known: Range) -> Values:
    if not rear.has(name) and layout_of(rear.layout).rigid:
        return constant(0.0)
    return given_or_handbook(rear, name, known, least=None)


@quantity("rad", "Static camber, top outward positive", per="axle", source="the-build-file",
          shown="deg")  # fmt: skip
def static_camber(front_suspension: FrontSuspension, rear_suspension: RearSuspension) -> Labelled:
    """Return what is to be set, with the tolerance of the setting."""
    return {FRONT: front_suspension.camber, REAR: rear_camber(rear_suspension)}


@quantity("rad", "Static toe-in of both wheels together", per="axle", source="the-build-file",
          shown="deg")  # fmt: skip
def static_toe_in(front_suspension: FrontSuspension, rear_suspension: RearSuspension) -> Labelled:
    """Return what is to be set, with the tolerance of the setting."""
    return {FRONT: front_suspension.toe_in, REAR: rear_toe_in(rear_suspension)}


@quantity("m", "Rubber dragged sideways by toe per kilometre", per="axle", source="definition")
def toe_drag(static_toe_in: Labelled) -> Labelled:
    """Return how far each tyre is pushed sideways while it rolls a kilometre straight ahead."""
    return {axle: 1000.0 * np.abs(np.sin(toe / 2.0)) for axle, toe in static_toe_in.items()}
