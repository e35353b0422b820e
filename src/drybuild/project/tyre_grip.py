"""What handling, ride and steering need to know of a tyre; a part of every tyre option."""

from __future__ import annotations

from drybuild.project.fields import reading
from drybuild.project.option import Option


class TyreGrip(Option):
    """Side force, springing and trail of a tyre; the class of tyre options derives from it."""

    side_friction = reading("-", "Peak side force over load", typical=True, most=3.0)
    friction_load_loss = reading("-", "Share of it lost per reference load more", typical=True)
    cornering_coefficient = reading(
        "1/rad", "Cornering stiffness over load at the reference load", typical=True
    )
    cornering_load_loss = reading("-", "Share of it lost per reference load more", typical=True)
    reference_load = reading("N", "Load that these figures hold at")
    camber_ratio = reading("-", "Camber stiffness over cornering stiffness", typical=True)
    pneumatic_trail = reading("m", "Side force behind the contact centre", typical=True)
    vertical_rate = reading("N/m", "Rate of the tyre under load", typical=True)


def grip_of(tyres: Option) -> TyreGrip:
    """Return the grip entries of a bound tyre option."""
    return TyreGrip(path=tyres.path, key=tyres.key, given=tyres.given, bench=tyres.bench)
