"""Tyres as a person gives them: the size on the sidewall, and what was measured or quoted."""

from __future__ import annotations

from drybuild.project.fields import notation, reading
from drybuild.project.tyre_grip import TyreGrip, read_size


class Tyres(TyreGrip):
    """A set of four tyres; entries that begin with rear count where the rear ones differ."""

    rear_size = notation("Size of the rear tyres, where it differs", read_size, "205/60R15 91V")
    outside_diameter = reading(
        "m", "Outside diameter, new and unloaded, measured or quoted", typical=True
    )
    rear_outside_diameter = reading("m", "Outside diameter of the rear tyres, where it differs")
    section_width = reading("m", "Widest width of the tyre on its measuring rim", typical=True)
    rear_section_width = reading("m", "Widest width of the rear tyres, where it differs")
    tread_share = reading("-", "Level tread over the section width", typical=True, most=1.0)
    shoulder_radius = reading("m", "Rounding between tread and side", typical=True)
    speed_growth = reading("m", "How far the radius grows at 160 km/h", typical=True)
    width_over_size = reading(
        "-", "How much wider it is than its size says, where not measured", typical=True, least=None
    )
    height_over_size = reading(
        "-", "How much higher its section is than its size says", typical=True, least=None
    )
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
