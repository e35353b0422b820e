"""Every quantity on cars of which nothing is known but the kind of their body."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from tests.building import evaluate

from drybuild.checks.all import standing_checks
from drybuild.quantities.all import graph

CONTRIBUTING = Path(__file__).resolve().parents[2] / "CONTRIBUTING.md"


@pytest.mark.parametrize("kind", ["unitary", "ladder", "backbone"])
def test_no_sample_of_a_car_that_nothing_is_known_of_is_refused_by_physics_or_tables(
    kind: str,
) -> None:
    car = evaluate(f"build: bare\ncar: {{body: {{kind: {kind}}}}}\n", samples=2000)
    quantities = graph().quantities
    refused = {
        lack.path: lack.why
        for name in quantities
        for lack in car.result(name).missing
        if lack.path in quantities
    }
    assert refused == {}


def test_one_word_names_a_matter_on_every_floor() -> None:
    told = re.search(
        r"One word names a matter on every floor: `([^`]*)`",
        CONTRIBUTING.read_text(encoding="utf-8"),
    )
    assert told is not None
    matters = set(re.split(r",\s+", told[1]))
    assert {one.matter for one in graph().quantities.values()} <= matters
    assert {check.matter for check in standing_checks()} <= matters
