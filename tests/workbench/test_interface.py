"""The interface for programs holds what its OpenAPI document promises, whatever it is sent."""

import time

import pytest
import schemathesis
from hypothesis import HealthCheck, Phase, given, settings
from hypothesis import strategies as st
from schemathesis.checks import not_a_server_error
from schemathesis.specs.openapi.checks import (
    content_type_conformance,
    response_schema_conformance,
    status_code_conformance,
)
from tests.workbench.benches import bench

from drybuild.workbench.api import READS, WRITES

EXAMPLES = 12
LONGEST = 2.0
"""Seconds that one address is tried for at most."""
PROMISES = [
    not_a_server_error,
    status_code_conformance,
    content_type_conformance,
    response_schema_conformance,
]
ADDRESSES = ("/", "/car", "/choices", "/book", "/advice", "/state", "/static/workbench.css")


@pytest.fixture(scope="module")
def shown(tmp_path_factory):
    with bench(tmp_path_factory.mktemp("build"), samples=60) as found:
        found.desk.wait()
        yield found


def test_no_request_makes_a_server_error_and_answers_are_as_told(shown):
    schema = schemathesis.openapi.from_dict(shown.client.get("/api/openapi.json").json())
    tried = [_promises_hold(shown, one.ok()) for one in schema.get_all_operations()]
    assert len(tried) >= len(READS) + len(WRITES)
    assert sum(tried) > len(tried)


def _promises_hold(shown, operation):
    """Try one address; return how many requests there was time for."""
    until, tried = time.monotonic() + LONGEST, 0

    @given(case=operation.as_strategy())
    @settings(
        max_examples=EXAMPLES,
        derandomize=True,
        database=None,
        deadline=None,
        phases=[Phase.generate],
        suppress_health_check=list(HealthCheck),
    )
    def holds(case):
        nonlocal tried
        if time.monotonic() > until:
            return
        tried += 1
        answer = case.call(
            base_url=shown.origin,
            cookies=dict(shown.client.cookies),
            headers={"origin": shown.origin},
        )
        case.validate_response(answer, checks=PROMISES)

    holds()
    return tried


@settings(max_examples=20, derandomize=True, database=None, deadline=None)
@given(st.text(min_size=1, max_size=40))
def test_no_address_makes_a_server_error(shown, words):
    path = "/" + "".join(f"%{byte:02x}" for byte in words.encode("utf-8", "surrogatepass"))
    for lead in ("", "/choices/engine", "/check", "/quantity", "/jobs", "/static", "/book"):
        assert shown.client.get(lead + path).status_code in (200, 303, 400, 404, 405)


@pytest.mark.parametrize("method", ["PUT", "DELETE", "PATCH", "OPTIONS", "TRACE"])
def test_other_methods_are_refused(shown, method):
    for path in (*ADDRESSES, "/set", "/api/set", "/advice/read"):
        answer = shown.client.request(method, path, headers={"origin": shown.origin})
        assert answer.status_code in (404, 405), (method, path)


@pytest.mark.parametrize(
    "kind", ["application/json", "text/plain", "multipart/form-data", "application/xml", ""]
)
def test_forms_of_another_kind_are_refused_or_say_nothing(shown, kind):
    before = shown.text
    for path in ("/set", "/pick", "/jobs", "/stop", "/advice/read", "/advice/take"):
        answer = shown.client.post(
            path, content=b"{}", headers={"origin": shown.origin, "content-type": kind}
        )
        assert answer.status_code < 500, (path, kind)
        assert "Traceback" not in answer.text
    assert shown.text == before


@pytest.mark.parametrize("name", ["../../evil.yaml", "..\\evil.yaml", "/etc/passwd", "<b>.yaml"])
def test_an_upload_is_only_read_whatever_it_is_called(shown, name):
    before = sorted(shown.folder.iterdir())
    answer = shown.client.post(
        "/advice/read",
        files={"file": (name, b"reply: 1\nnotes: [{says: <script>x</script>}]\n")},
        headers={"origin": shown.origin},
    )
    assert answer.status_code == 200
    assert "<script>x" not in answer.text
    assert "&lt;script&gt;x" in answer.text
    assert sorted(shown.folder.iterdir()) == before
    shown.post("/advice/away", here="/advice")


def test_an_oversize_upload_is_refused(shown):
    answer = shown.client.post(
        "/advice/read", files={"file": ("r.yaml", b"x" * 200_000)}, headers={"origin": shown.origin}
    )
    assert answer.status_code == 413


def test_a_reply_is_reviewed_and_taken_on_its_page(shown):
    text = "reply: 1\nauthor: Ada\nvalues: [{at: car.body.wheelbase, value: 2485 mm}]\n"
    page = shown.post("/advice/read", pasted=text, here="/advice").text
    assert "Stands now: 2480 ± 3 mm" in page
    for _ in range(300):
        if not shown.desk.tasks.running("reply") and shown.desk.reviewing.effects:
            break
        time.sleep(0.05)
    assert "Moves no verdict" in shown.client.get("/advice").text or shown.desk.reviewing.effects
    assert "2485" not in shown.text
    shown.post("/advice/take", every="yes", here="/advice")
    assert "value: 2485 mm" in shown.text
    assert "Reply of Ada" in shown.text
    shown.post("/undo", here="/advice")
    assert "wheelbase: 2480 ± 3 mm" in shown.text
