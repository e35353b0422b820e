"""Tyres as a person gives them: the size on the sidewall, and what was measured or quoted."""

from __future__ import annotations

from drybuild.physics.tyre_sizes import TyreSize, tyre_size
from drybuild.project.fields import notation, reading
from drybuild.project.tyre_grip import TyreGrip


def read_size(text: str) -> TyreSize:
    """Read a size as marked, as the file's reader asks for it."""
    return tyre_size(text=text)


class Tyres(TyreGrip):
    """A set of four tyres; entries that begin with rear count where the rear ones differ."""

    size = notation("Size as marked, with its service description", read_size, "185/70R14 88H")
    rear_size = notation("Size of the rear tyres, where it differs", read_size, "205/60R15 91V")
    outside_diameter = reading(
        "m", "Outside diameter, new and unloaded, measured or quoted", typical=True
    )
    rear_outside_diameter = reading("m", "Outside diameter of the rear tyres, where it differs")
    section_width = reading("m", "Widest width of the tyre on its measuring rim", typical=True)
    rear_section_width = reading("m", "Widest width of the rear tyres, where it differs")
    load_capacity = reading("kg", "Load that one tyre is rated for", typical=True)
    rear_load_capacity = reading("kg", "Load that one rear tyre is rated for, where it differs")
    speed_rating = reading("m/s", "Speed that the tyres are rated for", typical=True)
    pressure = reading("Pa", "Cold gauge pressure, front", typical=True)
    rear_pressure = reading("Pa", "Cold gauge pressure, rear", typical=True)
    reference_pressure = reading(
        "Pa", "Cold gauge pressure at which the rated load holds", typical=True
    )
    pressure_exponent = reading("-", "Power of pressure that the load goes with", typical=True)
    height_share = reading(
        "-", "Share of the section height that stays under load", typical=True, most=1.0
    )
    adhesion = reading("-", "Greatest braking force over load, dry road", typical=True, most=2.0)
    wet_adhesion = reading("-", "Greatest braking force over load, wet road", typical=True, most=2)

    @property
    def unknown(self) -> bool:
        """Whether these are the tyres that stand on the car, of whatever size they are."""
        told = ("size", "outside_diameter", "section_width")
        return self.as_is and not any(self.has(name) for name in told)
