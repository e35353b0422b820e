"""A new build from nothing, and one beside an open build."""

from __future__ import annotations

import pytest
from starlette.testclient import TestClient
from tests.workbench.benches import TOKEN

from drybuild.workbench.app import make_app
from drybuild.workbench.beginning import holds_build


@pytest.fixture
def begun(tmp_path):
    opened = []
    app = make_app(
        None, token=TOKEN, port=8123, place=tmp_path / "mine", opens=lambda at: opened.append(at)
    )
    with TestClient(app, base_url="http://127.0.0.1:8123") as client:
        client.get(f"/enter/{TOKEN}")
        yield client, tmp_path, opened
    if app.state.desk is not None:
        app.state.desk.close()


def post(client, **form):
    given = {"name": "Mine", "kind": "unitary", "units": "metric", "examples": "yes"} | form
    return client.post("/new", data=given, headers={"origin": "http://127.0.0.1:8123"})


def test_everything_leads_to_the_new_build_until_there_is_one(begun) -> None:
    client, _, _ = begun
    for path in ("/", "/car", "/api/verdicts", "/choices/engine/x", "/nowhere"):
        answer = client.get(path)
        assert answer.url.path == "/new", path
    assert "A new build" in answer.text


def test_a_slip_is_told_and_nothing_is_written(begun) -> None:
    client, folder, _ = begun
    answer = post(client, name="", wheelbase="98 kg", budget="<b>much</b>")
    assert answer.status_code == 422
    assert "98 kg" in answer.text
    assert "<b>much" not in answer.text
    assert not (folder / "mine").exists()


def test_it_is_written_and_its_car_is_shown(begun) -> None:
    client, folder, _ = begun
    answer = post(client, wheelbase="98 in", budget="9000 EUR")
    assert answer.url.path == "/car"
    assert "98 in" in answer.text
    text = (folder / "mine" / "build.yaml").read_text("utf-8")
    assert "wheelbase: 98 in" in text


def test_another_one_goes_beside_it_and_never_over_something(begun) -> None:
    client, folder, opened = begun
    post(client)
    (folder / "there").mkdir()
    (folder / "there" / "a note").write_text("mine", encoding="utf-8")
    for name in ("mine", "there", "../out", "a/b", ".hidden", "..", "x."):
        assert post(client, folder=name).status_code == 422, name
    assert post(client, folder="second").status_code == 200
    assert opened == [(folder / "second").resolve()]
    assert holds_build(folder / "second")
    assert not (folder.parent / "out").exists()
