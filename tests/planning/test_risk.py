import numpy as np
import pytest
from tests.planning.plans import job, plan

from drybuild.planning.estimates import ThreePoint, exactly
from drybuild.planning.jobs import Discovery, Grade, Job, Order
from drybuild.planning.risk import (
    cash_bands,
    cash_by_month,
    criticality,
    drivers,
    quantile_error,
    spread,
)
from drybuild.planning.sampling import draw
from drybuild.planning.simulate import Outcome, simulate

ROTTEN = Grade(name="rotten", odds=0.25, hours=exactly(10.0), cost=exactly(300.0))
FLOOR = Discovery(
    name="floor", revealed_by="strip", grades=(Grade(name="sound", odds=0.75), ROTTEN)
)
GEARBOX = Order(
    part="gearbox",
    price=exactly(1000.0),
    lead_days=exactly(40.0),
    deposit_share=0.3,
    needed_by=("fit",),
    placed_day=0.0,
)
JOBS = (
    Job(name="strip", hours=ThreePoint(8.0, 10.0, 15.0), cost=exactly(50.0)),
    job("fit", 5.0, "strip"),
)


def run(runs: int = 2000, orders: tuple[Order, ...] = (GEARBOX,)) -> Outcome:
    of = plan(*JOBS, discoveries=(FLOOR,), orders=orders)
    return simulate(of, draw(of, runs))


def test_contingency_is_the_p80_of_the_total_less_the_plan() -> None:
    cost = spread(run().cost)
    assert cost.plan == pytest.approx(1050.0)
    assert cost.mean == pytest.approx(1050.0 + 0.25 * 300.0, abs=5.0)
    assert cost.p80 == pytest.approx(1350.0)
    assert cost.contingency == pytest.approx(300.0)


def test_a_risk_below_one_in_five_adds_nothing_to_its_own_p80_but_to_the_mean() -> None:
    total = np.concatenate([[0.0], np.repeat([0.0, 100.0], [85, 15])])
    found = spread(total)
    assert found.contingency == 0.0
    assert found.mean == pytest.approx(15.0)


def test_a_discovery_s_weight_is_the_difference_between_found_and_not() -> None:
    found = {(d.name, d.kind): d for d in drivers(run(orders=()))}
    floor = found["floor", "discovery"]
    assert floor.days == pytest.approx(10.0, abs=0.3)
    assert floor.money == pytest.approx(300.0)
    assert floor.odds == pytest.approx(0.25, abs=0.02)
    assert found["strip", "hours"].rank_correlation > 0.2
    assert ("fit", "hours") not in found


def test_waiting_for_a_part_shows_as_critical() -> None:
    waited = criticality(run())
    assert waited.orders[0] == pytest.approx(1.0, abs=0.01)
    free = criticality(run(orders=()))
    assert free.nodes[0] == pytest.approx(1.0)


def test_cash_falls_into_the_months_in_which_it_is_paid() -> None:
    done = run(0)
    cash = cash_by_month(done)[:, 0]
    # Start on 6 January: deposit and strip-down in January, the rest on day 40, 15 February.
    assert list(cash) == pytest.approx([350.0, 700.0])
    assert cash.sum() == pytest.approx(done.cost[0])


def test_all_money_is_in_the_cash() -> None:
    done = run(500)
    assert cash_by_month(done).sum(axis=0) == pytest.approx(done.cost)
    bands = cash_bands(done)
    assert np.all(np.diff(bands, axis=1) >= 0.0)
    assert np.all(bands[2] >= bands[1])


def test_the_error_of_a_quantile_is_that_of_repeated_runs() -> None:
    rng = np.random.default_rng(5)
    many = np.array([np.quantile(rng.normal(size=2000), 0.8) for _ in range(400)])
    assert quantile_error(rng.normal(size=2000), 0.8) == pytest.approx(many.std(), rel=0.2)
