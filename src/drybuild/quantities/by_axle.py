"""Work something out for each axle from physics that gives a float or an array."""

from __future__ import annotations

from collections.abc import Callable

import numpy as np

from drybuild.project.samples import Values
from drybuild.quantities.axles import AXLES
from drybuild.quantities.quantity import Labelled


def by_axle(work: Callable[[str], float | Values]) -> Labelled:
    """Return what `work` gives for the front and for the rear, as arrays."""
    return {axle: np.asarray(work(axle), dtype=np.float64) for axle in AXLES}
