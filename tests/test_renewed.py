"""A session after a change says the same as one that is opened anew."""

import random
import shutil
from pathlib import Path

import numpy as np
import pytest

from drybuild.project.load import load
from drybuild.session import Session, edit

EXAMPLES = Path(__file__).parents[1] / "examples"
SAMPLES = 12
BUILDS = ("estate", "pickup")
CHANGES = 2
"""Another option, then another reading."""


def same(one: object, other: object) -> bool:
    """Whether two values of quantities are equal, down to the last draw."""
    if isinstance(one, dict) and isinstance(other, dict):
        return one.keys() == other.keys() and all(same(one[key], other[key]) for key in one)
    if one is None or other is None:
        return one is other
    return np.array_equal(np.asarray(one), np.asarray(other), equal_nan=True)


@pytest.mark.parametrize("name", BUILDS)
def test_a_renewed_session_equals_a_fresh_one(tmp_path, name):
    folder = tmp_path / name
    shutil.copytree(EXAMPLES / name, folder)
    dice = random.Random(11)
    session = Session.open(folder, SAMPLES)
    session.verdicts  # noqa: B018  fills what a change may keep
    systems = [system for system, options in session.build.options.items() if len(options) > 1]
    for turn in range(CHANGES):
        if turn % 2:
            path, reading = dice.choice(sorted(_given(session)))
            moved = f"{reading[0] * dice.uniform(0.97, 1.03):.6g} {reading[1]}"
            assert edit(folder, path, moved).problems == ()
            session = session.renewed(load(folder), back=bool(dice.getrandbits(1)))
        else:
            system = dice.choice(systems)
            option = dice.choice(list(session.build.options[system]))
            session = session.renewed(session.picked(system, option))
        fresh = Session.open(folder, SAMPLES)
        assert dict(session.build.picks) == dict(fresh.build.picks)
        states = [[(v.check.id, v.state) for v in one.verdicts] for one in (session, fresh)]
        assert states[0] == states[1]
        for quantity, result in fresh.quantities.items():
            assert same(session.quantities[quantity].value, result.value), (turn, quantity)


def _given(session: Session) -> list[tuple[str, tuple[float, str]]]:
    """Return readings of the car that a file gives as one plain number with its unit."""
    found = []
    for path, reading in session.evaluation.readings.items():
        head, _, unit = reading.text.partition(" ")
        plain = head.replace(".", "", 1).isdigit() and unit.isalpha()
        own = path.startswith("car.") and "[" not in path and path.count(".") == 2
        if own and plain and _stands(session, path):
            found.append((path, (float(head), unit)))
    return found


def _stands(session: Session, path: str) -> bool:
    _, section, entry = path.split(".")
    return entry in session.build.car[section].given
