"""The room that a wheel moves in, and what tyre goes in it.

`outline.py` is the tyre's section, `path.py` how hub and wheel move, `obstacles.py` what stands
around, `room.py` all of that seen from the wheel, `gaps.py` the least distances, `widest.py` the
search over sizes, `barrel.py` the brake inside the rim.

Axes: x ahead of the wheel's centre standing, y outward from the car's middle plane (left side), z
up from the wheel's centre standing. In the wheel: s along its axle, outward from the middle plane
of the wheels that stood there at measuring; rho from its axle. To add an obstacle, write a
function in `obstacles.py` that returns an `Obstacle`.
"""
