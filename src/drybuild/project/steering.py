"""Steering: box or rack, linkage, wheel and assistance."""

from __future__ import annotations

from drybuild.project.fields import choice, reading
from drybuild.project.option import Option


class Steering(Option):
    """A steering gear with its linkage and wheel."""

    gear = choice("Kind of gear", "rack", "box", usual="box")
    ratio = reading("-", "Steering-wheel angle over road-wheel angle", typical=True, least=1.0)
    rack_travel_per_turn = reading("m", "Travel of the rack per turn of the steering wheel")
    steering_arm = reading("m", "Length of the steering arm, square to the rack")
    turns = reading("-", "Turns of the steering wheel from lock to lock")
    inner_lock = reading("rad", "Angle of the inner wheel at full lock", typical=True)
    outer_lock = reading("rad", "Angle of the outer wheel at full lock")
    ackermann = reading("-", "Share of the ideal difference of the wheels' angles", typical=True)
    kingpin_track = reading("m", "Distance between the steering axes at the road")
    assistance = choice("What helps the arms", "none", "hydraulic", "electric", usual="none")
    assistance_share = reading(
        "-", "Share of the effort that it takes over", typical=True, most=1.0
    )
    rolling_share = reading(
        "-", "Share of a standing tyre's resistance left at walking pace", typical=True, most=1.0
    )
    efficiency = reading("-", "Share of the hand's work that arrives", typical=True, most=1.0)
    wheel_diameter = reading("m", "Diameter of the steering wheel", typical=True)
    stiffness = reading(
        "N·m/rad", "Moment about the axes per wheel angle, steering wheel held", typical=True
    )
