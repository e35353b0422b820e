"""Wheels: where offset and width put the rim, what room the barrel leaves, and the fasteners."""

from __future__ import annotations

import numpy as np
import numpy.typing as npt

from drybuild.errors import require

Array = npt.NDArray[np.float64]
Real = float | Array

FLANGE_THICKNESS = 0.0127  # [m] each, common practice, no source


def backspacing(*, rim_width: Real, offset: Real, flange_thickness: Real) -> Array:
    """Return the distance from the mounting face to the wheel's inner edge.

    Parameters
    ----------
    rim_width : float
        Nominal width between the flanges. [m]
    offset : float
        From the rim's middle plane to the mounting face; positive outboard (ET). [m]
    flange_thickness : float
        Thickness of one flange; about 12.7 mm. [m]

    Returns
    -------
    float
        Backspacing. [m]

    Notes
    -----
    b = (W + 2 t) / 2 + ET.

    References
    ----------
    .. [1] Geometry; the flange thickness is common practice, no source.

    """
    require(np.greater(rim_width, 0.0), "rim_width", rim_width, "m", "more than zero")
    require(
        np.greater_equal(flange_thickness, 0.0),
        "flange_thickness",
        flange_thickness,
        "m",
        "zero or more",
    )
    return np.asarray(rim_width / 2.0 + flange_thickness + offset)


def offset_from_backspacing(*, rim_width: Real, backspacing: Real, flange_thickness: Real) -> Array:
    """Return the offset of a wheel whose backspacing was measured.

    Parameters
    ----------
    rim_width : float
        Nominal width between the flanges. [m]
    backspacing : float
        From the mounting face to the inner edge. [m]
    flange_thickness : float
        Thickness of one flange; about 12.7 mm. [m]

    Returns
    -------
    float
        Offset (ET), positive outboard. [m]

    Notes
    -----
    ET = b − (W + 2 t) / 2.

    References
    ----------
    .. [1] Geometry; the flange thickness is common practice, no source.

    """
    require(np.greater(rim_width, 0.0), "rim_width", rim_width, "m", "more than zero")
    return np.asarray(backspacing - rim_width / 2.0 - flange_thickness)


def inner_lip_move(
    *, old_width: Real, old_offset: Real, new_width: Real, new_offset: Real
) -> Array:
    """Return how far the inner lip moves towards the suspension with another wheel.

    Parameters
    ----------
    old_width : float
        Rim width before. [m]
    old_offset : float
        Offset before. [m]
    new_width : float
        Rim width after. [m]
    new_offset : float
        Offset after. [m]

    Returns
    -------
    float
        Move inwards; negative gives room. [m]

    Notes
    -----
    ΔW/2 + ΔET.

    References
    ----------
    .. [1] Geometry.

    """
    return np.asarray((new_width - old_width) / 2.0 + (new_offset - old_offset))


def outer_lip_move(
    *, old_width: Real, old_offset: Real, new_width: Real, new_offset: Real
) -> Array:
    """Return how far the outer lip moves towards the wing with another wheel.

    Parameters
    ----------
    old_width : float
        Rim width before. [m]
    old_offset : float
        Offset before. [m]
    new_width : float
        Rim width after. [m]
    new_offset : float
        Offset after. [m]

    Returns
    -------
    float
        Move outwards; negative gives room. [m]

    Notes
    -----
    ΔW/2 − ΔET.

    References
    ----------
    .. [1] Geometry.

    """
    return np.asarray((new_width - old_width) / 2.0 - (new_offset - old_offset))


def track_change(*, old_offset: Real, new_offset: Real, spacer: Real) -> Array:
    """Return how much wider an axle's track becomes.

    Parameters
    ----------
    old_offset : float
        Offset before. [m]
    new_offset : float
        Offset after. [m]
    spacer : float
        Thickness of a spacer between hub and wheel; zero without. [m]

    Returns
    -------
    float
        Change of track, both sides together. [m]

    Notes
    -----
    2 (ET_old − ET_new + s).

    References
    ----------
    .. [1] Geometry.

    """
    require(np.greater_equal(spacer, 0.0), "spacer", spacer, "m", "zero or more")
    return np.asarray(2.0 * (old_offset - new_offset + spacer))


def largest_rotor_in_barrel(
    *,
    bead_seat_diameter: Real,
    well_depth: Real,
    wall_thickness: Real,
    caliper_bridge: Real,
    clearance: Real,
) -> Array:
    """Return the largest disc whose caliper still turns inside the wheel's drop centre.

    Parameters
    ----------
    bead_seat_diameter : float
        Diameter at the bead seat. [m]
    well_depth : float
        Depth of the drop centre below the bead seat. [m]
    wall_thickness : float
        Thickness of the barrel there. [m]
    caliper_bridge : float
        How far the caliper's bridge stands out beyond the disc's edge, radially. [m]
    clearance : float
        Radial air to be kept. [m]

    Returns
    -------
    float
        Disc outside diameter. [m]

    Notes
    -----
    D = D_b − 2 (well + wall + bridge + clearance). Conservative where the caliper lies inboard of
    the drop centre; a barrel measured along its depth answers better (`envelope.barrel`).

    References
    ----------
    .. [1] Geometry; ISO 4000-2 for the bead seat. Typical depths are common practice, no source.

    """
    for name, value in (
        ("well_depth", well_depth),
        ("wall_thickness", wall_thickness),
        ("caliper_bridge", caliper_bridge),
        ("clearance", clearance),
    ):
        require(np.greater_equal(value, 0.0), name, value, "m", "zero or more")
    return np.asarray(
        bead_seat_diameter - 2.0 * (well_depth + wall_thickness + caliper_bridge + clearance)
    )


