from __future__ import annotations

import numpy as np
import pytest

from drybuild.errors import InputError
from drybuild.physics.packaging import rock_angle


def test_the_rock_angle_moves_the_top_by_what_was_asked() -> None:
    angle = rock_angle(movement=0.015, height=0.4)
    assert 0.4 * np.sin(angle) == pytest.approx(0.015)
    with pytest.raises(InputError):
        rock_angle(movement=0.3, height=0.4)


def test_no_movement_is_no_angle() -> None:
    assert rock_angle(movement=np.zeros(3), height=0.4) == pytest.approx(np.zeros(3))
