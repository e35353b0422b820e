"""A new build from nothing, and one beside an open build."""

from __future__ import annotations

import pytest
from tests.workbench.benches import serving

from drybuild.workbench.beginning import holds_build


@pytest.fixture
def begun(tmp_path):
    opened = []

    def opens(at):
        opened.append(at)
        return "/"

    with serving(tmp_path / "mine", None, opens) as (_, client, port):
        yield client, tmp_path, opened, {"origin": f"http://127.0.0.1:{port}"}


def post(begun, **form):
    given = {"name": "Mine", "kind": "unitary", "units": "metric", "examples": "yes"} | form
    return begun[0].post("/new", data=given, headers=begun[3])


def test_everything_leads_to_the_new_build_until_there_is_one(begun) -> None:
    client = begun[0]
    for path in ("/", "/car", "/api/verdicts", "/choices/engine/x", "/nowhere"):
        answer = client.get(path)
        assert answer.url.path == "/new", path
    assert "A new build" in answer.text


def test_a_slip_is_told_and_nothing_is_written(begun) -> None:
    _, folder, _, _ = begun
    answer = post(begun, name="", wheelbase="98 kg", budget="<b>much</b>")
    assert answer.status_code == 422
    assert "98 kg" in answer.text
    assert "<b>much" not in answer.text
    assert not (folder / "mine").exists()


def test_it_is_written_and_its_car_is_shown(begun) -> None:
    _, folder, _, _ = begun
    answer = post(begun, wheelbase="98 in", budget="9000 EUR")
    assert answer.url.path == "/car"
    assert "98 in" in answer.text
    text = (folder / "mine" / "build.yaml").read_text("utf-8")
    assert "wheelbase: 98 in" in text


def test_another_one_goes_beside_it_and_never_over_something(begun) -> None:
    _, folder, opened, _ = begun
    post(begun)
    (folder / "there").mkdir()
    (folder / "there" / "a note").write_text("mine", encoding="utf-8")
    for name in ("mine", "there", "../out", "a/b", ".hidden", "..", "x."):
        assert post(begun, folder=name).status_code == 422, name
    assert post(begun, folder="second").status_code == 200
    assert opened == [(folder / "second").resolve()]
    assert holds_build(folder / "second")
    assert not (folder.parent / "out").exists()
