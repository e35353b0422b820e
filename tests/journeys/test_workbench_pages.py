"""Begin a build, survey the body, compare, print: in a real browser."""

from __future__ import annotations

import io
import re
from collections.abc import Iterator

import pytest
from playwright.sync_api import Browser, BrowserContext, Page, expect
from pypdf import PdfReader
from tests.journeys.axe import found_by_axe
from tests.journeys.browser import open_browser
from tests.workbench.benches import TOKEN, Bench, bench, serving

SETTLED = re.compile("settled")
ON_PAPER = """() => { const look = getComputedStyle(document.body);
  return [look.color, look.backgroundColor, getComputedStyle(document.documentElement).colorScheme];
}"""
BLACK_ON_WHITE = ["rgb(0, 0, 0)", "rgb(255, 255, 255)", "light"]
"""Whatever scheme the screen has."""


@pytest.fixture(scope="module")
def browser() -> Iterator[Browser]:
    with open_browser() as one:
        yield one


@pytest.fixture(scope="module")
def shown(tmp_path_factory) -> Iterator[Bench]:
    with bench(tmp_path_factory.mktemp("build")) as found:
        yield found


def entered(browser: Browser, port: int, **look) -> tuple[BrowserContext, Page]:
    context = browser.new_context(**{"viewport": {"width": 1280, "height": 900}} | look)
    page = context.new_page()
    page.set_default_timeout(60_000)
    expect.set_options(timeout=60_000)
    page.goto(f"http://127.0.0.1:{port}/enter/{TOKEN}")
    return context, page


@pytest.mark.parametrize("script", [True, False])
def test_a_build_begins_from_nothing(browser, tmp_path, script) -> None:
    with serving(tmp_path / "mine", None) as (_, _, port):
        context, page = entered(browser, port, java_script_enabled=script)
        expect(page.get_by_role("heading", name="A new build", exact=True)).to_be_visible()
        page.get_by_label("What you call this build").fill("My saloon")
        page.locator("#n-wheelbase").fill("98 kg")
        page.get_by_role("button", name="Begin the build", exact=True).click()
        expect(page.locator("#w-wheelbase")).to_contain_text("kg")
        assert not (tmp_path / "mine").exists()
        page.locator("#n-wheelbase").fill("98 in")
        page.get_by_role("button", name="Begin the build", exact=True).click()
        expect(page.get_by_role("heading", name="The car", exact=True)).to_be_visible()
        expect(page.locator("#e-car-body-wheelbase-v")).to_have_value("98 in")
        expect(page.locator("#e-car-body-front-track")).to_contain_text("handbook")
        assert "wheelbase: 98 in" in (tmp_path / "mine" / "build.yaml").read_text("utf-8")
        context.close()


def test_a_finding_moves_cost_and_dates(browser, tmp_path) -> None:
    with bench(tmp_path, samples=1500) as opened:
        context, page = entered(browser, opened.port)
        page.goto(f"{opened.origin}/shell")
        expect(page.locator("#strip")).to_contain_text(SETTLED)
        page.locator("a.zone[aria-label^='outer sill left']").focus()
        page.keyboard.press("Enter")
        expect(page.get_by_role("heading", name="outer sill left", exact=True)).to_be_visible()
        page.get_by_label("to be replaced").check()
        page.get_by_label("How it was judged").select_option("probed")
        page.get_by_role("button", name="Save the finding", exact=True).click()
        expect(page.locator("#finding")).to_contain_text("The last change moved")
        moves = page.locator("#finding .moves")
        expect(moves).to_contain_text("Hours of rust repair")
        expect(moves).to_contain_text("Cost of the whole build")
        expect(moves).to_contain_text("Bending stiffness in each state")
        expect(
            page.locator("a.zone[aria-label^='outer sill left: to be replaced, probed']")
        ).to_have_count(1)
        assert "outer sill left: {found: replace, judged: probed}" in opened.text
        a_member_is_turned_to_chosen_and_changed(page, opened)
        context.close()


