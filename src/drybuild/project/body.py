"""The body of the car as it stands: its kind, its size, and where the ground is."""

from __future__ import annotations

from drybuild.project.fields import choice, reading
from drybuild.project.sections import Section
from drybuild.tables.condition import zone_kind

KINDS = ("unitary", "ladder", "backbone")


class Body(Section):
    """What the tape measure and the handbook say of the whole car."""

    kind = choice(
        "What carries the car: shell, ladder frame, or backbone or space frame",
        *KINDS,
        usual="unitary",
    )
    shape = choice(
        "Shape of the body",
        "saloon",
        "coupe",
        "hatchback",
        "estate",
        "convertible",
        "roadster",
        "pick-up",
        "van",
        "utility",
    )
    year = reading("-", "Year it was built", exact=True, least=1885.0, most=2100.0)
    wheelbase = reading("m", "Distance between front and rear wheel centres", typical=True)
    front_track = reading("m", "Distance between the front tyres' centres", typical=True)
    rear_track = reading("m", "Distance between the rear tyres' centres", typical=True)
    length = reading("m", "Length over all", typical=True)
    width = reading("m", "Width without mirrors", typical=True)
    height = reading("m", "Height of the roof over the road, standing", typical=True)
    ride_height = reading("m", "Height of the sill seam over the road, standing", typical=True)
    ground_clearance = reading("m", "Lowest fixed point over the road, standing", typical=True)
    frontal_area = reading("m²", "Area seen from the front", typical=True)
    drag_coefficient = reading("-", "Air drag coefficient", typical=True, most=2.0)
    front_lift_coefficient = reading(
        "-",
        "Air lift coefficient of the front axle, up positive",
        typical=True,
        least=-1.0,
        most=1.0,
    )
    rear_lift_coefficient = reading(
        "-",
        "Air lift coefficient of the rear axle, up positive",
        typical=True,
        least=-1.0,
        most=1.0,
    )

    @property
    def zone_kind(self) -> str:
        """Which zones a survey of it has: an open body has a hood where others have a roof."""
        return zone_kind(self.kind, self.shape if self.has("shape") else "")
