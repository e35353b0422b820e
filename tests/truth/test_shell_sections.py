"""Sections of the frame against closed forms and published tables.

A library that meshes sections has no wheel for this machine, so closed forms and the tables of
rolled channels stand in its place: flanges and web at their mid-lines, no root radius.
"""

from __future__ import annotations

import math

import numpy as np
import pytest
from scipy.integrate import solve_bvp

from drybuild.errors import InputError
from drybuild.physics.thin_walls import holed_shares, open_outline, restrained_torsion_constant

E, G = 207e9, 207e9 / 2.6

# EN 10365, channels UPE: h, b, web, flange [mm], A [cm²], I_x, I_y [cm⁴], centroid from the back of
# the web and shear centre from the centroid [cm]. Read from an on-line reprint of the table. The
# root radius, which thin walls have not, adds 2 to 5 % of area.
UPE = {
    "UPE 80": (80, 50, 4.0, 7.0, 10.1, 107, 25.5, 1.82, 3.71),
    "UPE 100": (100, 55, 4.5, 7.5, 12.5, 207, 38.3, 1.91, 3.93),
    "UPE 140": (140, 65, 5.0, 9.0, 18.4, 600, 78.8, 2.17, 4.54),
    "UPE 200": (200, 80, 6.0, 11.0, 29.0, 1910, 187, 2.56, 5.41),
    "UPE 300": (300, 100, 9.5, 15.0, 56.6, 7820, 538, 2.89, 6.03),
}


@pytest.mark.parametrize("name", UPE)
def test_rolled_channels_of_the_table(name: str) -> None:
    h, b, web, flange, area, upright, sideways, centroid, shear = UPE[name]
    high, wide = (h - flange) * 1e-3, (b - web / 2.0) * 1e-3
    found = open_outline(
        corners=[(wide, high / 2), (0.0, high / 2), (0.0, -high / 2), (wide, -high / 2)],
        thickness=np.array([flange, web, flange]) * 1e-3,
    )
    assert found.area == pytest.approx(area * 1e-4, rel=0.05)
    assert found.second_moment_upright == pytest.approx(upright * 1e-8, rel=0.045)
    assert found.second_moment_sideways == pytest.approx(sideways * 1e-8, rel=0.04)
    assert found.centroid[0] + web * 5e-4 == pytest.approx(centroid * 1e-2, rel=0.03)
    assert found.centroid[0] - found.shear_centre[0] == pytest.approx(shear * 1e-2, rel=0.02)


@pytest.mark.parametrize(
    ("b", "h", "tf", "tw"), [(0.05, 0.1, 3e-3, 3e-3), (0.06, 0.14, 4e-3, 2e-3)]
)
def test_channel_warps_as_the_closed_form(b: float, h: float, tf: float, tw: float) -> None:
    # S. P. Timoshenko, J. M. Gere, Theory of Elastic Stability, table A-3: channel (from memory)
    found = open_outline(
        corners=[(b, h / 2), (0.0, h / 2), (0.0, -h / 2), (b, -h / 2)], thickness=[tf, tw, tf]
    )
    aside = 3.0 * b**2 * tf / (6.0 * b * tf + h * tw)
    warping = tf * b**3 * h**2 / 12.0 * (3.0 * b * tf + 2.0 * h * tw) / (6.0 * b * tf + h * tw)
    assert found.shear_centre == pytest.approx((-aside, 0.0), abs=1e-12)
    assert found.warping_constant == pytest.approx(warping, rel=1e-12)
    assert found.torsion_constant == pytest.approx((2 * b * tf**3 + h * tw**3) / 3.0, rel=1e-12)


def test_z_section_warps_as_the_closed_form() -> None:
    # Timoshenko and Gere, table A-3: Z of even wall, I_ω = b³h²t (b + 2h)/(12 (2b + h)) (from
    # memory); its shear centre is its centroid
    b, h, t = 0.04, 0.1, 2e-3
    found = open_outline(
        corners=[(-b, h / 2), (0.0, h / 2), (0.0, -h / 2), (b, -h / 2)], thickness=t
    )
    assert found.shear_centre == pytest.approx((0.0, 0.0), abs=1e-12)
    warping = t * b**3 * h**2 / 12.0 * (b + 2.0 * h) / (2.0 * b + h)
    assert found.warping_constant == pytest.approx(warping, rel=1e-12)


def test_angle_does_not_warp_and_shears_at_its_corner() -> None:
    # any text on thin walls: two walls that meet in one line have no warping about it (from memory)
    found = open_outline(corners=[(0.0, 0.08), (0.0, 0.0), (0.05, 0.0)], thickness=2e-3)
    assert found.shear_centre == pytest.approx((0.0, 0.0), abs=1e-12)
    assert found.warping_constant == pytest.approx(0.0, abs=1e-20)


