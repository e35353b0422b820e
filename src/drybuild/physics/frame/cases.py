"""Load cases: what holds the frame, what pulls at it, and where its motion is read."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from drybuild.errors import InputError, require
from drybuild.physics.frame.assembly import Frame

Array = npt.NDArray[np.float64]
Places = npt.NDArray[np.int64]

AXES = {"x": 0, "y": 1, "z": 2, "turn x": 3, "turn y": 4, "turn z": 5}


@dataclass(frozen=True, kw_only=True)
class Case:
    """A load on a held frame. Load times motion is the compliance, its inverse the stiffness."""

    name: str
    held: Places
    """Freedoms that do not move."""
    load: Array
    """Force or moment on every freedom, of unit size as a whole."""


def load_case(
    *,
    frame: Frame,
    name: str,
    held: Mapping[str, Sequence[str]],
    loads: Mapping[tuple[str, str], float],
) -> Case:
    """Return a case from names of nodes and axes.

    Parameters
    ----------
    frame : Frame
        The frame. [m]
    name : str
        What the case is called. [-]
    held : mapping
        Axes that are held, by node: x, y, z, turn x, turn y, turn z. [-]
    loads : mapping
        Force or moment by node and axis. [N, N·m]

    Returns
    -------
    Case
        Ready to solve. [N, N·m]

    """
    for axis in [*(one for axes in held.values() for one in axes), *(one for _, one in loads)]:
        if axis not in AXES:
            raise InputError(f"case {name} names an axis {axis}; it must be of {', '.join(AXES)}")
    fixed = [6 * frame.node(node) + AXES[axis] for node, axes in held.items() for axis in axes]
    load = np.zeros(6 * len(frame.nodes))
    for (node, axis), value in loads.items():
        load[6 * frame.node(node) + AXES[axis]] += value
    return Case(name=name, held=np.array(sorted(set(fixed)), dtype=np.int64), load=load)


def torsion_case(
    *, frame: Frame, front: tuple[str, str], centre: str, rear: tuple[str, str]
) -> Case:
    """Return a unit torque between the axles on supports that add no stiffness of their own.

    Parameters
    ----------
    frame : Frame
        The frame. [m]
    front : tuple
        Left and right node that the couple pulls at. [-]
    centre : str
        Node on the middle of the front that steadies the frame; it bears no force. [-]
    rear : tuple
        Left and right node that are held. [-]

    Returns
    -------
    Case
        Load times motion is the twist at the front nodes per torque. [rad/(N·m)]

    Notes
    -----
    Rear left held in x, y, z, rear right in x and z, front centre in z: six, so determinate. The
    couple is ± T/w; θ = (δ_l − δ_r)/w, the rear rolls by nothing. Twist is read at the mounts.

    References
    ----------
    .. [1] Brown, Robertson, Serpento, "Motor Vehicle Structures", 2002, torsion case (reprint).

    """
    left, right = (frame.places[frame.node(one)] for one in front)
    width = float(left[1] - right[1])
    require(width > 0.0, "front", width, "m", "left before right, apart from each other")
    return load_case(
        frame=frame,
        name="torsion",
        held={rear[0]: ("x", "y", "z"), rear[1]: ("x", "z"), centre: ("z",)},
        loads={(front[0], "z"): 1.0 / width, (front[1], "z"): -1.0 / width},
    )


def bending_case(
    *, frame: Frame, front: tuple[str, str], rear: tuple[str, str], loaded: tuple[str, ...]
) -> Case:
    """Return a unit load between the axles, the frame held on the axle lines.

    Parameters
    ----------
    frame : Frame
        The frame. [m]
    front : tuple
        Left and right node over the front axle. [-]
    rear : tuple
        Left and right node over the rear axle. [-]
    loaded : tuple
        Nodes that share the load. [-]

    Returns
    -------
    Case
        Load times motion is the mean sag of the loaded nodes per force. [m/N]

    Notes
    -----
    Four level supports: one more than needed, which bears nothing while both sides are alike.

    References
    ----------
    .. [1] Brown, Robertson, Serpento, "Motor Vehicle Structures", 2002, bending case (reprint).

    """
    return load_case(
        frame=frame,
        name="bending",
        held={rear[0]: ("x", "y", "z"), rear[1]: ("x", "z"), front[0]: ("z",), front[1]: ("z",)},
        loads={(node, "z"): -1.0 / len(loaded) for node in loaded},
    )


def spread_case(*, frame: Frame, front: tuple[str, str], rear: tuple[str, str]) -> Case:
    """Return a unit force that pushes two mounts apart, on supports that bear nothing.

    Parameters
    ----------
    frame : Frame
        The frame. [m]
    front : tuple
        Left and right node that are pushed outwards. [-]
    rear : tuple
        Left and right node, of which the left is held in all six ways. [-]

    Returns
    -------
    Case
        Load times motion is the distance gained per force. [m/N]

    Notes
    -----
    The pair of forces is in balance, so holding one node against all rigid motion adds nothing.

    References
    ----------
    .. [1] Statics, derived.

    """
    return load_case(
        frame=frame,
        name="spread",
        held={rear[0]: tuple(AXES)},
        loads={(front[0], "y"): 1.0, (front[1], "y"): -1.0},
    )
