"""What a person does on the workbench, in a real browser."""

from __future__ import annotations

import re
from collections.abc import Iterator

import pytest
from playwright.sync_api import Browser, Page, expect
from tests.journeys.browser import open_browser
from tests.workbench.benches import SMALL, TOKEN, Bench, bench

SETTLED = re.compile("settled")


@pytest.fixture(scope="module")
def browser() -> Iterator[Browser]:
    with open_browser() as one:
        yield one


@pytest.fixture
def opened(tmp_path) -> Iterator[Bench]:
    with bench(tmp_path) as found:
        yield found


@pytest.fixture
def page(browser, opened) -> Iterator[Page]:
    context = browser.new_context(viewport={"width": 1280, "height": 900})
    one = context.new_page()
    faults: list[str] = []
    one.on("pageerror", lambda fault: faults.append(str(fault)))
    one.on("console", lambda said: faults.append(said.text) if "Refused" in said.text else None)
    one.goto(f"{opened.origin}/enter/{TOKEN}")
    one.set_default_timeout(20_000)
    expect.set_options(timeout=20_000)
    yield one
    context.close()
    assert faults == []


def test_pick_see_what_is_ruled_out_and_undo(page: Page, opened: Bench) -> None:
    page.goto(f"{opened.origin}/choices")
    gearbox = page.locator("#s-gearbox")
    expect(gearbox.get_by_role("row").filter(has_text="five-speed").first).to_contain_text("✗ out")
    expect(gearbox).to_contain_text("engine: original")
    page.get_by_role("button", name="Take larger for engine", exact=True).click()
    expect(page.locator("#s-engine tr.picked:not(.told)")).to_contain_text("larger")
    expect(gearbox).not_to_contain_text("engine: original")
    assert "engine: larger" in opened.text
    expect(page.locator("#strip")).to_contain_text(SETTLED)
    page.get_by_role("button", name="Undo", exact=True).click()
    expect(page.locator("#s-engine tr.picked:not(.told)")).to_contain_text("original")
    assert opened.text == SMALL


def test_a_measurement_settles_an_open_verdict(page: Page, opened: Bench) -> None:
    answer = opened.post(
        "/set", address="brief.must[2]", was="", here="/", value="kerb_mass <= 1000 kg"
    )
    assert answer.status_code == 200
    page.goto(f"{opened.origin}/verdicts")
    row = page.get_by_role("row").filter(has_text="1 000 kg")
    before = row.inner_text()
    page.goto(f"{opened.origin}/car")
    for name, mass in (("front-axle", "420 ± 2 kg"), ("rear-axle", "370 ± 2 kg")):
        form = page.locator(f"#e-car-mass-{name}")
        if not form.is_visible():
            page.locator("#g-mass details.rest > summary").first.click()
        form.locator("input[name=value]").fill(mass)
        form.get_by_role("button", name="Save").click()
        expect(page.locator("#said")).to_contain_text("Saved")
    expect(page.locator("#strip")).to_contain_text(SETTLED)
    page.goto(f"{opened.origin}/verdicts")
    expect(page.get_by_role("row").filter(has_text="1 000 kg")).to_contain_text("good")
    assert row.inner_text() != before
    assert "keep this comment" in opened.text


def test_a_slip_is_told_at_its_field_and_nothing_is_saved(page: Page, opened: Bench) -> None:
    page.goto(f"{opened.origin}/car")
    form = page.locator("#e-car-body-wheelbase")
    form.locator("input[name=value]").fill("2480 kg")
    form.locator("input[name=value]").press("Enter")
    expect(form.locator(".wrong")).to_contain_text("kg")
    expect(form.locator("input[name=value]")).to_have_value("2480 kg")
    assert opened.text == SMALL
    wall = page.locator("#a-car-bay-lofts")
    page.goto(f"{opened.origin}/car#a-car-bay-lofts")
    wall.get_by_label("name").first.fill("tower")
    for number, x in ((1, "-430 mm"), (2, "8 kg")):
        wall.locator(f"[name='part.stations.{number}.name']").fill(f"station {number}")
        wall.locator(f"[name='part.stations.{number}.x']").fill(x)
    page.keyboard.press("Enter")
    slip = wall.locator("[aria-invalid=true]")
    expect(slip).to_have_attribute("name", "part.stations.2.x")
    expect(slip).to_be_focused()
    expect(wall.locator(".wrong")).to_contain_text("kg")
    assert "tower" not in opened.text


def test_an_outside_change_comes_into_sight_and_typing_is_kept(page: Page, opened: Bench) -> None:
    page.goto(f"{opened.origin}/car")
    field = page.locator("#e-car-body-wheelbase input[name=value]")
    field.fill("2490 mm")
    changed = SMALL.replace("2480 ± 3 mm", "2500 ± 1 mm")
    (opened.folder / "build.yaml").write_text(changed, encoding="utf-8")
    expect(page.locator("#notes")).to_contain_text("Changed outside")
    expect(field).to_have_value("2490 mm")


def test_two_windows_choose_which_change_stands(page: Page, opened: Bench) -> None:
    page.goto(f"{opened.origin}/choices")
    other = page.context.new_page()
    other.route("**/state*", lambda route: route.abort())  # a window that hears of nothing
    other.goto(f"{opened.origin}/choices")
    page.get_by_role("button", name="Take larger for engine", exact=True).click()
    expect(page.locator("#s-engine tr.picked:not(.told)")).to_contain_text("larger")
    other.get_by_role("button", name="Leave engine open", exact=True).click()
    expect(other.get_by_role("heading", name="Two changes of one thing")).to_be_visible()
    assert "engine: larger" in opened.text
    other.get_by_role("button", name="Save mine in its place", exact=True).click()
    expect(other.locator("#strip")).to_be_visible()
    page.wait_for_timeout(500)
    assert 'engine: "?"' in opened.text or "engine: ?" in opened.text


def test_everything_works_without_script(browser, opened: Bench) -> None:
    context = browser.new_context(java_script_enabled=False)
    page = context.new_page()
    page.goto(f"{opened.origin}/enter/{TOKEN}")
    page.goto(f"{opened.origin}/choices")
    page.get_by_role("button", name="Take larger for engine", exact=True).click()
    assert page.locator("#s-engine tr.picked:not(.told)").inner_text().startswith("larger")
    page.get_by_role("link", name="The car", exact=True).click()
    page.locator("#e-car-body-wheelbase input[name=value]").fill("98 in")
    page.locator("#e-car-body-wheelbase button").click()
    assert "wheelbase: 98 in" in opened.text
    context.close()


def test_the_keyboard_reaches_and_keeps_its_place(page: Page, opened: Bench) -> None:
    page.goto(f"{opened.origin}/choices")
    page.keyboard.press("Tab")
    expect(page.get_by_role("link", name="Skip to the page")).to_be_focused()
    page.get_by_role("button", name="Take larger for engine", exact=True).focus()
    page.keyboard.press("Enter")
    expect(page.locator("#s-engine tr.picked:not(.told)")).to_contain_text("larger")
    inside = page.evaluate("document.activeElement.closest('#s-engine') !== null")
    assert inside
