import pytest

from drybuild.project.body import KINDS
from drybuild.project.succession import circle
from drybuild.tables.measuring import how_to
from drybuild.tables.work import habit, standard_jobs, trade_of


@pytest.mark.parametrize("kind", KINDS)
def test_usual_jobs_hang_together(kind: str) -> None:
    jobs = standard_jobs(kind)
    after = {job.name: job.after for job in jobs}
    assert circle(after) == ()
    firsts = [job.name for job in jobs if not job.after]
    lasts = set(after) - {name for before in after.values() for name in before}
    assert firsts == ["measure and photograph"]
    assert lasts == {"road test and inspection"}
    stages = [job.stage for job in jobs if job.stage]
    assert stages == ["strips", "bares", "primes", "closes"]
    for job in jobs:
        assert job.hours[0] <= job.hours[1] <= job.hours[2]


def test_work_that_can_hurt_carries_its_caution() -> None:
    cautions = {job.name: job.caution for job in standard_jobs("unitary")}
    for name in ("brace and weld the shell", "spray the colour", "run brake and fuel lines"):
        assert cautions[name]
    assert "Brakes" in trade_of("brakes").caution
    assert trade_of("a matter of its own").trade


def test_habits_rise() -> None:
    for name in ("kept", "single", "lead"):
        low, likely, high = habit(name)
        assert 0.0 < low < likely < high


@pytest.mark.parametrize(
    ("field", "row"),
    [
        ("car.body.wheelbase", "car.body.wheelbase"),
        ("engine.mass", "*.mass"),
        ("propshaft.mass", "*.mass"),
        ("propshaft.length", "propshaft.*"),
        ("front_brakes.friction", "*_brakes.friction"),
        ("car.arches.rim_width", "car.arches.*"),
    ],
)
def test_the_most_exact_row_counts(field: str, row: str) -> None:
    found = how_to(field)
    assert found is not None
    assert found.field == row


def test_errors_are_given_in_any_unit() -> None:
    scale, tape = how_to("engine.mass"), how_to("car.body.wheelbase")
    assert scale is not None
    assert tape is not None
    assert scale.error_of(150.0, "kg") == pytest.approx(1.5)
    assert tape.error_of(2.54, "m") == pytest.approx(0.003)
    assert how_to("car.running.launch_speed") is None
