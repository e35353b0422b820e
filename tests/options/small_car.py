"""An invented car of five systems with sums simple enough to check by hand."""

from __future__ import annotations

import tempfile
from contextlib import AbstractContextManager
from pathlib import Path
from types import ModuleType
from unittest.mock import patch

import numpy as np

from drybuild.checks.check import Check
from drybuild.checks.must import must_checks
from drybuild.checks.verdicts import Verdict
from drybuild.options.chooser import Chooser
from drybuild.project import catalogue
from drybuild.project.fields import reading
from drybuild.project.load import load
from drybuild.project.option import Option
from drybuild.project.samples import Values
from drybuild.quantities.graph import Evaluation, Graph, Parts
from drybuild.quantities.quantity import quantity


class Rims(Option):
    """Rims with a diameter."""

    diameter = reading("m", "Diameter", exact=True)


class Discs(Option):
    """Discs with a diameter."""

    diameter = reading("m", "Diameter", exact=True)


class Motor(Option):
    """A motor with a power."""

    power = reading("W", "Power", exact=True)


@quantity("kg", "Mass of all parts", source="definition", aggregate=True)
def all_mass(parts: Parts) -> Values:
    return np.asarray(sum(part.picked.mass for part in parts.values()))


@quantity("money", "Price of all parts", source="definition", aggregate=True)
def all_price(parts: Parts) -> Values:
    paid = [part.picked.price for part in parts.values() if part.picked.has("price")]
    return np.asarray(sum(paid, start=np.zeros(1)))


@quantity("m", "Room between disc and rim", source="definition", shown="mm")
def rim_room(rims: Rims, discs: Discs) -> Values:
    return np.asarray((rims.diameter - discs.diameter) / 2.0)


@quantity("W/kg", "Power for its mass", source="definition")
def pull(motor: Motor, all_mass: Values) -> Values:
    return np.asarray(motor.power / all_mass)


ROOM = ModuleType(all_mass.function.__module__)
for one in (all_mass, all_price, rim_room, pull):
    setattr(ROOM, one.name, one)

CHECKS = (
    Check(
        id="rims.room",
        asks="Does the disc go inside the rim?",
        quantity="rim_room",
        at_least="45 mm",
        mend="A smaller disc.",
    ),
    Check(
        id="rims.advice",
        asks="Is there room for a hand?",
        quantity="rim_room",
        at_least="500 mm",
        mend="-",
        advice=True,
    ),
)

FILE = """
build: an invented car
car: {body: {kind: unitary}}
brief:
  keep: [Tunnel]
  must: [pull >= 0.4 kW/kg]
options:
  rims:
    old: {as_is: true, mass: 20 kg, diameter: 350 mm}
    big: {mass: 24 kg, diameter: 430 mm, price: 900 EUR, lead_time: 2 weeks}
  discs:
    old: {as_is: true, mass: 12 kg, diameter: 240 mm}
    middle: {mass: 14 kg, diameter: 280 mm, price: 500 EUR, lead_time: 1 week}
    large: {mass: 18 kg, diameter: 330 mm, price: 800 EUR, lead_time: 1 week}
  motor:
    old: {as_is: true, mass: 100 kg, power: 40 kW, joins: {bell: A}}
    strong: {mass: 140 kg, power: 120 kW, price: 5000 EUR, lead_time: 6 weeks,
             joins: {bell: B}, needs: {discs: [middle, large]}}
    huge: {mass: 200 kg, power: 300 kW, price: 9000 EUR, lead_time: 4 weeks,
           joins: {bell: B}, alters: [bonnet, tunnel]}
  box:
    old: {as_is: true, mass: 30 kg, joins: {bell: A}}
    five: {mass: 40 kg, price: 1500 EUR, lead_time: 3 weeks, joins: {bell: [A, B]}}
    six: {mass: 45 kg, price: 2500 EUR, joins: {bell: B}, excludes: {rims: old}}
  horn:
    loud: {mass: 1 kg, as_is: true}
"""


def say(verdict: Verdict, evaluation: Evaluation) -> str:
    assert verdict.worst is not None
    return f"{verdict.check.id} at {verdict.worst.value[0]:.4g}"


def its_systems() -> AbstractContextManager[object]:
    """Return a time in which the systems of this car are the only ones."""
    own = {"rims": Rims, "discs": Discs, "motor": Motor, "box": Option, "horn": Option}
    return patch.dict(catalogue.SYSTEMS, own, clear=True)


def chooser(text: str = FILE, samples: int = 300) -> Chooser:
    with tempfile.TemporaryDirectory() as folder, its_systems():
        (Path(folder) / "build.yaml").write_text(text, encoding="utf-8")
        build = load(Path(folder))
        assert not build.problems, build.problems
        graph = Graph((ROOM,))
        evaluation = Evaluation(graph, build, samples)
        made = Chooser(evaluation, (*must_checks(build, graph), *CHECKS), say)
        made.tabulated  # noqa: B018  while the systems are known
        return made
