"""How the car runs: rolling and coast-down as measured, beside what the body says of drag."""

from __future__ import annotations

from drybuild.project.fields import reading
from drybuild.project.sections import Section


class Running(Section):
    """Rolling resistance; measured coast-down coefficients where there are any."""

    rolling_resistance = reading(
        "-", "Rolling resistance over load, with the drag of bearings and brakes", typical=True
    )
    launch_speed = reading("rad/s", "Engine speed held while the clutch slips")
    coast_down_constant = reading("N", "Measured coast-down: force at standstill", least=None)
    coast_down_linear = reading("N·s/m", "Measured coast-down: by speed", least=None)
    coast_down_quadratic = reading("N·s²/m²", "Measured coast-down: by speed squared")