def radial_rotor_clearance(
    *,
    bead_seat_diameter: Real,
    well_depth: Real,
    wall_thickness: Real,
    caliper_bridge: Real,
    rotor_diameter: Real,
) -> Array:
    """Return the radial air between a caliper and the wheel's drop centre.

    Parameters
    ----------
    bead_seat_diameter : float
        Diameter at the bead seat. [m]
    well_depth : float
        Depth of the drop centre below the bead seat. [m]
    wall_thickness : float
        Thickness of the barrel there. [m]
    caliper_bridge : float
        How far the caliper's bridge stands out beyond the disc's edge; zero for a drum. [m]
    rotor_diameter : float
        Outside diameter of the disc, or of the drum's shell. [m]

    Returns
    -------
    float
        Clearance; negative when they touch. [m]

    Notes
    -----
    c = (D_b − D) / 2 − well − wall − bridge.

    References
    ----------
    .. [1] Geometry.

    """
    require(
        np.greater(rotor_diameter, 0.0), "rotor_diameter", rotor_diameter, "m", "more than zero"
    )
    inside = bead_seat_diameter / 2.0 - well_depth - wall_thickness
    return np.asarray(inside - rotor_diameter / 2.0 - caliper_bridge)


def unified_stress_area(*, diameter: Real, pitch: Real) -> Array:
    """Return the tensile stress area of a unified inch thread.

    Parameters
    ----------
    diameter : float
        Nominal diameter. [m]
    pitch : float
        Thread pitch: an inch over the threads an inch. [m]

    Returns
    -------
    float
        Area. [m²]

    Notes
    -----
    A = 0.7854 (D − 0.9743/n)².

    References
    ----------
    .. [1] SAE J429; ASME B1.1.

    """
    require(np.greater(pitch, 0.0), "pitch", pitch, "m", "more than zero")
    require(np.greater(diameter, pitch), "diameter", diameter, "m", "more than the pitch")
    return np.asarray(0.7854 * (diameter - 0.9743 * pitch) ** 2)


def fastener_preload(*, torque: Real, torque_coefficient: Real, diameter: Real) -> Array:
    """Return the clamping force of a fastener tightened to a torque.

    Parameters
    ----------
    torque : float
        Tightening torque. [N·m]
    torque_coefficient : float
        K: about 0.20 for dry steel, 0.15 oiled; it scatters by a third. [-]
    diameter : float
        Nominal diameter. [m]

    Returns
    -------
    float
        Preload. [N]

    Notes
    -----
    F = T / (K d).

    References
    ----------
    .. [1] Shigley's Mechanical Engineering Design, ch. 8, eq. 8-27.

    """
    require(
        np.greater(torque_coefficient, 0.0),
        "torque_coefficient",
        torque_coefficient,
        "-",
        "more than zero",
    )
    require(np.greater(diameter, 0.0), "diameter", diameter, "m", "more than zero")
    require(np.greater_equal(torque, 0.0), "torque", torque, "N·m", "zero or more")
    return np.asarray(torque / (torque_coefficient * diameter))


def tightening_torque(*, preload: Real, torque_coefficient: Real, diameter: Real) -> Array:
    """Return the torque that gives a fastener a wanted preload.

    Parameters
    ----------
    preload : float
        Clamping force. [N]
    torque_coefficient : float
        K: about 0.20 for dry steel, 0.15 oiled. [-]
    diameter : float
        Nominal diameter. [m]

    Returns
    -------
    float
        Torque. [N·m]

    Notes
    -----
    T = K d F.

    References
    ----------
    .. [1] Shigley's Mechanical Engineering Design, ch. 8, eq. 8-27.

    """
    require(np.greater_equal(preload, 0.0), "preload", preload, "N", "zero or more")
    return np.asarray(torque_coefficient * diameter * preload)


def proof_share(*, preload: Real, stress_area: Real, proof_stress: Real) -> Array:
    """Return the share of a fastener's proof load that its preload takes.

    Parameters
    ----------
    preload : float
        Clamping force. [N]
    stress_area : float
        Tensile stress area. [m²]
    proof_stress : float
        Proof stress of the property class. [Pa]

    Returns
    -------
    float
        Share; 0.6 to 0.75 is usual. [-]

    Notes
    -----
    F / (A S_p).

    References
    ----------
    .. [1] ISO 898-1; Shigley's Mechanical Engineering Design, ch. 8.

    """
    require(np.greater(stress_area, 0.0), "stress_area", stress_area, "m²", "more than zero")
    require(np.greater(proof_stress, 0.0), "proof_stress", proof_stress, "Pa", "more than zero")
    return np.asarray(preload / (stress_area * proof_stress))
