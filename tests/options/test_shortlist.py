"""Which way is better for what the brief prefers."""

from __future__ import annotations

from tests.building import evaluate

from drybuild.options.chooser import Chooser
from drybuild.present.verdict_texts import failing_words

FILE = """
build: an invented saloon
car: {body: {kind: unitary}, mass: {front_axle: 520 kg, rear_axle: 480 kg}}
options:
  rear_suspension:
    soft: {as_is: true, mass: 40 kg, wheel_rate: 20 N/mm}
    hard: {mass: 40 kg, wheel_rate: 32 N/mm}
  battery:
    old: {as_is: true, mass: 14 kg}
    new: {mass: 14 kg, price: 100 EUR}
"""


def test_less_shaking_is_better_though_only_advice_says_so() -> None:
    car = evaluate(FILE)
    chooser = Chooser(car.evaluation, tuple(car.checks.values()), failing_words)
    best = chooser.shortlist({"ride_comfort": 1.0}, {}).listed[0]
    assert best.build["rear_suspension"] == "soft"
