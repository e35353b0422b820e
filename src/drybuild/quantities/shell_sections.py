"""Members of the frame by the size of their sections: closed, slit, open, holed, tubes, rubber."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

import numpy as np

from drybuild.errors import InputError, TableError
from drybuild.physics.frame.assembly import Members
from drybuild.physics.frame.mounts import mount_beam
from drybuild.physics.sections import closed_rectangle, round_tube
from drybuild.physics.thin_walls import holed_shares, open_outline, restrained_torsion_constant
from drybuild.project.samples import Values
from drybuild.tables.frame import Bar, SectionSize

STEEL = 207e9  # [Pa], Young's modulus of steel, usual text value
POISSON = 0.30  # [-], likewise
STEEL_SHEAR = STEEL / (2.0 * (1.0 + POISSON))  # [Pa]
STEEL_DENSITY = 7850.0  # [kg/m³]
WEB_SHARE = 0.9
"""Share of its webs that a thin box shears with: a practical figure, from memory."""
NUDGE = 1.001


@dataclass(frozen=True, kw_only=True)
class BeamSection:
    """What a member needs to know of its section."""

    area: float
    second_moment_upright: float
    second_moment_sideways: float
    torsion_constant: float
    shear_area_upright: float
    shear_area_sideways: float
    metal: float
    """Area that weighs. [m²]"""


def is_open(size: SectionSize) -> bool:
    """Whether a section is open along its length, so that it warps."""
    return size.shape in ("open", "channel", "trough")


def open_corners(size: SectionSize) -> list[tuple[float, float]]:
    """Return the corners of an open section's middle line, across and up."""
    w, h = size.width, size.height
    if size.shape == "channel":
        return [(w, h / 2.0), (0.0, h / 2.0), (0.0, -h / 2.0), (w, -h / 2.0)]
    if size.shape == "trough":
        return [(-w / 2.0, -h), (-w / 2.0, 0.0), (w / 2.0, 0.0), (w / 2.0, -h)]
    box = [(0.0, -h / 2.0), (w / 2.0, -h / 2.0), (w / 2.0, h / 2.0), (-w / 2.0, h / 2.0)]
    return [*box, (-w / 2.0, -h / 2.0), (0.0, -h / 2.0)]


def beam_section(size: SectionSize, length: float, held: float) -> BeamSection:
    """Return what a member of some length has of a section.

    Parameters
    ----------
    size : SectionSize
        Its shape and size.
    length : float
        Length of the member: an open one twists by it, a rubber mount is a beam of it. [m]
    held : float
        Share of the warping of an open one that its ends prevent. [-]

    """
    if size.shape == "mount":
        along, across, turn = size.rates
        return _mount(along, across, turn, length)
    plain = _open(size, length, held) if is_open(size) else _closed(size)
    stretch, shear = (float(one) for one in holed_shares(holes=size.holes, poisson_ratio=POISSON))
    return BeamSection(
        area=plain.area * stretch,
        second_moment_upright=plain.second_moment_upright * stretch,
        second_moment_sideways=plain.second_moment_sideways * stretch,
        torsion_constant=plain.torsion_constant * shear,
        shear_area_upright=plain.shear_area_upright * shear,
        shear_area_sideways=plain.shear_area_sideways * shear,
        metal=plain.metal * (1.0 - size.holes),
    )


def _goes_by_length(size: SectionSize) -> bool:
    """Whether members of one section differ as beams by their length."""
    return is_open(size) or size.shape == "mount"


def fibres(size: SectionSize) -> tuple[float, float]:
    """Return how far the metal reaches from the centroid: up or down, and across."""
    if size.shape == "tube":
        return size.width / 2.0, size.width / 2.0
    if not is_open(size):
        return size.height / 2.0, size.width / 2.0
    corners = np.array(open_corners(size))
    centre = np.array(open_outline(corners=corners, thickness=size.gauge).centroid)
    across, up = np.abs(corners - centre).max(axis=0)
    return float(up), float(across)


