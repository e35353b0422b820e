"""Long work tells how far it is, and really stops."""

import threading
import time

import pytest
from tests.workbench.benches import bench

from drybuild.workbench.door import Door
from drybuild.workbench.tasks import Tasks


def test_a_stopped_task_stays_stopped_until_it_goes_on():
    tasks, turns = Tasks(), []
    tasks.on_turn("book", lambda: turns.append(tasks.standing("book")))
    tasks.stop("book")  # nothing runs: nothing to stop
    tasks.begin("book")
    tasks.told("book", 1, 4)
    assert [(one.name, one.share) for one in tasks.shown()] == [("book", 25)]
    tasks.stop("book")
    tasks.end("book")
    assert tasks.stopped("book")
    tasks.go_on("book")
    assert turns == ["stopped", "idle"]
    assert tasks.shown() == []


def test_work_makes_way_for_whoever_is_inside():
    door, passed = Door(), []

    def work() -> None:
        door.make_way()
        passed.append(time.monotonic())

    with door:
        thread = threading.Thread(target=work)
        thread.start()
        thread.join(0.15)
        assert not passed
        left = time.monotonic()
    thread.join(5.0)
    assert passed[0] >= left


@pytest.fixture
def slow_bench(tmp_path, monkeypatch):
    """A workbench whose every quantity takes a while."""
    from drybuild.quantities.graph import Evaluation  # noqa: PLC0415  patched here

    compute = Evaluation._compute

    def slowly(self, *words):
        if threading.current_thread().name == "settle":
            time.sleep(0.02)
        return compute(self, *words)

    monkeypatch.setattr(Evaluation, "_compute", slowly)
    with bench(tmp_path) as found:
        yield found


def _until(found, wanted):
    for _ in range(400):
        told = found.client.get("/state").json()
        if wanted(told):
            return told
        time.sleep(0.02)
    return pytest.fail(f"it never came to that: {told}")


def test_settling_is_shown_stopped_and_gone_on_with(slow_bench):
    told = _until(slow_bench, lambda one: one["tasks"])
    assert told["tasks"][0]["words"] == "Judging every check on all draws"
    page = slow_bench.post("/stop", task="verdicts", here="/verdicts").text
    assert 'action="/go-on"' in page
    assert "first look, stopped" in page
    before = len(slow_bench.desk.session.evaluation.memory)
    time.sleep(0.2)
    assert len(slow_bench.desk.session.evaluation.memory) == before
    told = slow_bench.client.get("/state?settle&version=1").json()  # does not wait for ever
    assert told["settled"] is False
    assert told["tasks"] == [{**told["tasks"][0], "name": "verdicts", "standing": "stopped"}]
    assert slow_bench.client.get("/next").status_code == 200
    slow_bench.post("/go-on", task="verdicts", here="/")
    assert _until(slow_bench, lambda one: one["tasks"] and one["tasks"][0]["standing"] == "running")


def test_judging_that_fails_is_told_and_the_next_change_tries_again(
    open_bench, monkeypatch, caplog
):
    from drybuild.checks.verdicts import judge  # noqa: PLC0415  patched here

    def fail(*words, doubts=True, **more):
        if doubts:
            raise ZeroDivisionError("a fault of ours")
        return judge(*words, doubts=doubts, **more)  # the first look

    open_bench.desk.wait()
    with monkeypatch.context() as patch:
        patch.setattr("drybuild.workbench.desk.judge", fail)
        open_bench.post("/pick", system="engine", option="larger", was="original", here="/")
        told = open_bench.client.get("/state?settle&version=2").json()
    assert (told["settled"], told["tasks"][0]["standing"]) == (False, "failed")
    page = open_bench.client.get("/verdicts").text
    assert "judging the rest failed, the terminal says why" in page
    assert "Try again" in page
    assert "a fault of ours" in caplog.text
    open_bench.post("/pick", system="engine", option="original", was="larger", here="/")
    told = open_bench.client.get("/state?settle&version=3").json()
    assert told["settled"] is True
    assert "failed" not in {one["standing"] for one in told["tasks"]}


def test_options_that_cannot_be_tabulated_are_told_and_tried_again(tmp_path, monkeypatch, caplog):
    def fail(*words, **more):
        raise ZeroDivisionError("a fault of ours")

    with monkeypatch.context() as patch:
        patch.setattr("drybuild.session.Session.ready_to_choose", fail)
        with bench(tmp_path) as found:
            found.desk.wait()
            told = found.client.get("/state?choices&version=1").json()
            assert [one["standing"] for one in told["tasks"]] == ["failed"]
            assert "a fault of ours" in caplog.text
            patch.undo()
            found.post("/go-on", task="choices", here="/choices")
            assert found.client.get("/state?choices&version=1").json()["choices"] is True


def test_the_book_is_begun_shown_and_stopped(tmp_path):
    with bench(tmp_path) as found:
        found.post("/book/make", here="/book")
        told = _until(found, lambda one: any(task["name"] == "book" for task in one["tasks"]))
        assert any(task["standing"] == "running" for task in told["tasks"])
        assert "The book is being made" in found.client.get("/book").text
        begun = time.monotonic()
        found.post("/stop", task="book", here="/book")
        assert found.client.get("/state").elapsed.total_seconds() < 5.0
        _until(found, lambda _: found.desk.bookmaking._making is None)
        assert time.monotonic() - begun < 8.0
        assert "Make the book" in found.client.get("/book").text


def test_unknown_work_is_refused(tmp_path):
    with bench(tmp_path) as found:
        for path in ("/stop", "/go-on"):
            assert found.post(path, task="everything", here="/").status_code == 422
