"""Long drawing and comparing holds nobody up, and what it finds is kept."""

import threading
import time

from tests.workbench.benches import bench

from drybuild.book import contents
from drybuild.book.pages import Chapter
from drybuild.workbench.apart import apart


def test_pages_answer_while_another_one_is_drawn(tmp_path, monkeypatch):
    begun, goes_on = threading.Event(), threading.Event()

    def slow_chapter(session) -> Chapter:
        begun.set()
        assert goes_on.wait(20.0)
        return Chapter(title="Slow", intro="drawn at last", blocks=())

    slow_chapter.__module__ = "drybuild.book.chapters.brakes"
    monkeypatch.setattr(contents, "CHAPTERS", (slow_chapter,))
    with bench(tmp_path) as found:
        found.desk.wait()
        asks = threading.Thread(target=found.client.get, args=("/running-gear?drawn=all",))
        asks.start()
        assert begun.wait(20.0)
        start = time.monotonic()
        assert "drawn at last" not in found.client.get("/running-gear").text
        assert found.client.get("/verdicts").status_code == 200
        assert time.monotonic() - start < 5.0
        goes_on.set()
        asks.join(20.0)
        assert "drawn at last" in found.client.get("/running-gear").text


def test_what_is_found_apart_is_handed_back_unless_the_build_moved_on(tmp_path):
    with bench(tmp_path) as found:
        desk = found.desk
        desk.wait()
        with apart(desk) as session:
            result = session.evaluation.result("front_brake_share", {"engine": "larger"})
        key = desk.session.evaluation.key_of("front_brake_share", {"engine": "larger"})
        assert desk.session.evaluation.memory[key] is result
        with apart(desk) as session:
            steps = session.next_steps
            desk.pick("engine", "larger")
        assert "next_steps" not in vars(desk.session)
        desk.wait()
        assert desk.session.next_steps is not steps


def test_a_page_that_has_not_settled_shows_what_is_known(tmp_path):
    with bench(tmp_path) as found:
        found.desk.tasks.stop("verdicts")
        pages = ("/running-gear", "/power", "/shell", "/work", "/next", "/compare?system=engine")
        for path in pages:
            assert found.client.get(path).status_code == 200, path
