"""Exhaust and intake as a person gives them."""

from __future__ import annotations

from drybuild.project.fields import reading
from drybuild.project.option import Option
from drybuild.project.sections import Section


class Exhaust(Option):
    """From the manifold's collector to the tail."""

    pipes = reading("-", "Pipes side by side", typical=True, exact=True)
    bore = reading("m", "Inside diameter of each pipe", typical=True)
    length = reading("m", "Length of pipe from collector to tail", typical=True)
    bends = reading("-", "Right-angle bends, or as many degrees together", typical=True)
    bend_loss = reading("-", "Loss coefficient of one right-angle bend", typical=True)
    silencer_loss = reading(
        "-", "Loss coefficients of silencers and catalyst together", typical=True
    )
    roughness = reading("m", "Roughness of the pipe inside", typical=True)
    gas_temperature = reading("K", "Mean temperature of the gas in it at full power", typical=True)


class Intake(Section):
    """From the air filter to the throttle."""

    duct_bore = reading("m", "Inside diameter of the duct to the engine", typical=True)
    ducts = reading("-", "Ducts or carburettor throats side by side", typical=True, exact=True)
    filter_loss = reading("Pa", "Pressure lost in a used air filter at full power", typical=True)
    air_temperature = reading("K", "Temperature of the air that the engine breathes", typical=True)
