"""The car on the scales: what they showed, how it stood there, and how high its mass lies."""

from __future__ import annotations

from drybuild.project.fields import reading, texts
from drybuild.project.groups import numbers
from drybuild.project.sections import Section


class Mass(Section):
    """The car as it stands, weighed; what is not measured falls back to its kind of body."""

    front_axle = reading("kg", "Both front wheels on the scales")
    rear_axle = reading("kg", "Both rear wheels on the scales")
    front_left = reading("kg", "Front left wheel on its scale")
    front_right = reading("kg", "Front right wheel on its scale")
    rear_left = reading("kg", "Rear left wheel on its scale")
    rear_right = reading("kg", "Rear right wheel on its scale")
    people_aboard = reading("kg", "People and loose things in it on the scales")
    fuel_aboard = reading("kg", "Fuel in the tank on the scales; a full tank when not given")
    fuel_when_full = reading("kg", "Fuel in a full tank", typical=True)
    off_the_car = texts("Systems that were off the car on the scales: [engine, gearbox]")
    cg_height = reading("m", "Height of the centre of gravity over the road, standing")
    lifted_front_axle = reading("kg", "Front axle on the scales with the rear lifted, fuel alike")
    lift_height = reading("m", "How far the rear wheel centres were lifted")
    wheel_centre_height = reading("m", "Height of the wheel centres over the road", typical=True)
    per_footprint = reading("kg/m²", "Mass over wheelbase times track, of its kind", typical=True)
    front_share = reading("-", "Share of the mass on the front axle", typical=True, most=1.0)
    stability_factor = reading("-", "Half the track over the height of its mass", typical=True)
    yaw_index = reading("-", "Yaw gyration squared over the axle distances", typical=True)
    pitch_index = reading("-", "Pitch gyration squared over the axle distances", typical=True)
    roll_gyration = reading("-", "Roll gyration radius over the track", typical=True, most=1.0)
    yaw_inertia = reading("kg·m²", "Moment of inertia in yaw, measured")
    front_axle_limit = reading("kg", "Greatest load that the front axle may carry")
    rear_axle_limit = reading("kg", "Greatest load that the rear axle may carry")
    gross_limit = reading("kg", "Greatest mass that the car may have")
    front_seats = numbers("m", "Middle of the people in front: x, y, z", count=3, least=None)
    rear_seats = numbers("m", "Middle of the people behind: x, y, z", count=3, least=None)
    luggage_space = numbers("m", "Middle of the luggage: x, y, z", count=3, least=None)
    fuel_tank = numbers("m", "Middle of the fuel: x, y, z", count=3, least=None)
