"""Hardpoints: where the joints of a suspension are, found with tape and plumb line."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import numpy as np

from drybuild.project.document import Listing, Node, Where
from drybuild.project.fields import ReadingField
from drybuild.project.groups import NumbersField
from drybuild.project.reader import Reader
from drybuild.project.readings import Origin, Reading
from drybuild.project.samples import Values
from drybuild.project.sections import Field, Section, describe, is_empty

TAPE = 0.002
"""Half of the 5-95 % band of a length to a plumb mark where none is given; common practice. [m]"""


class TapeField(ReadingField):
    """A length along an axis of the car. Its spread goes by the tape, not by its size."""

    def reading_of(self, text: str, path: str, where: Where, reader: Reader) -> Reading | None:
        """Return the reading, with the tape's spread where the text states none."""
        found = super().reading_of(text, path, where, reader)
        stated = "±" in text or "+/-" in text or " to " in text or text.lstrip().startswith("~")
        if found is None or stated or self.exact:
            return found
        low, high = found.value - TAPE, found.value + TAPE
        return replace(found, low=low, high=high, origin=Origin.MEASURED)


class PointField(NumbersField):
    """A point ``[x, y, z]`` of the left side of the car."""

    kind = "point of three lengths"

    def __init__(self, words: str) -> None:
        super().__init__("m", words, count=3, least=None)
        self.item = TapeField("m", words, least=None)


point = PointField


class PlacesField(Field[Values]):
    """A line in space: a list of points ``[x, y, z]``."""

    kind = "list of points"

    def __init__(self, words: str) -> None:
        super().__init__(words)
        self.item = PointField(words)

    def read(self, node: Node, path: str, reader: Reader) -> tuple[tuple[Reading, ...], ...] | None:
        """Return the readings of each point."""
        if is_empty(node):
            return None
        items = node.items if isinstance(node, Listing) else ()
        if len(items) < LEAST_POINTS:
            reader.problem(
                "list-wanted",
                node.where,
                path,
                f"this is {describe(node)}, but a list of two points or more belongs here",
                'Write it as "[[260 mm, 560 mm, 0 mm], [0 mm, 440 mm, 0 mm], [0 mm, 0 mm, 0 mm]]".',
            )
            return None
        found = [self.item.read(one, f"{path}[{k}]", reader) for k, one in enumerate(items)]
        return tuple(one for one in found if one) if all(found) else None

    def take(self, section: Section) -> Values:
        """Return an array of shape (points, 3, samples)."""
        path = section.path_of(self.name)
        given = section.given.get(self.name)
        if isinstance(given, tuple):
            return np.array(
                [
                    [section.bench.take(f"{path}[{k}][{n}]", one) for n, one in enumerate(place)]
                    for k, place in enumerate(given)
                ]
            )
        section.bench.note(path)
        raise self.missing(section)

    def schema(self) -> dict[str, Any]:  # JSON Schema is free-form JSON
        """Return the JSON Schema."""
        return {
            "description": self.words,
            "type": ["array", "null"],
            "items": self.item.schema(),
        }


LEAST_POINTS = 2
places = PlacesField


