"""Every quantity on cars of which nothing is known but the kind of their body."""

from __future__ import annotations

import pytest
from tests.building import evaluate

from drybuild.quantities.all import graph


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
