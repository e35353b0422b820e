from __future__ import annotations

from tests.building import evaluate

from drybuild.checks.verdicts import State

CAR = """build: an invented saloon
brief: {use: {ROAD: 100 %}}
car:
  body: {kind: unitary, wheelbase: 2500 mm}
  mass: {front_axle: 540 kg, rear_axle: 460 kg, fuel_aboard: 40 kg, fuel_when_full: 40 kg}
options:
  front_suspension: {it: {wheel_rate: 18 N/mm, bump_travel: BUMP ± 2 mm, unsprung_mass: 72 kg}}
  rear_suspension: {it: {wheel_rate: 20 N/mm, bump_travel: BUMP ± 2 mm, unsprung_mass: 140 kg}}
  dampers: {it: {front_damping_ratio: 0.33 ± 0.01, rear_damping_ratio: 0.33 ± 0.01}}
"""


def car(road: str, bump: str = "100") -> str:
    return CAR.replace("ROAD", road).replace("BUMP", bump)


def test_comfort_depends_on_the_road() -> None:
    assert evaluate(car("motorway")).verdict("ride.comfort").state is State.GOOD
    rough = evaluate(car("gravel")).verdict("ride.comfort")
    assert rough.state is State.FAILS
    assert not rough.rules_out


def test_road_contact() -> None:
    assert evaluate(car("country road")).verdict("ride.road-contact").state is State.GOOD
    assert evaluate(car("gravel")).verdict("ride.road-contact").state is not State.GOOD


def test_bump_stops() -> None:
    assert evaluate(car("country road")).verdict("ride.bump-stops").state is State.GOOD
    assert evaluate(car("gravel", bump="40")).verdict("ride.bump-stops").state is State.FAILS
