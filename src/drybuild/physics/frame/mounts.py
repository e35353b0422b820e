"""Rubber mounts as short beams: one that stretches, shears and turns at given rates."""

from __future__ import annotations

from drybuild.errors import require


def mount_beam(
    *,
    along: float,
    across: float,
    turn: float,
    length: float,
    elastic_modulus: float,
    shear_modulus: float,
) -> tuple[float, float, float, float]:
    """Return the section of a short beam that stands for a rubber mount.

    Parameters
    ----------
    along : float
        Force per motion along the mount. [N/m]
    across : float
        Force per motion across it, its ends kept from turning. [N/m]
    turn : float
        Moment per turn about any axis. [N·m/rad]
    length : float
        Distance between its two nodes. [m]
    elastic_modulus : float
        Young's modulus that the beam is given. [Pa]
    shear_modulus : float
        Shear modulus that the beam is given. [Pa]

    Returns
    -------
    tuple
        Area, shear area, second moment, torsion constant. [m², m², m⁴, m⁴]

    Notes
    -----
    A = k_a L/E, I = k_t L/E, J = k_t L/G. Across, bending and shear lie in series: 1/k_c = L²/(12
    k_t) + L/(G A_s), so A_s = L/(G (1/k_c − L²/(12 k_t))). A mount that turns more easily than k_c
    L²/12 could not shear so stiffly; its turning rate must be more than that.

    References
    ----------
    .. [1] Timoshenko's beam, any text on matrix structural analysis (from memory).

    """
    for name, value in (("along", along), ("across", across), ("turn", turn), ("length", length)):
        require(value > 0.0, name, value, "SI", "more than zero")
    least = across * length**2 / 12.0
    require(turn > least, "turn", turn, "N·m/rad", f"more than {least:.3g} at this length")
    shear = length / (shear_modulus * (1.0 / across - length**2 / (12.0 * turn)))
    return (
        along * length / elastic_modulus,
        shear,
        turn * length / elastic_modulus,
        turn * length / shear_modulus,
    )
