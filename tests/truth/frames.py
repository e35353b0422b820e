"""Frames of published worked examples and invented ones, for the tests of the frame model."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from drybuild.physics.frame.assembly import Frame, Members, Panels
from drybuild.physics.sections import Section, closed_rectangle

E = 207e9  # Pa
G = E / 2.6  # Pa, Poisson's ratio 0.30
STEEL = 7850.0  # kg/m³
BOX = closed_rectangle(width=0.060, height=0.100, thickness=0.002)


def beams(
    nodes: dict[str, tuple[float, float, float]],
    members: Sequence[tuple[str, str, Section]],
    *,
    panels: Sequence[tuple[str, str, str, str, float]] = (),
    joint: float = np.inf,
    moduli: tuple[float, float] = (E, G),
    shear_area: float = np.inf,
) -> Frame:
    """Return a frame of one metal; every member sprung at both ends at one rate."""
    names, count = tuple(nodes), len(members)
    column = lambda key: np.array([float(getattr(one, key)) for *_, one in members])  # noqa: E731
    return Frame(
        nodes=names,
        places=np.array(list(nodes.values())),
        members=Members(
            names=tuple(f"{a} - {b}" for a, b, _ in members),
            start=np.array([names.index(a) for a, _, _ in members]),
            end=np.array([names.index(b) for _, b, _ in members]),
            area=column("area"),
            second_moment_upright=column("second_moment_upright"),
            second_moment_sideways=column("second_moment_sideways"),
            torsion_constant=column("torsion_constant"),
            twist_power=np.ones(count),
            shear_area_upright=np.full(count, shear_area),
            shear_area_sideways=np.full(count, shear_area),
            elastic_modulus=np.full(count, moduli[0]),
            shear_modulus=np.full(count, moduli[1]),
            density=np.full(count, STEEL),
            flexibility=np.full((count, 6), 1.0 / joint),
        ),
        panels=Panels(
            names=tuple(" - ".join(corners) for *corners, _ in panels),
            corners=np.array(
                [[names.index(one) for one in corners] for *corners, _ in panels], dtype=np.int64
            ).reshape(-1, 4),
            thickness=np.array([one[-1] for one in panels]),
            shear_modulus=np.full(len(panels), moduli[1]),
            density=np.full(len(panels), STEEL),
        ),
    )


def section(area: float, upright: float, sideways: float, torsion: float) -> Section:
    """Return a section by its figures."""
    return Section(
        area=np.array(area),
        second_moment_upright=np.array(upright),
        second_moment_sideways=np.array(sideways),
        torsion_constant=np.array(torsion),
    )


def book_place(x: float, y: float, z: float) -> tuple[float, float, float]:
    """Return a book's place with y up as ours: x forward, y left, z up."""
    return x, -z, y


def shell(*, joint: float = np.inf, roof: bool = True) -> Frame:
    """Return an invented shell: cell, roof, nose and tail of one box, with its panels."""
    half = {
        "nose": (0.6, 0.36, 0.2),
        "rail": (0.0, 0.37, 0.18),
        "tower": (0.0, 0.55, 0.55),
        "toe": (-0.45, 0.74, 0.05),
        "cowl": (-0.45, 0.74, 0.6),
        "post": (-1.4, 0.74, 0.05),
        "heel": (-2.3, 0.74, 0.05),
        "shelf": (-2.4, 0.70, 0.6),
        "mount": (-2.5, 0.55, 0.3),
        "tail": (-3.2, 0.55, 0.3),
    }
    if roof:
        half |= {
            "header": (-1.0, 0.6, 1.1),
            "bow": (-1.5, 0.6, 1.12),
            "back": (-2.2, 0.58, 1.08),
        }
    nodes = {
        f"{name} {side}": (x, s * y, z) for name, (x, y, z) in half.items() for side, s in _SIDES
    }
    nodes["middle"] = (0.0, 0.0, 0.15)
    pairs = "nose rail,rail toe,rail tower,nose tower,tower cowl,toe cowl,toe post,post heel"
    pairs += ",heel shelf,heel mount,mount shelf,mount tail,tail shelf"
    across = "nose,toe,cowl,heel,shelf,mount,tail"
    sheets = "nose rail tower nose,rail toe cowl tower,heel mount tail shelf"
    wide = "toe cowl,toe post,post heel,heel shelf,heel tail"
    if roof:
        pairs += ",cowl header,header bow,bow back,back shelf,post bow"
        across += ",header,bow,back"
        wide += ",header bow,bow back"
    members = [
        (f"{a} {side}", f"{b} {side}", BOX)
        for a, b in (one.split() for one in pairs.split(","))
        for side, _ in _SIDES
    ]
    members += [(f"{one} left", f"{one} right", BOX) for one in across.split(",")]
    members += [(f"rail {side}", "middle", BOX) for side, _ in _SIDES]
    panels = [
        (*(f"{one} {side}" for one in corners.split()), 0.0009)
        for corners in sheets.split(",")[1:]
        for side, _ in _SIDES
    ]
    panels += [
        (f"{a} left", f"{a} right", f"{b} right", f"{b} left", 0.0009)
        for a, b in (one.split() for one in wide.split(","))
    ]
    return beams(nodes, members, panels=panels, joint=joint)  # type: ignore[arg-type]  # four names


_SIDES = (("left", 1.0), ("right", -1.0))