class Hardpoints(Section):
    """Joints of the left side: x forward, y left from the car's middle, z up, from one datum.

    Each layout needs its own; what is missing is named.
    """

    wheel_centre = point("Centre of the wheel")
    lower_front = point("Lower arm's front bush")
    lower_rear = point("Lower arm's rear bush")
    lower_outer = point("Lower ball joint")
    upper_front = point("Upper arm's front bush")
    upper_rear = point("Upper arm's rear bush")
    upper_outer = point("Upper ball joint")
    tie_inner = point("Tie rod's inner joint, or the toe link's")
    tie_outer = point("Tie rod's outer joint")
    pitman_pivot = point("Where the steering box's arm turns")
    pitman_axis = point("Another point of that axis")
    pitman_end = point("The arm's joint with the relay rod")
    idler_pivot = point("Where the idler arm turns, if it is not parallel to the box's")
    idler_end = point("The idler arm's joint with the relay rod")
    idler_axis = point("Another point of the idler's axis; else it is parallel to the box's")
    strut_top = point("Strut's upper mount")
    strut_lower = point("A point of the strut's axis on the upright; else the lower ball joint")
    arm_inner = point("Arm's bush nearer to the car's middle")
    arm_outer = point("Arm's bush nearer to the wheel")
    arm_front = point("Front pivot: the radius arm's, on the axle joint's line")
    arm_rear = point("Joint of the half-axle")
    lower_front_inner = point("Lower front link's end on the body")
    lower_front_outer = point("Lower front link's end on the upright")
    lower_rear_inner = point("Lower rear link's end on the body")
    lower_rear_outer = point("Lower rear link's end on the upright")
    upper_front_inner = point("Upper front link's end on the body")
    upper_front_outer = point("Upper front link's end on the upright")
    upper_rear_inner = point("Upper rear link's end on the body")
    upper_rear_outer = point("Upper rear link's end on the upright")
    toe_inner = point("Toe link's end on the body")
    toe_outer = point("Toe link's end on the upright")
    lower_body = point("Lower link's end on the body")
    lower_axle = point("Lower link's end on the axle")
    upper_body = point("Upper link's end on the body, where there is one each side")
    upper_axle = point("Upper link's end on the axle")
    top_body = point("End of a single top link on the body")
    top_axle = point("Its end on the axle")
    panhard_body = point("Panhard rod's end on the body")
    panhard_axle = point("Panhard rod's end on the axle")
    watt_pivot = point("Where the bell crank of Watt's linkage turns, on the axle or on the body")
    watt_upper = point("The crank's upper end")
    watt_lower = point("The crank's lower end")
    watt_upper_body = point("The upper rod's other end, on the body where the crank is on the axle")
    watt_lower_body = point("The lower rod's other end, likewise")
    watt_upper_axle = point("The upper rod's other end, on the axle where the crank is on the body")
    watt_lower_axle = point("The lower rod's other end, likewise")
    front_eye = point("Centre of the leaf's front eye")
    rear_eye = point("Centre of the leaf's rear eye")
    seat = point("Where the leaf is clamped to the axle")
    shackle_body = point("Shackle's end on the body; else the rear eye serves")
    kingpin_lower = point("Lower end of the kingpin")
    kingpin_upper = point("Upper end of the kingpin")
    drag_inner = point("Drag link's joint with the steering box's arm")
    drag_outer = point("Drag link's joint with the left steering arm")
    tube_ball = point("Ball at the front of the torque tube")
    beam_pivot = point("Pivot of this wheel's beam, on the far side of the car")
    arm_front_end = point("Front end of the torque arm: its bush's middle, or its shackle's joint")
    arm_shackle = point("The shackle's end on the body, where there is one")
    beam_bush = point("Bush of the trailing arm on the body")
    beam_centre = point("Shear centre of the cross-member, in the car's middle")
    pillar_lower = point("Lower end of the pillar")
    pillar_upper = point("Upper end of the pillar")
    radius_arm_body = point("Radius arm's bush on the body; arm and beam are one piece")
    spring_top = point("Upper end of the spring, on the body")
    spring_bottom = point("Lower end of the spring")
    damper_top = point("Upper end of the damper, on the body")
    damper_bottom = point("Lower end of the damper")
    bar_end = point("End of the anti-roll bar, where its drop link begins")
    bar_link = point("Other end of the drop link")
    bar_axis = point("A point of the bar's middle piece")
    rocker_pivot = point("A point of the rocker's axis, where a pushrod works spring and damper")
    rocker_axis = point("Another point of that axis")
    pushrod_rocker = point("The pushrod's end on the rocker")
    pushrod_wheel = point("The pushrod's end on the arm, upright or axle")
    shaft_inner = point("Middle of the half-shaft's inner joint")
    shaft_outer = point("Middle of the half-shaft's outer joint")
