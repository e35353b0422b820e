"""Every page is there, says what it should, and its links lead somewhere."""

import re

import pytest
from tests.workbench.benches import bench

from drybuild.workbench.pages import PAGES


@pytest.fixture(scope="module")
def shown(tmp_path_factory):
    with bench(tmp_path_factory.mktemp("build")) as found:
        found.desk.wait()
        found.desk.choosing.wait(found.desk.session, 60.0)
        yield found


@pytest.mark.parametrize("page", PAGES, ids=lambda page: page.title)
def test_every_page_answers_with_one_heading_and_its_question(shown, page):
    answer = shown.client.get(page.path)
    assert answer.status_code == 200
    assert answer.text.count("<h1>") == 1
    assert page.asks in answer.text
    assert len(answer.content) < 1_000_000


@pytest.mark.parametrize("page", PAGES, ids=lambda page: page.title)
def test_ids_stand_once_and_fields_have_labels(shown, page):
    text = shown.client.get(page.path).text
    ids = re.findall(r'\sid="([^"]+)"', text)
    assert len(ids) == len(set(ids))
    labelled = set(re.findall(r'<label for="([^"]+)"', text))
    within = re.findall(r"<label\b[^>]*>(?:(?!</label>).)*", text, re.DOTALL)
    labelled |= {one for label in within for one in re.findall(r'\sid="([^"]+)"', label)}
    for field in re.findall(
        r"<(?:input|select)\b(?![^>]*type=\"(?:hidden|radio|checkbox)\")[^>]*>", text
    ):
        assert re.search(r'id="([^"]+)"', field)[1] in labelled


def test_links_lead_to_pages(shown):
    seen: set[str] = set()
    for page in PAGES:
        text = shown.client.get(page.path).text
        seen |= set(re.findall(r'href="(/[^"#?]*)', text))
    figures = sorted(path for path in seen if path.startswith("/quantity/"))
    seen -= {"/book/pdf", "/book/html", *figures}
    for path in (*sorted(seen), *figures[::40]):
        assert shown.client.get(path.replace("&#39;", "'")).status_code == 200, path


def test_the_arches_are_drawn_beside_their_readings(shown):
    page = shown.client.get("/car").text
    drawn = page[page.index('id="where-arches"') :].partition("</figure>")[0]
    links = set(re.findall(r'href="#([^"]+)"', drawn))
    assert "e-car-arches-front-inner-clearance" in links
    assert "a-car-arches-front-stations" in links
    for one in links:
        assert f'id="{one}"' in page


def test_the_work_is_told_week_by_week(shown):
    shown.desk.wait()
    page = shown.client.get("/work").text
    weeks = page[page.index("Week by week") :].partition("<h2>")[0]
    assert re.search(r'<th scope="row">\d+( \w+)? to \d+ \w+</th>', weeks)
    assert 'class="wait cures">cures</span> paint' in weeks
    assert weeks.count("<details") == weeks.count("<summary>") > 1


def test_a_verdict_opens_its_derivation(shown):
    told = shown.client.get("/api/verdicts").json()["verdicts"]
    must = next(one for one in told if one["id"].startswith("must."))
    text = shown.client.get(f"/check/{must['id']}").text
    assert "How it was found" in text
    assert "Mass" in text


def test_choices_say_what_is_out_and_why(shown):
    text = shown.client.get("/choices").text
    assert "complete build" in text
    row = text[text.index(">five-speed<") :]
    assert "✗ out" in row[:400]
    assert "five-speed" in re.search(r'class="told out"><td[^>]*>([^<]*)', row)[1]


def test_the_book_is_sent_in_both_forms(shown):
    pdf = shown.client.get("/book/pdf")
    assert pdf.content.startswith(b"%PDF")
    assert "attachment" in pdf.headers["content-disposition"]
    assert "Ferrin 1500" in shown.client.get("/book/html").text


def test_next_steps_come_after_the_page(tmp_path):
    with bench(tmp_path) as found:
        found.desk.wait()
        page = found.client.get("/next").text
        assert 'data-draw href="/next?drawn=all"' in page
        drawn = found.client.get("/next?drawn=all").text
        assert '<span class="act">' in drawn
        assert "data-draw" not in drawn
        assert '<span class="act">' in found.client.get("/next").text  # known by now


def test_us_units_are_one_switch_away(tmp_path):
    with bench(tmp_path) as found:
        found.post("/set", address="units", value="us", was="", here="/")
        assert " lb " in found.client.get("/").text
        assert " in (handbook) counts" in found.client.get("/car").text


def test_an_empty_field_shows_a_likely_value_of_its_own(shown):
    text = shown.client.get("/car").text
    height = text[text.index('id="e-car-body-height-v"') :].partition(">")[0]
    assert re.search(r'placeholder="1\.\d+ m"', height)
    assert " - (handbook)" not in text


def test_nothing_to_choose_between_is_said(tmp_path):
    with bench(tmp_path, "build: Ferrin\ncar: {body: {kind: unitary}}\n") as found:
        assert "nothing to choose between yet" in found.client.get("/choices").text
        text = found.client.get("/compare").text
        assert "Add one" in text
        assert "Put it beside" not in text


def test_the_interface_tells_itself_and_answers(shown):
    document = shown.client.get("/api/openapi.json").json()
    assert document["openapi"].startswith("3.1")
    for path, acts in document["paths"].items():
        if "get" in acts:
            assert shown.client.get(path).status_code == 200
    found = shown.client.get("/api/quantities").json()["quantities"]["kerb_mass"]
    assert found["unit"] == "kg"
    options = shown.client.get("/api/options").json()
    assert options["systems"]["gearbox"]["five-speed"]["possible"] is False


@pytest.mark.parametrize(
    "body", [b"", b"{", b"[]", b'{"system": 1}', b'{"system": "engine"}', b"\xff", b"null"]
)
def test_the_interface_refuses_what_it_cannot_read(shown, body):
    answer = shown.client.post("/api/pick", content=body, headers={"origin": shown.origin})
    assert answer.status_code == 400
    assert answer.json()["saved"] is False
