"""Tyres of a build: sizes of every system, what was measured first, radii and loads."""

from __future__ import annotations

import pytest
from tests.building import evaluate


def fitted(tyres: str, wheels: str = "diameter: 14 in, width: 5 in") -> str:
    return (
        "build: an invented car\ncar: {body: {kind: unitary}}\n"
        f"options:\n  tyres: {{fitted: {{{tyres}}}}}\n  wheels: {{fitted: {{{wheels}}}}}\n"
    )


# Outside diameters of UN R30 Annex 5 and ETRTO (from memory); letter sizes by the interchange.
@pytest.mark.parametrize(
    ("size", "millimetres"),
    [
        ("185/70R14 88H", 616),
        ("155R13", 578),
        ("5.60-15", 650),
        ("6.95-14", 638),
        ("31x10.50R15 109S", 787.4),
        ("E70-14", 356 + 2 * 144),
    ],
)
def test_outside_diameter_follows_the_size(size: str, millimetres: float) -> None:
    found = evaluate(fitted(f"size: {size}"), samples=10)
    assert found.problems == ()
    for axle in ("front", "rear"):
        assert found.value("tyre_outside_diameter", axle) * 1000 == pytest.approx(millimetres)


def test_the_rear_size_counts_at_the_rear_only() -> None:
    found = evaluate(fitted("size: 185/70R14 88H, rear_size: 205/60R15 91V"), samples=10)
    assert found.value("tyre_outside_diameter", "front") == pytest.approx(0.616)
    assert found.value("tyre_outside_diameter", "rear") == pytest.approx(0.627)
    assert found.value("tyre_load_capacity", "rear") == 615
    assert found.value("rolling_circumference_ratio") == pytest.approx(627 / 616)


def test_what_was_measured_comes_before_the_size() -> None:
    found = evaluate(fitted("size: 185/70R14 88H, outside_diameter: 610 ± 1 mm"), samples=10)
    assert found.value("tyre_outside_diameter", "front") == pytest.approx(0.610)


def test_load_and_speed_come_from_the_marking() -> None:
    # ISO 4000-1: 88 is 560 kg; H is 210 km/h. T&RA letter E at 32 psi: 1400 lb (from memory).
    marked = evaluate(fitted("size: 185/70R14 88H"), samples=10)
    assert marked.value("tyre_load_capacity", "front") == 560
    assert marked.value("tyre_speed_rating", "front") * 3.6 == pytest.approx(210)
    letter = evaluate(fitted("size: E70-14"), samples=10)
    assert letter.value("tyre_load_capacity", "front") == pytest.approx(635, abs=0.5)


def test_radii_by_hand() -> None:
    # 3.05 · 616 mm = 1878.8 mm a turn, 299.0 mm, 532.3 turns a kilometre; 178 + 0.78 · 130 mm.
    found = evaluate(fitted("size: 185/70R14 88H, height_share: 0.78"), samples=10)
    assert found.value("rolling_circumference", "front") == pytest.approx(1.8788)
    assert found.value("rolling_radius", "front") == pytest.approx(0.2990, abs=1e-4)
    assert found.value("revs_per_km", "front") * 1000 == pytest.approx(532.3, abs=0.1)
    assert found.value("static_radius", "front") == pytest.approx(0.178 + 0.78 * 0.130)


def test_a_wider_rim_widens_the_tyre() -> None:
    # 185/70 measures on 5.5 J; each half inch gives 5.08 mm.
    narrow = evaluate(fitted("size: 185/70R14", "diameter: 14 in, width: 5 in"), samples=10)
    wide = evaluate(fitted("size: 185/70R14", "diameter: 14 in, width: 6 in"), samples=10)
    growth = wide.value("tyre_section_width", "front") - narrow.value("tyre_section_width", "front")
    assert growth == pytest.approx(0.4 * 0.0254)
    assert wide.value("tyre_section_width", "front") == pytest.approx(0.185 + 0.2 * 0.0254)


def test_an_unlisted_old_size_says_what_to_measure() -> None:
    found = evaluate(fitted("size: 7.10-17"), samples=10)
    result = found.result("tyre_outside_diameter")
    assert result.open
    assert any("measure" in one.why for one in result.missing)


def test_a_misread_size_is_a_problem_with_its_place() -> None:
    found = evaluate(fitted("size: 185-70-14"), samples=10)
    assert [one.code for one in found.problems] == ["notation-unreadable"]
    assert "fitted.size" in found.problems[0].field


def test_a_sparse_build_knows_its_tyres_but_not_whether_they_fit() -> None:
    bare = evaluate(samples=20)
    for name, one in bare.evaluation.graph.quantities.items():
        if one.function.__module__.rpartition(".")[2] == "tyres":
            assert bare.result(name).open == (name == "tyre_rim_mismatch"), name
