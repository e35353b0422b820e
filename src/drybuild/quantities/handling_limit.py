"""Where the tyres let go in a steady bend, and whether the car tips before."""

from __future__ import annotations

import numpy as np

from drybuild.physics.load_transfer import rollover_risk_nhtsa_2003
from drybuild.physics.load_transfer import static_stability_factor as tipping_factor
from drybuild.physics.steady_corner import Bend, axle_limit
from drybuild.project.handbook import handbook
from drybuild.project.samples import Values
from drybuild.project.tyres import Tyres
from drybuild.quantities.axles import FRONT, REAR, each_axle
from drybuild.quantities.quantity import Labelled, quantity
from drybuild.tables.ranges import Range, scaled
from drybuild.units import STANDARD_GRAVITY

REFERENCE_SHARE = Range(
    low=0.60,
    value=0.66,
    high=0.72,
    unit="-",
    source_id="pacejka",
    locator="205/60 R 15 91V described at 4000 N, rated 615 kg",
)


@quantity("N", "Load at which the tyres' figures hold", per="axle", source="pacejka")
def tyre_reference_load(tyres: Tyres, tyre_load_capacity: Labelled) -> Labelled:
    """Take it as given, else two thirds of the rated load, where a published tyre was described."""
    if tyres.has("reference_load"):
        return {FRONT: tyres.reference_load, REAR: tyres.reference_load}
    rated = float(tyre_load_capacity[FRONT][0])
    share = (
        handbook(tyres, "reference_load", scaled(REFERENCE_SHARE, rated * STANDARD_GRAVITY, "N"))
        / rated
    )
    return each_axle(lambda axle: share * tyre_load_capacity[axle])


@quantity("-", "Static stability factor on a journey", source="68-fr-59291")
def static_stability_factor(track: Labelled, laden_cg_height: Values) -> Values:
    """Return the lateral acceleration in g at which the rigid car would tip."""
    mean = (track[FRONT] + track[REAR]) / 2.0
    return np.asarray(tipping_factor(track=mean, cg_height=laden_cg_height))


@quantity("-", "Rollover risk in a single-car crash", source="68-fr-59291", shown="%")
def rollover_risk(track: Labelled, cg_height: Values) -> Values:
    """Apply the agency's fit to the empty car; none below a factor of 0.90, where it ends."""
    mean = (track[FRONT] + track[REAR]) / 2.0
    factor = np.asarray(tipping_factor(track=mean, cg_height=cg_height))
    inside = factor > 0.9
    risk = rollover_risk_nhtsa_2003(static_stability_factor=np.where(inside, factor, 1.0))
    return np.where(inside, risk, np.nan)


@quantity("m/s²", "Cornering limit on a dry road", source="milliken", shown="g")
def cornering_limit(axle_cornering_limit: Labelled) -> Values:
    """Return the steady acceleration at which the first axle slides or the car tips."""
    return np.minimum(axle_cornering_limit[FRONT], axle_cornering_limit[REAR])


@quantity(
    "m/s²", "Cornering limit of each axle by itself", per="axle", source="milliken", shown="g"
)
def axle_cornering_limit(bend: Bend) -> Labelled:
    """Let the other axle hold whatever is asked of it."""
    return each_axle(lambda axle: axle_limit(bend=bend, axle=axle))


@quantity("m/s²", "Rear cornering limit less front", source="milliken", shown="g")
def limit_balance(axle_cornering_limit: Labelled) -> Values:
    """Return what the rear has in hand when the front slides; negative spins first."""
    return axle_cornering_limit[REAR] - axle_cornering_limit[FRONT]
