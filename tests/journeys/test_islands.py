"""What moves on the pages, in a real browser: the engine in its bay, and plots to point at."""

from __future__ import annotations

from collections.abc import Iterator

import pytest
from playwright.sync_api import Browser, Page, expect
from tests.journeys.browser import open_browser
from tests.workbench.benches import TOKEN, Bench, bench
from tests.workbench.test_fit import PLACED

WAIT = 30_000


@pytest.fixture(scope="module")
def browser() -> Iterator[Browser]:
    with open_browser() as one:
        yield one


@pytest.fixture(scope="module")
def opened(tmp_path_factory) -> Iterator[Bench]:
    with bench(tmp_path_factory.mktemp("build"), PLACED, samples=40) as found:
        yield found


def enter(browser: Browser, opened: Bench, path: str, **context: object) -> tuple[Page, list[str]]:
    page = browser.new_context(**context).new_page()  # type: ignore[arg-type]  # a browser's words
    faults: list[str] = []
    page.on("pageerror", lambda fault: faults.append(str(fault)))
    page.on("console", lambda said: faults.append(said.text) if "Refused" in said.text else None)
    page.set_default_timeout(WAIT)
    expect.set_options(timeout=WAIT)
    page.goto(f"{opened.origin}/enter/{TOKEN}")
    page.goto(opened.origin + path)
    return page, faults


def test_move_the_engine_save_it_and_undo(browser: Browser, opened: Bench) -> None:
    page, faults = enter(browser, opened, "/fit")
    view = page.locator(".stage canvas")
    expect(view).to_be_visible()
    bonnet = page.locator("[data-row=bonnet]")
    before = bonnet.inner_text()
    view.focus()
    for _ in range(6):
        page.keyboard.press("Shift+PageUp")
    expect(page.locator("#h-z")).to_have_value("190")
    expect(bonnet).to_contain_text("fails")
    expect(bonnet).to_contain_text("touches")
    expect(page.locator("[data-tried]")).to_contain_text("Tried, not saved")
    assert opened.text == PLACED
    page.get_by_role("button", name="Save this place").click()
    expect(page.locator("#said")).to_contain_text("Saved")
    assert "crank_height: 190 ± 3 mm" in opened.text
    expect(view).to_be_visible()
    page.get_by_role("button", name="Undo").click()
    expect(page.locator("#h-z")).to_have_value("130")
    assert opened.text == PLACED
    expect(bonnet).to_contain_text("clear")
    assert bonnet.inner_text().split()[0] == before.split()[0]
    with page.expect_response("**/fit/best"):
        page.get_by_role("button", name="Take the best place").click()
    expect(page.locator("#h-z")).not_to_have_value("130")
    assert opened.text != PLACED
    page.get_by_role("button", name="Undo").click()
    expect(page.locator("#h-z")).to_have_value("130")
    assert opened.text == PLACED
    assert faults == []
    page.context.close()


def test_sliders_numbers_and_the_way_back(browser: Browser, opened: Bench) -> None:
    page, faults = enter(browser, opened, "/fit", viewport={"width": 390, "height": 844})
    expect(page.locator(".stage canvas")).to_be_visible()
    slide = page.get_by_role("slider", name="forward, mm")
    slide.focus()
    page.keyboard.press("ArrowRight")
    expect(page.locator("#h-x")).to_have_value("246")
    page.locator("#h-x").fill("300")
    expect(page.locator("[data-tried]")).to_contain_text("Tried, not saved")
    expect(slide).to_have_value("300")
    page.get_by_role("button", name="Back to the saved place").click()
    expect(page.locator("#h-x")).to_have_value("245")
    expect(page.locator("[data-tried]")).to_be_empty()
    for view in ("front", "left", "top", "corner"):
        page.get_by_role("button", name=view, exact=True).click()
    assert page.evaluate("document.documentElement.scrollWidth") <= 390
    assert faults == []
    page.context.close()


NO_WEBGL = """
const own = HTMLCanvasElement.prototype.getContext;
HTMLCanvasElement.prototype.getContext = function (kind, ...rest) {
  return kind.startsWith("webgl") ? null : own.call(this, kind, ...rest);
};
"""


def test_without_webgl_the_table_and_the_sliders_still_work(
    browser: Browser, opened: Bench
) -> None:
    page, faults = enter(browser, opened, "/", viewport={"width": 1280, "height": 900})
    page.add_init_script(NO_WEBGL)
    page.goto(f"{opened.origin}/fit")
    expect(page.locator(".without")).to_contain_text("no WebGL")
    page.locator("#h-z").fill("190")
    expect(page.locator("[data-row=bonnet]")).to_contain_text("fails")
    assert faults == []
    page.context.close()


def test_without_script_a_place_is_saved_too(browser: Browser, opened: Bench) -> None:
    page, _ = enter(browser, opened, "/fit", java_script_enabled=False)
    expect(page.locator(".without")).to_be_visible()
    page.locator("#h-x").fill("250")
    page.get_by_role("button", name="Save this place").click()
    assert "nose: 250 ± 4 mm" in opened.text
    page.get_by_role("button", name="Undo").click()
    assert opened.text == PLACED
    page.context.close()


def test_plots_are_read_off_by_keys_and_print_as_drawn(browser: Browser, opened: Bench) -> None:
    page, faults = enter(browser, opened, "/power", color_scheme="dark")
    figure = page.locator("figure:has([data-plot])").first
    plot = figure.get_by_role("slider")
    expect(plot).to_be_visible()
    expect(figure.locator(".drawn")).to_be_hidden()
    plot.focus()
    page.keyboard.press("End")
    expect(figure.locator(".readout")).to_contain_text("6\u202f050 rpm")
    last = plot.get_attribute("aria-valuetext")
    page.keyboard.press("PageDown")
    assert plot.get_attribute("aria-valuetext") != last
    assert "N·m" in (last or "")
    page.set_viewport_size({"width": 390, "height": 844})
    expect(plot).to_be_visible()
    page.wait_for_function("document.documentElement.scrollWidth <= 390")
    page.emulate_media(media="print")
    expect(figure.locator(".drawn")).to_be_visible()
    expect(figure.locator(".live")).to_be_hidden()
    assert faults == []
    page.context.close()
