"""From the first page to a changed pick and a changed reading with the keyboard alone."""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page, expect
from tests.journeys.browser import open_browser
from tests.workbench.benches import SMALL, TOKEN, Bench, bench

MOST = 160
"""More presses than any way on these pages takes."""
SEEN = """() => {
  const one = document.activeElement, look = getComputedStyle(one);
  const box = one.getBoundingClientRect();
  const ringed = look.outlineStyle !== "none" && parseFloat(look.outlineWidth) >= 2;
  const seen = box.bottom > 0 && box.top < innerHeight && (ringed || one.closest("svg") !== null);
  const words = one.getAttribute("aria-label") ?? one.labels?.[0]?.textContent ?? one.textContent;
  return [one === document.body ? "" : words.replace(/\\s+/g, " ").trim(), seen];
}"""
"""What has the focus, in words, and whether it can be seen."""


@pytest.fixture
def opened(tmp_path: Path) -> Iterator[Bench]:
    with bench(tmp_path) as found:
        yield found


@pytest.fixture(scope="module")
def browser() -> Iterator[Browser]:
    with open_browser() as one:
        yield one


@pytest.fixture
def page(browser: Browser, opened: Bench) -> Iterator[Page]:
    context = browser.new_context(viewport={"width": 1280, "height": 900})
    one = context.new_page()
    one.set_default_timeout(30_000)
    expect.set_options(timeout=30_000)
    one.goto(f"{opened.origin}/enter/{TOKEN}")
    yield one
    context.close()


def focused(page: Page) -> str:
    words, seen = page.evaluate(SEEN)
    assert seen, f"where the focus is cannot be seen: {words}"
    return str(words)


def tab_to(page: Page, words: str, key: str = "Tab") -> None:
    """Go on with one key until what has the focus begins with some words."""
    for _ in range(MOST):
        page.keyboard.press(key)
        if re.match(words, focused(page)):
            return
    raise AssertionError(f"no way with {key} to {words}")


def test_a_pick_and_a_reading_are_changed_by_keyboard(page: Page, opened: Bench) -> None:
    page.keyboard.press("Tab")
    assert focused(page) == "Skip to the page"
    tab_to(page, "Choices")
    page.keyboard.press("Enter")
    expect(page.get_by_role("heading", name="Choices", exact=True)).to_be_visible()
    page.keyboard.press("Tab")
    page.keyboard.press("Enter")  # over the navigation, to the page
    expect(page.locator("#main")).to_be_focused()
    tab_to(page, "Take larger for engine")
    page.keyboard.press("Enter")
    expect(page.locator("#s-engine tr.picked:not(.told)")).to_contain_text("larger")
    assert focused(page) == "Leave engine open"  # the same row, which says something else now
    assert "engine: larger" in opened.text
    expect(page.locator("#strip")).to_contain_text(re.compile("settled"))
    assert focused(page) == "Leave engine open"
    tab_to(page, "↶ Undo", "Shift+Tab")
    page.keyboard.press("Enter")
    expect(page.locator("#s-engine tr.picked:not(.told)")).to_contain_text("original")
    assert focused(page) == "↶ Undo"  # with nothing left to undo it still holds the focus
    assert opened.text == SMALL
    page.keyboard.press("Enter")
    expect(page.locator("#said")).to_contain_text("nothing to do")
    tab_to(page, "The car")
    page.keyboard.press("Enter")
    expect(page.get_by_role("heading", name="The car", exact=True)).to_be_visible()
    tab_to(page, "wheelbase ?Distance")
    page.keyboard.press("Control+A")
    page.keyboard.type("98 in")
    page.keyboard.press("Enter")
    expect(page.locator("#said")).to_contain_text("Saved")
    assert focused(page).startswith("wheelbase")
    assert "wheelbase: 98 in" in opened.text


def test_escape_closes_what_was_opened(page: Page, opened: Bench) -> None:
    page.goto(f"{opened.origin}/car")
    tab_to(page, "Origin and note of wheelbase")
    page.keyboard.press("Enter")
    fold = page.locator("#e-car-body-wheelbase details.more")
    expect(fold).to_have_attribute("open", "")
    page.keyboard.press("Tab")
    page.keyboard.press("Tab")
    page.keyboard.type("by tape")
    page.keyboard.press("Escape")
    expect(fold).not_to_have_attribute("open", "")
    assert focused(page).startswith("Origin and note")