def a_member_is_turned_to_chosen_and_changed(page: Page, opened: Bench) -> None:
    view = page.locator("[data-turns]")
    line = view.locator("a.member path[data-at]").first
    before = line.get_attribute("d")
    view.focus()
    page.keyboard.press("ArrowLeft")
    page.wait_for_function(
        "([one, was]) => one.getAttribute('d') !== was", arg=[line.element_handle(), before]
    )
    view.locator("a.member[aria-label^='front rail:']").dispatch_event("click")
    expect(page.locator("#member h3")).to_have_text("front rail")
    page.locator(".members").get_by_role("link", name="rear rail", exact=True).focus()
    page.keyboard.press("Enter")
    expect(page.locator("#member h3")).to_have_text("rear rail")
    assert line.get_attribute("d") != before  # it stays as it was turned
    page.locator("#member").get_by_label("Gauge").first.fill("2 mm")
    with page.expect_response("**/set"):
        page.keyboard.press("Enter")
    assert "rear rail: {gauge: 2 mm}" in opened.text
    expect(view.locator("a[aria-current]")).to_have_attribute("aria-label", re.compile("rear rail"))


def test_options_are_compared_and_one_is_taken(browser, tmp_path) -> None:
    with bench(tmp_path) as opened:
        context, page = entered(browser, opened.port)
        page.goto(f"{opened.origin}/choices")
        section = page.locator("#s-engine")
        section.get_by_label("larger", exact=True).check()
        section.get_by_role("button", name="Compare engine", exact=True).click()
        table = page.locator("table.compared")
        expect(table.get_by_role("columnheader")).to_have_count(2)
        expect(table.get_by_role("row").filter(has_text="Mass, fuelled")).to_contain_text("kg")
        expect(table).to_contain_text("80 kW at 5500 rpm")
        page.get_by_role("button", name="Take larger for engine", exact=True).click()
        expect(table.locator("th.is-picked")).to_contain_text("larger")
        assert "engine: larger" in opened.text
        page.locator("#try-gearbox").select_option("five-speed")
        page.get_by_role("button", name="Put it beside the build as picked", exact=True).click()
        expect(table).to_contain_text("as tried")
        context.close()


def test_pages_and_book_are_printed(browser, shown) -> None:
    context, page = entered(browser, shown.port, color_scheme="dark")
    for path in ("/car", "/shell", "/verdicts", "/work"):
        page.goto(shown.origin + path)
        page.emulate_media(media="print")
        expect(page.locator(".top")).to_be_hidden()
        expect(page.locator("#drawer")).to_be_hidden()
        assert page.evaluate(ON_PAPER) == BLACK_ON_WHITE
        pdf = PdfReader(io.BytesIO(page.pdf(format="A4")))
        words = "".join(one.extract_text() for one in pdf.pages)
        assert page.locator("h1").inner_text() in words
        page.emulate_media(media="screen")
    context.close()


def test_the_book_is_made_stopped_made_again_taken_and_printed(browser, tmp_path) -> None:
    with bench(tmp_path) as opened:
        context, page = entered(browser, opened.port)
        page.goto(f"{opened.origin}/book")
        expect(page.locator("#strip")).to_contain_text(SETTLED)
        page.get_by_role("button", name="Make the book", exact=True).click()
        task = page.locator("form[data-task=book]")
        expect(task.locator("progress")).to_have_count(1)
        task.get_by_role("button", name="Stop").click()
        expect(task).to_contain_text("stopped")
        task.get_by_role("button", name="Go on").click()
        expect(page.locator("#book-made")).to_contain_text("is made")
        with page.expect_download() as taken:
            page.get_by_role("link", name="Take the book as PDF", exact=True).click()
        assert len(PdfReader(taken.value.path()).pages) > 20
        with page.expect_download() as taken:
            page.get_by_role("link", name="Take the book as one HTML file", exact=True).click()
        taken.value.save_as(tmp_path / "book.html")
        page.goto((tmp_path / "book.html").as_uri())
        expect(page.locator("h1").first).to_contain_text("Ferrin 1500")
        assert found_by_axe(page) == []
        page.emulate_media(media="print", color_scheme="dark")
        assert page.evaluate(ON_PAPER) == BLACK_ON_WHITE
        printed = PdfReader(io.BytesIO(page.pdf(format="A4")))
        assert len(printed.pages) > 20
        context.close()
