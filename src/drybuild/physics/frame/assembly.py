"""The frame as numbers, its elements made ready, and what makes a frame impossible."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

import numpy as np
import numpy.typing as npt

from drybuild.errors import InputError
from drybuild.physics.frame.elements import TURNS, beam_axes, beam_stiffness, sprung_ends
from drybuild.physics.frame.panels import panel_shear

Array = npt.NDArray[np.float64]
Places = npt.NDArray[np.int64]


@dataclass(frozen=True, kw_only=True)
class Members:
    """Straight beams between nodes; each array has one entry a member."""

    names: tuple[str, ...]
    start: Places
    end: Places
    area: Array
    second_moment_upright: Array
    second_moment_sideways: Array
    torsion_constant: Array
    twist_power: Array
    """Power of the wall that the torsion constant grows with: 1 closed, 3 open. [-]"""
    shear_area_upright: Array
    shear_area_sideways: Array
    elastic_modulus: Array
    shear_modulus: Array
    density: Array
    flexibility: Array
    """Turn per moment of the joints about the member's axes, (members, 6); zero is rigid."""


@dataclass(frozen=True, kw_only=True)
class Panels:
    """Sheets between four nodes that carry shear only."""

    names: tuple[str, ...]
    corners: Places
    thickness: Array
    shear_modulus: Array
    density: Array


@dataclass(frozen=True, kw_only=True)
class Frame:
    """Nodes, members and panels."""

    nodes: tuple[str, ...]
    places: Array
    members: Members
    panels: Panels

    def node(self, name: str) -> int:
        """Return the number of a node."""
        if name not in self.nodes:
            raise InputError(f"the frame has no node {name}; it has {', '.join(self.nodes)}")
        return self.nodes.index(name)


@dataclass(frozen=True, kw_only=True)
class Factors:
    """What every member, joint and panel has of its full stiffness; samples in front."""

    member: Array
    joint: Array
    panel: Array


