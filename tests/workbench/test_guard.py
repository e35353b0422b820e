"""Only this computer's own browser, let in by the run's token, from our own pages."""

import httpx
import pytest
from tests.workbench.benches import TOKEN, bench

from drybuild.workbench.guard import LARGEST_REQUEST

CHANGE = {"address": "car.body.wheelbase", "value": "2600 mm", "was": "2480 ± 3 mm", "here": "/car"}


@pytest.fixture(scope="module")
def open_bench(tmp_path_factory):
    with bench(tmp_path_factory.mktemp("build")) as found:
        yield found


def test_nothing_is_told_without_the_token(open_bench):
    for path in ("/", "/api/verdicts", "/static/workbench.css", "/book/pdf", "/nowhere"):
        answer = httpx.get(open_bench.origin + path)
        assert answer.status_code == 403
        assert "Ferrin" not in answer.text


def test_a_wrong_token_is_refused(open_bench):
    assert httpx.get(f"{open_bench.origin}/enter/{TOKEN}x").status_code == 403
    cookies = {f"drybuild-{open_bench.port}": "guessed"}
    assert httpx.get(open_bench.origin, cookies=cookies).status_code == 403


def test_the_cookie_stays_with_the_browser(open_bench):
    answer = httpx.get(f"{open_bench.origin}/enter/{TOKEN}")
    cookie = answer.headers["set-cookie"].lower()
    assert answer.status_code == 303
    assert "httponly" in cookie
    assert "samesite=strict" in cookie


@pytest.mark.parametrize("host", ["evil.example", "127.0.0.1", "127.0.0.1:1", "evil.example:80"])
def test_another_name_for_this_computer_is_not_answered(open_bench, host):
    assert open_bench.client.get("/", headers={"host": host}).status_code == 421


@pytest.mark.parametrize("origin", ["http://evil.example", "null", "http://127.0.0.1:1", None])
def test_a_change_from_elsewhere_is_refused(open_bench, origin):
    before = open_bench.text
    headers = {} if origin is None else {"origin": origin}
    answer = open_bench.client.post("/set", data=CHANGE, headers=headers)
    assert answer.status_code == 403
    assert open_bench.text == before


def test_a_program_with_the_token_may_change_without_an_origin(open_bench):
    answer = httpx.post(
        f"{open_bench.origin}/api/pick",
        json={"system": "engine", "option": "larger"},
        headers={"authorization": f"Bearer {TOKEN}"},
        timeout=60.0,
    )
    assert answer.json()["saved"] is True
    assert "engine: larger" in open_bench.text


@pytest.mark.parametrize("path", ["/set", "/api/set"])
def test_a_large_request_is_refused(open_bench, path):
    answer = open_bench.client.post(
        path, content=b"x" * (LARGEST_REQUEST + 1), headers={"origin": open_bench.origin}
    )
    assert answer.status_code == 413


def test_a_large_request_in_pieces_is_refused(open_bench):
    def pieces():
        for _ in range(40):
            yield b"x" * 8192

    answer = open_bench.client.post("/set", content=pieces(), headers={"origin": open_bench.origin})
    assert answer.status_code == 413


def test_every_answer_carries_a_policy_without_inline_script(open_bench):
    for path in ("/", "/nowhere", "/api/state", "/static/workbench.mjs"):
        policy = open_bench.client.get(path).headers["content-security-policy"]
        assert "default-src 'none'" in policy
        assert "script-src 'self'" in policy.split("; ")
    assert "<script>" not in open_bench.client.get("/").text


@pytest.mark.parametrize(
    "path",
    [
        "/static/../app.py",
        "/static/..%2fapp.py",
        "/static/%2e%2e/app.py",
        "/static//etc/passwd",
        "/book/..%2f..%2fetc",
        "/choices/engine/..%2f..%2f",
        "/jobs/..%2f..%2fetc%2fpasswd",
    ],
)
def test_no_path_leads_to_a_file(open_bench, path):
    answer = open_bench.client.get(path)
    assert answer.status_code == 404
    assert "root:" not in answer.text
    assert "def make_app" not in answer.text