def frame_members(
    every: tuple[Bar, ...],
    sizes: Mapping[str, SectionSize],
    places: Mapping[str, Values],
    *,
    joint_rate: float,
    held: float,
) -> Members:
    """Return members as numbers, refusing a section without a wall, a width or a height."""
    for name in {bar.section for bar in every}:
        _refuse_hollow(name, sizes[name])
    names = tuple(places)
    starts = [place_number(bar.start, names) for bar in every]
    ends = [place_number(bar.end, names) for bar in every]
    spans = [float(np.linalg.norm(places[bar.end] - places[bar.start])) or np.nan for bar in every]
    # a member of no length is refused where the frame is made ready, by its own name
    lengths = [1.0 if np.isnan(span) else span for span in spans]
    like = [
        (bar.section, length if _goes_by_length(sizes[bar.section]) else 1.0)
        for bar, length in zip(every, lengths, strict=True)
    ]
    sections = {one: beam_section(sizes[one[0]], one[1], held) for one in dict.fromkeys(like)}
    powers = {one: _twist_power(sizes[one[0]], one[1], held) for one in sections}
    found = [sections[one] for one in like]
    sprung = np.array([bar.joints for bar in every], dtype=np.float64)
    count = len(every)
    return Members(
        names=tuple(bar.name for bar in every),
        start=np.array(starts),
        end=np.array(ends),
        area=_all(one.area for one in found),
        second_moment_upright=_all(one.second_moment_upright for one in found),
        second_moment_sideways=_all(one.second_moment_sideways for one in found),
        torsion_constant=_all(one.torsion_constant for one in found),
        shear_area_upright=_all(one.shear_area_upright for one in found),
        shear_area_sideways=_all(one.shear_area_sideways for one in found),
        twist_power=_all(powers[one] for one in like),
        elastic_modulus=np.full(count, STEEL),
        shear_modulus=np.full(count, STEEL_SHEAR),
        density=np.array([STEEL_DENSITY * one.metal / one.area for one in found]),
        flexibility=np.repeat(sprung, 3, axis=1) / joint_rate,
    )


def place_number(name: str, names: tuple[str, ...]) -> int:
    """Return the number of a place, refusing one that the frame has not."""
    if name not in names:
        raise TableError(f"the frame has no place called {name}; it has {', '.join(names)}")
    return names.index(name)


def _closed(size: SectionSize) -> BeamSection:
    if size.shape == "tube":
        found = round_tube(outside_diameter=size.width, wall=size.gauge)
        shears = (0.5 * float(found.area), 0.5 * float(found.area))
    else:
        found = closed_rectangle(width=size.width, height=size.height, thickness=size.gauge)
        shears = (
            WEB_SHARE * 2.0 * size.gauge * size.height,
            WEB_SHARE * 2.0 * size.gauge * size.width,
        )
    return BeamSection(
        area=float(found.area),
        second_moment_upright=float(found.second_moment_upright),
        second_moment_sideways=float(found.second_moment_sideways),
        torsion_constant=float(found.torsion_constant),
        shear_area_upright=shears[0],
        shear_area_sideways=shears[1],
        metal=float(found.area),
    )


def _open(size: SectionSize, length: float, held: float) -> BeamSection:
    found = open_outline(corners=open_corners(size), thickness=size.gauge)
    webs = {"channel": (1.0, 2.0), "trough": (2.0, 1.0), "open": (2.0, 2.0)}[size.shape]
    twist = restrained_torsion_constant(
        torsion_constant=found.torsion_constant,
        warping_constant=found.warping_constant,
        length=length,
        elastic_modulus=STEEL,
        shear_modulus=STEEL_SHEAR,
        held=held,
    )
    return BeamSection(
        area=found.area,
        second_moment_upright=found.second_moment_upright,
        second_moment_sideways=found.second_moment_sideways,
        torsion_constant=float(twist),
        shear_area_upright=WEB_SHARE * webs[0] * size.gauge * size.height,
        shear_area_sideways=WEB_SHARE * webs[1] * size.gauge * size.width,
        metal=found.area,
    )


def _mount(along: float, across: float, turn: float, length: float) -> BeamSection:
    area, shear, bending, twist = mount_beam(
        along=along,
        across=across,
        turn=turn,
        length=length,
        elastic_modulus=STEEL,
        shear_modulus=STEEL_SHEAR,
    )
    return BeamSection(
        area=area,
        second_moment_upright=bending,
        second_moment_sideways=bending,
        torsion_constant=twist,
        shear_area_upright=shear,
        shear_area_sideways=shear,
        metal=0.0,
    )


def _twist_power(size: SectionSize, length: float, held: float) -> float:
    """Return the power of the wall that the torsion constant grows with, about this wall."""
    if not is_open(size):
        return 1.0
    thicker = SectionSize(**{**vars(size), "gauge": size.gauge * NUDGE})
    ratio = (
        _open(thicker, length, held).torsion_constant / _open(size, length, held).torsion_constant
    )
    return float(np.log(ratio) / np.log(NUDGE))


def _refuse_hollow(name: str, size: SectionSize) -> None:
    for what, value in (("wall", size.gauge), ("width", size.width), ("height", size.height)):
        if not value > 0.0:
            raise InputError(
                f"section {name} of the frame model has no {what}; give it one of more than zero, "
                "or leave its members out under car.structure.frame_model.without"
            )


def _all(values: Iterable[float]) -> Values:
    return np.array(list(values), dtype=np.float64)
