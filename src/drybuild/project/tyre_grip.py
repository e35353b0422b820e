"""What handling, ride and steering need to know of a tyre; a part of every tyre option.

Typical figures go by the family of tyre: as told, else as its size lets one guess.
"""

from __future__ import annotations

from drybuild.physics.tyre_sizes import Construction, TyreSize, tyre_size
from drybuild.project.by_choice import reading_by
from drybuild.project.fields import choice, notation, reading
from drybuild.project.option import Option

UNKNOWN = "unknown"
FAMILIES = ("bias", "early radial", "touring", "sticky", "light truck")
TALL = 0.75
"""Radials of this series and taller are of the first decades; common practice, no source."""


def read_size(text: str) -> TyreSize:
    """Read a size as marked, as the file's reader asks for it."""
    return tyre_size(text=text)


class TyreGrip(Option):
    """Side force, springing and trail of a tyre; the class of tyre options derives from it."""

    size = notation("Size as marked, with its service description", read_size, "185/70R14 88H")
    family = choice("Family of tyre, for its typical grip; else guessed by size", *FAMILIES)
    side_friction = reading_by("-", "Peak side force over load", by="grip_family", most=3.0)
    friction_load_loss = reading_by(
        "-", "Share of it lost per reference load more", by="grip_family"
    )
    cornering_coefficient = reading_by(
        "1/rad", "Cornering stiffness over load at the reference load", by="grip_family"
    )
    cornering_load_loss = reading_by(
        "-", "Share of it lost per reference load more", by="grip_family", most=1.9
    )
    reference_load = reading("N", "Load that these figures hold at")
    camber_ratio = reading_by("-", "Camber stiffness over cornering stiffness", by="grip_family")
    camber_friction_loss = reading(
        "1/rad²", "Share of peak side force lost per camber squared", typical=True
    )
    pneumatic_trail = reading("m", "Side force behind the contact centre", typical=True)
    vertical_rate = reading("N/m", "Rate of the tyre under load", typical=True)

    @property
    def grip_family(self) -> str:
        """The family as told, else as guessed by the size; unknown without either."""
        if self.has("family"):
            return str(self.family)
        return guessed_family(tyre_size(text=self.size)) if self.has("size") else UNKNOWN


def guessed_family(size: TyreSize) -> str:
    """Return the family that a size belongs to; sticky tyres cannot be told by their size."""
    if size.construction is not Construction.RADIAL:
        return "bias"
    if size.service == "LT" or size.stated_diameter is not None:
        return "light truck"
    tall = size.aspect is None or size.aspect >= TALL
    return "early radial" if tall else "touring"