@dataclass(frozen=True, kw_only=True)
class Elements:
    """A frame made ready: everything that does not change with the factors."""

    frame: Frame
    length: Array
    turn: Array
    """Global to local motion of a member's ends, (members, 12, 12)."""
    beam: Array
    """Stiffness of members in their own axes, (members, 12, 12)."""
    shear: Array
    """Shear of panels by their corners' motion, (panels, 12)."""
    rate: Array
    """Shear stiffness of panels, G t A."""
    member_freedoms: Places
    panel_freedoms: Places
    member_mass: Array
    panel_mass: Array

    @property
    def freedoms(self) -> int:
        """Degrees of freedom, six a node."""
        return 6 * len(self.frame.nodes)

    @cached_property
    def slots(self) -> Places:
        """Place of every entry of every element's matrix in the flattened whole."""
        every = (self.member_freedoms, self.panel_freedoms)
        return np.concatenate(
            [(one[:, :, None] * self.freedoms + one[:, None, :]).ravel() for one in every]
        )

    @cached_property
    def node_levels(self) -> Places:
        """Distance of every node from the front end, counted in elements."""
        count = len(self.frame.nodes)
        touch = np.zeros((count, count), dtype=bool)
        for nodes in (self.member_freedoms[:, ::6] // 6, self.panel_freedoms[:, ::3] // 6):
            touch[nodes[:, :, None], nodes[:, None, :]] = True
        distance = np.full(count, -1)
        front = np.zeros(count, dtype=bool)
        front[int(np.argmax(self.frame.places[:, 0]))] = True
        level = 0
        while front.any():
            distance[front] = level
            front = touch[front].any(axis=0) & (distance < 0)
            level += 1
        return distance


def prepare(*, frame: Frame) -> Elements:
    """Return the elements of a frame, refusing one that cannot stand for a real thing.

    Parameters
    ----------
    frame : Frame
        Nodes, members, panels. [m, m², m⁴, Pa, kg/m³]

    Returns
    -------
    Elements
        Ready for factors and load cases. [SI]

    Raises
    ------
    InputError
        A member has no length or no section, a panel no thickness, a node no member, or a part of
        the frame hangs on nothing.

    """
    _refuse(frame)
    members, panels = frame.members, frame.panels
    first, last = frame.places[members.start], frame.places[members.end]
    length = np.linalg.norm(last - first, axis=1)
    shear, area = panel_shear(corners=frame.places[panels.corners])
    return Elements(
        frame=frame,
        length=length,
        turn=_blocks(beam_axes(start=first, end=last)),
        beam=beam_stiffness(
            length=length,
            elastic_modulus=members.elastic_modulus,
            shear_modulus=members.shear_modulus,
            area=members.area,
            second_moment_upright=members.second_moment_upright,
            second_moment_sideways=members.second_moment_sideways,
            torsion_constant=members.torsion_constant,
            shear_area_upright=members.shear_area_upright,
            shear_area_sideways=members.shear_area_sideways,
        ),
        shear=shear,
        rate=panels.shear_modulus * panels.thickness * area,
        member_freedoms=_freedoms(np.stack([members.start, members.end], axis=1), 6),
        panel_freedoms=_freedoms(panels.corners, 3),
        member_mass=members.density * members.area * length,
        panel_mass=panels.density * panels.thickness * area,
    )


def unit_factors(*, elements: Elements) -> Factors:
    """Return factors of one for everything.

    Parameters
    ----------
    elements : Elements
        The frame made ready. [SI]

    Returns
    -------
    Factors
        Ones. [-]

    """
    members, panels = len(elements.length), len(elements.rate)
    return Factors(member=np.ones(members), joint=np.ones(members), panel=np.ones(panels))


def element_motion(*, elements: Elements, factors: Factors) -> tuple[Array, Array]:
    """Return how beams and their end springs move with the nodes, in the members' own axes.

    Parameters
    ----------
    elements : Elements
        The frame made ready. [SI]
    factors : Factors
        What is left of members, joints, panels. [-]

    Returns
    -------
    tuple
        Motion of the beams' own ends (..., members, 12, 12), turn of springs (..., members, 6, 12).
        [-, 1/m]

    """
    soft = elements.frame.members.flexibility * (factors.member / factors.joint)[..., None]
    return sprung_ends(stiffness=elements.beam, flexibility=soft)


def element_stiffness(*, elements: Elements, factors: Factors) -> tuple[Array, Array]:
    """Return the stiffness of members with their joints, and of panels, in global axes.

    Parameters
    ----------
    elements : Elements
        The frame made ready. [SI]
    factors : Factors
        What is left of members, joints, panels. [-]

    Returns
    -------
    tuple
        Members (..., members, 12, 12) and panels (..., panels, 12, 12). [N/m, N, N·m]

    Notes
    -----
    K* = Tᵀ K T + mᵀ F m with the spring moments m; congruent, so never less than semi-definite.

    """
    motion, _ = element_motion(elements=elements, factors=factors)
    motion = motion @ elements.turn
    force = factors.member[..., None, None] * (elements.beam @ motion)
    moment = force[..., list(TURNS), :]
    soft = (elements.frame.members.flexibility / factors.joint[..., None])[..., None]
    beams = np.swapaxes(motion, -1, -2) @ force
    beams = beams + np.swapaxes(moment, -1, -2) @ (soft * moment)
    rate = (elements.rate * factors.panel)[..., None, None]
    return beams, rate * (elements.shear[:, :, None] * elements.shear[:, None, :])


def dense_stiffness(*, elements: Elements, factors: Factors) -> Array:
    """Return the stiffness of the whole frame as full matrices.

    Parameters
    ----------
    elements : Elements
        The frame made ready. [SI]
    factors : Factors
        What is left of members, joints, panels. [-]

    Returns
    -------
    array
        Matrices of shape (..., freedoms, freedoms). [N/m, N, N·m]

    """
    beams, sheets = element_stiffness(elements=elements, factors=factors)
    n = elements.freedoms
    lead = np.broadcast_shapes(beams.shape[:-3], sheets.shape[:-3])
    many = int(np.prod(lead, dtype=np.int64))
    values = np.concatenate(
        [
            np.broadcast_to(one, (*lead, *one.shape[-3:])).reshape(many, one.shape[-3] * 144)
            for one in (beams, sheets)
        ],
        axis=1,
    )
    whole = np.empty((many, n * n))
    for place, entries in zip(whole, values, strict=True):
        place[:] = np.bincount(elements.slots, weights=entries, minlength=n * n)
    return whole.reshape(*lead, n, n)


def _blocks(axes: Array) -> Array:
    """Return four copies of each 3 × 3 matrix down the diagonal."""
    turn = np.zeros((len(axes), 12, 12))
    for k in range(0, 12, 3):
        turn[:, k : k + 3, k : k + 3] = axes
    return turn


def _freedoms(nodes: Places, each: int) -> Places:
    """Return the first `each` freedoms of every node of every element."""
    found = 6 * nodes[:, :, None] + np.arange(each)
    return found.reshape(len(nodes), each * nodes.shape[1])


def _refuse(frame: Frame) -> None:
    """Raise for the first impossible thing, by name and with the way to mend it."""
    members, panels = frame.members, frame.panels
    span = np.linalg.norm(frame.places[members.end] - frame.places[members.start], axis=1)
    short = members.names, ~(span > 0.0)
    thin = np.minimum.reduce(
        [
            members.area,
            members.second_moment_upright,
            members.second_moment_sideways,
            members.torsion_constant,
        ]
    )
    _first(*short, "member", "has no length", "give its ends different places")
    _first(
        members.names,
        ~(thin > 0.0),
        "member",
        "has no section",
        "give it a wall, a width and a height of more than zero, or leave it out",
    )
    _first(
        panels.names,
        ~(panels.thickness > 0.0),
        "panel",
        "has no thickness",
        "give it a thickness of more than zero, or leave it out",
    )
    ends = np.concatenate([members.start, members.end])
    loose = np.bincount(ends, minlength=len(frame.nodes)) == 0
    _first(frame.nodes, loose, "node", "has no member", "join it by a member, or leave it out")
    _first(
        frame.nodes,
        ~_joined(frame),
        "node",
        "hangs on nothing: its members do not reach the rest",
        "join it to the rest by a member",
    )


def _first(
    names: tuple[str, ...], bad: npt.NDArray[np.bool_], what: str, is_: str, do: str
) -> None:
    if bad.any():
        raise InputError(f"{what} {names[int(np.argmax(bad))]} {is_}; {do}")


def _joined(frame: Frame) -> npt.NDArray[np.bool_]:
    """Return which nodes the first one reaches along members."""
    reached = np.zeros(len(frame.nodes), dtype=bool)
    reached[frame.members.start[:1]] = True
    start, end = frame.members.start, frame.members.end
    while True:
        before = int(reached.sum())
        reached[end[reached[start]]] = True
        reached[start[reached[end]]] = True
        if int(reached.sum()) == before:
            return reached
