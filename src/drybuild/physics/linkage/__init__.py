"""Kinematics of suspensions: rigid bodies on links, joints, sliders and hinges.

`pose.py` places a body, `joints.py` are its constraints, `solver.py` moves it over travel, steer
and roll, `wheels.py` reads the wheel off the poses. One file a layout names its points and lists
its constraints; `layouts.py` is the list of them, and nothing outside names a layout.

Axes as ISO 8855: x forward, y left, z up; points are given for the left side. Signs are those of
the trade and stand in `wheels.py` alone.
"""
