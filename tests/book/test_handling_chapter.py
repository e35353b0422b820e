from __future__ import annotations

import numpy as np
import pytest

from drybuild.present.corner import banded
from drybuild.present.ride_trade import stands, trade_plot
from tests.building import evaluate

CAR = """build: an invented saloon
car: {body: {kind: unitary}}
options:
  dampers:
    soft: {as_is: true, front_damping_ratio: 0.2, rear_damping_ratio: 0.2}
    firm: {front_damping_ratio: 0.5, rear_damping_ratio: 0.5}
"""


def test_a_band_ends_where_too_few_samples_hold_the_bend() -> None:
    samples = np.tile(np.linspace(0.0, 1.0, 5)[:, np.newaxis], (1, 11))
    samples[3, 4:] = np.nan
    found = banded(np.arange(5.0), samples)
    assert found.x.tolist() == [0.0, 1.0, 2.0]
    assert found.nominal == pytest.approx(found.low)


def test_today_lies_on_its_own_line_and_firmer_dampers_further_along() -> None:
    evaluation = evaluate(CAR).evaluation
    trade = evaluation.result("ride_trade").value
    now, firm = stands(evaluation)
    row = int(np.argmin(np.abs(trade.springs - 1.0)))
    contact = np.interp(1.0, trade.damping, trade.contact[row])
    assert now.contact[0] == pytest.approx(contact, rel=5e-3)
    comfort = np.interp(1.0, trade.damping, trade.comfort[row])
    assert now.comfort[0] == pytest.approx(comfort, rel=5e-3)
    assert firm.comfort[0] > now.comfort[0]
    assert firm.contact[0] < now.contact[0]
    assert now.comfort[1] < now.comfort[0] < now.comfort[2]
    assert "now" in trade_plot(trade, [now, firm], "m/s²")
