"""The book as people read it: in a browser, wide and on a phone, by day and by night."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Browser, Page
from tests.book.books import example
from tests.journeys.browser import open_browser

from drybuild.book.html import write_html

WIDTHS = (1280, 390)
SCHEMES = ("light", "dark")
CONTRAST = """
() => {
  const parse = text => (text.match(/[\\d.]+/g) || []).map(Number);
  const share = value => {
    const v = value / 255;
    return v <= 0.03928 ? v / 12.92 : ((v + 0.055) / 1.055) ** 2.4;
  };
  const light = ([r, g, b]) => 0.2126 * share(r) + 0.7152 * share(g) + 0.0722 * share(b);
  const ground = node => {
    for (let at = node; at; at = at.parentElement) {
      const colour = parse(getComputedStyle(at).backgroundColor);
      if (colour.length === 3 || colour[3] > 0) return colour;
    }
    return [255, 255, 255];
  };
  const poor = [];
  for (const node of document.querySelectorAll("p, td, th, li, h1, h2, h3, dt, dd, .state")) {
    if (!node.textContent.trim()) continue;
    const pair = [light(parse(getComputedStyle(node).color)), light(ground(node))];
    const ratio = (Math.max(...pair) + 0.05) / (Math.min(...pair) + 0.05);
    if (ratio < 4.5) poor.push(node.textContent.trim().slice(0, 40) + " " + ratio.toFixed(2));
  }
  return [...new Set(poor)].slice(0, 5);
}
"""
"""Contrast of words on their ground, WCAG 2.1, 1.4.3: at least 4.5 to 1."""


@pytest.fixture(scope="module")
def browser() -> Iterator[Browser]:
    with open_browser() as found:
        yield found


@pytest.fixture(scope="module", params=["estate", "sparse"])
def file(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> Path:
    target = tmp_path_factory.mktemp("book") / "book.html"
    write_html(example(request.param), target)
    return target


def opened(browser: Browser, file: Path, width: int, scheme: Any) -> tuple[Page, list[str]]:
    """Return the page and all that it said or asked for."""
    context = browser.new_context(viewport={"width": width, "height": 900}, color_scheme=scheme)
    page = context.new_page()
    heard: list[str] = []
    page.on("console", lambda message: heard.append(message.text))
    page.on("pageerror", lambda fault: heard.append(str(fault)))
    page.on(
        "request",
        lambda asked: None if asked.url.startswith(("file:", "data:")) else heard.append(asked.url),
    )
    page.goto(file.as_uri())
    return page, heard


@pytest.mark.parametrize("scheme", SCHEMES)
@pytest.mark.parametrize("width", WIDTHS)
def test_it_is_quiet_and_fits(browser: Browser, file: Path, width: int, scheme: str) -> None:
    page, heard = opened(browser, file, width, scheme)
    assert heard == []
    wide, seen = page.evaluate(
        "[document.documentElement.scrollWidth, document.documentElement.clientWidth]"
    )
    assert wide <= seen, "the page scrolls sideways"
    assert page.evaluate(CONTRAST) == []
    page.context.close()


def test_headings_go_down_one_at_a_time(browser: Browser, file: Path) -> None:
    page, _ = opened(browser, file, 1280, "light")
    levels = page.evaluate(
        "[...document.querySelectorAll('h1, h2, h3, h4')].map(one => Number(one.tagName[1]))"
    )
    assert levels[0] == 1
    assert levels.count(1) == 1
    assert all(after <= before + 1 for before, after in pairwise(levels))
    page.context.close()


def test_every_picture_and_table_has_words(browser: Browser, file: Path) -> None:
    page, _ = opened(browser, file, 1280, "light")
    pictures = page.evaluate(
        "[...document.querySelectorAll('svg')].map("
        "one => (one.closest('[role=img]')?.getAttribute('aria-label') || '').length)"
    )
    assert pictures
    assert min(pictures) > 3
    tables = page.evaluate(
        "[...document.querySelectorAll('.sheet')].map("
        "one => (one.getAttribute('aria-label') || '').length)"
    )
    assert min(tables) > 0
    page.context.close()


def test_the_contents_lead_to_the_chapters(browser: Browser, file: Path) -> None:
    page, _ = opened(browser, file, 390, "light")
    page.get_by_role("navigation").get_by_role("link", name="Brake sheet").click()
    heading = page.get_by_role("heading", name="Brake sheet", level=2)
    box = heading.bounding_box()
    assert box is not None
    assert -2.0 <= box["y"] <= 900.0
    page.context.close()


def test_wide_tables_scroll_within_themselves_by_keyboard(browser: Browser, file: Path) -> None:
    page, _ = opened(browser, file, 390, "light")
    inside = page.evaluate(
        "[...document.querySelectorAll('.sheet, .drawing')].filter("
        "one => one.scrollWidth > one.clientWidth + 1).every(one => one.tabIndex === 0)"
    )
    assert inside
    page.context.close()
