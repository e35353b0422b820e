"""The members of the frame on the page "shell": in the view and the list, changed in place."""

import re

import pytest
from tests.building import BARE, evaluate
from tests.workbench.benches import SMALL, Bench, bench

from drybuild.quantities.graph import Evaluation
from drybuild.workbench.entries import Reader
from drybuild.workbench.pages.members import chosen_member, members_of

FRAME = "car.structure.frame_model.sections"


@pytest.fixture(scope="module")
def opened(tmp_path_factory):
    with bench(tmp_path_factory.mktemp("build"), SMALL, samples=40) as found:
        found.desk.wait()
        yield found


def form(page: str, entry: str) -> str:
    """Return the form of an entry on a page."""
    return page.partition(f'id="e-{entry}"')[2].partition("</form>")[0]


def test_every_member_stands_in_the_view_and_in_the_list(opened: Bench) -> None:
    page = opened.client.get("/shell").text
    section = page[page.index('<section id="frame"') :].partition("</section>")[0]
    seen = re.findall(r'<a href="([^"]+)" class="member" tabindex="-1"', section)
    listed = re.findall(r'<a class="member" href="([^"]+)"', section)
    assert len(seen) > 20
    assert sorted(seen) == sorted(listed)
    assert "No member is chosen" in section
    assert "No member is chosen" in opened.client.get("/shell?member=wings").text


def test_the_section_of_a_member_is_changed_in_the_file_and_undone(opened: Bench) -> None:
    here = "/shell?member=front%20rail"
    page = opened.client.get(here).text
    gauge = form(page, "car-structure-frame-model-sections-front-rail-gauge")
    assert "1.4 mm of the template" in gauge  # tables/frame_section.csv
    address = re.search(r'name="address" value="([^"]+)"', gauge)[1].replace("&#34;", '"')
    page = opened.post("/set", address=address, value="2.0 ± 0.1 mm", was="", here=here).text
    assert "front rail: {gauge: 2.0 ± 0.1 mm}" in re.sub(r"\s+", " ", opened.text)
    assert "# keep this comment" in opened.text
    assert 'value="2.0 ± 0.1 mm"' in page  # while its strain is worked out anew the view stays
    assert 'class="member" tabindex="-1" aria-current="true"' in page
    answer = opened.post("/set", address=address, value="2 kg", was="2.0 ± 0.1 mm", here=here)
    assert answer.status_code == 422
    assert "kg" in answer.text.partition('class="wrong"')[2].partition("</p>")[0]
    opened.post("/undo", here=here)
    assert opened.text == SMALL


def entries(text: str, name: str) -> list[str]:
    """Return what can be changed of a member of a build."""
    evaluation: Evaluation = evaluate(text).evaluation
    picture, model = (evaluation.result(one).value for one in ("shell_picture", "shell_model"))
    reader = Reader(evaluation.build, evaluation, ())
    found = chosen_member(reader, members_of(picture), name, model.template)
    return [one.path.removeprefix("car.structure.") for one in found.entries]


def test_the_rails_of_a_ladder_frame_are_measured_once() -> None:
    ladder = BARE.replace("unitary", "ladder")
    found = entries(ladder, "rail middle")
    assert "frame.rail_height" in found
    assert "frame_model.sections.frame rail.wasted" in found
    assert "frame_model.sections.frame rail.height" not in found


def test_a_member_of_ones_own_can_take_another_section() -> None:
    text = """\
    car:
      body: {kind: unitary}
      structure: {frame_model: {members: {strut: {start: toe, end: foot}}}}
    """
    found = entries(text, "strut")
    assert found[0] == "frame_model.members.strut.section"
    assert "frame_model.sections.brace.width" in found