def test_slit_tube_has_its_shear_centre_a_diameter_from_its_middle() -> None:
    # Timoshenko, Strength of Materials II: slit tube, e = 2 r beyond the wall side opposite the
    # slit measured from the middle; I_ω = 2/3 π (π² − 6) t r⁵ (from memory)
    r, t = 0.03, 1e-3
    around = np.linspace(0.0, 2.0 * np.pi, 721)
    found = open_outline(
        corners=np.column_stack([r * np.cos(around), r * np.sin(around)]), thickness=t
    )
    assert found.shear_centre[0] == pytest.approx(-2.0 * r, rel=1e-3)
    assert found.warping_constant == pytest.approx(
        2.0 / 3.0 * math.pi * (math.pi**2 - 6.0) * t * r**5, rel=1e-3
    )


def test_second_moments_of_a_trough_by_parallel_axes() -> None:
    # Steiner, wall by wall
    w, h, t = 0.3, 0.16, 0.9e-3
    found = open_outline(
        corners=[(-w / 2, -h), (-w / 2, 0.0), (w / 2, 0.0), (w / 2, -h)], thickness=t
    )
    area, centre = t * (w + 2 * h), -2 * h * t * h / 2 / (t * (w + 2 * h))
    upright = 2 * (t * h**3 / 12 + t * h * (-h / 2 - centre) ** 2) + t * w * centre**2
    assert found.area == pytest.approx(area)
    assert found.centroid == pytest.approx((0.0, centre), abs=1e-15)
    assert found.second_moment_upright == pytest.approx(upright)
    assert found.second_moment_sideways == pytest.approx(t * w**3 / 12 + 2 * t * h * (w / 2) ** 2)


def _held(length: float, held: float, *, j: float = 5e-10, warping: float = 2e-10) -> float:
    return float(
        restrained_torsion_constant(
            torsion_constant=j,
            warping_constant=warping,
            length=length,
            elastic_modulus=E,
            shear_modulus=G,
            held=held,
        )
    )


@pytest.mark.parametrize("length", [0.2, 0.8, 3.0])
def test_built_in_ends_against_the_differential_equation(length: float) -> None:
    # E I_ω θ'''' − G J θ'' = 0, solved by SciPy's boundary value solver with both ends built in
    j, warping = 5e-10, 2e-10
    along = np.linspace(0.0, length, 81)

    def slope(_: np.ndarray, y: np.ndarray) -> np.ndarray:
        return np.vstack([y[1], y[2], y[3], G * j / (E * warping) * y[2]])

    def ends(a: np.ndarray, b: np.ndarray) -> np.ndarray:
        return np.array([a[0], a[1], b[0] - 1.0, b[1]])  # a turn of one, no warping at either end

    guess = np.zeros((4, along.size))
    guess[0] = along / length
    found = solve_bvp(slope, ends, along, guess, tol=1e-8, max_nodes=50_000)
    torque = G * j * found.y[1, 0] - E * warping * found.y[3, 0]
    assert torque * length / G == pytest.approx(_held(length, 1.0), rel=1e-5)


def test_short_beams_built_in_twist_by_bending_their_flanges_alone() -> None:
    # J_eff → 12 E I_ω/(G L²) as G J L²/(E I_ω) → 0 (derived from the equation)
    assert _held(0.02, 1.0) == pytest.approx(12.0 * E * 2e-10 / (G * 0.02**2), rel=1e-3)


def test_long_beams_and_free_ends_twist_as_de_saint_venant_says() -> None:
    assert _held(0.5, 0.0) == pytest.approx(5e-10)
    assert _held(200.0, 1.0) == pytest.approx(5e-10, rel=0.02)
    assert _held(1.0, 0.3) < _held(1.0, 0.6) < _held(1.0, 1.0)
    assert _held(1.0, 1.0, warping=0.0) == 5e-10


def test_round_holes_after_kachanov() -> None:
    # E/E₀ = 1/(1 + 3 φ) for holes far apart: from the stress concentration of 3 at one hole
    # (Kirsch) by energy; K of plane stress must follow from E and ν alike
    stretch, shear = holed_shares(holes=0.1, poisson_ratio=0.3)
    assert stretch == pytest.approx(1.0 / 1.3)
    ratio = (0.3 + 0.1) / (1.0 + 0.3)  # ν = (ν₀ + φ)/(1 + 3 φ)
    assert shear == pytest.approx(stretch * (1.0 + 0.3) / (1.0 + ratio))
    assert [float(one) for one in holed_shares(holes=0.0, poisson_ratio=0.3)] == [1.0, 1.0]


def test_impossible_walls_are_refused() -> None:
    with pytest.raises(InputError, match="thickness"):
        open_outline(corners=[(0, 0), (1, 0)], thickness=0.0)
    with pytest.raises(InputError, match="corners"):
        open_outline(corners=[(0, 0), (0, 0), (1, 0)], thickness=1e-3)
    with pytest.raises(InputError, match="holes"):
        holed_shares(holes=0.6, poisson_ratio=0.3)
    with pytest.raises(InputError, match="held"):
        _held(1.0, 1.2)
