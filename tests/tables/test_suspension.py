from __future__ import annotations

import pytest

from drybuild.tables.suspension import layout_of, layouts, usual_layout


@pytest.mark.parametrize("name", layouts())
def test_layouts_are_in_order(name: str) -> None:
    layout = layout_of(name)
    for known in (
        layout.roll_centre,
        layout.lean,
        layout.roll_steer,
        layout.motion_ratio,
        layout.spacing,
        layout.unsprung,
    ):
        assert known.low <= known.value <= known.high


@pytest.mark.parametrize("name", layouts())
def test_one_beam_keeps_its_wheels_upright_and_weighs_more(name: str) -> None:
    layout = layout_of(name)
    if layout.rigid:
        assert layout.lean.value == 0.0
        assert layout.spacing.value < 1.0
        assert layout.roll_centre.value > 0.2
    if layout.carries_final_drive:
        assert layout.rigid
        assert layout.unsprung.low >= 120.0  # [kg], common practice: 120 to 180 with wheels


def test_a_classic_car_has_wishbones_in_front_and_a_live_axle_behind() -> None:
    assert not layout_of(usual_layout("front")).rigid
    assert layout_of(usual_layout("rear")).carries_final_drive
