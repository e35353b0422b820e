"""Axe finds nothing and nothing is wider than the window: every page, in every state it can be in.

Each is looked at wide and on a phone, by day and by night, on one workbench and in one window.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page, ViewportSize, expect
from tests.exchange.test_reply import GOOD
from tests.journeys.axe import found_by_axe
from tests.journeys.browser import open_browser
from tests.workbench.benches import SMALL, TOKEN, Bench, bench

from drybuild.workbench.pages import PAGES

BUILD = SMALL + "jobs:\n  strip the shell: {hours: 8 / 12 / 20 h, cost: 20 / 40 / 90 EUR}\n"
BROKEN = BUILD.replace("2480 ± 3 mm", "2480 kg")
MORE = (
    "/compare?system=engine",
    "/new",
    "/choices/engine/larger",
    "/jobs/strip%20the%20shell",
    "/check/brakes.pedal-force",
    "/quantity/kerb_mass",
    "/check/no.such",
)
SEND = """([path, fields]) => {
  const form = document.createElement("form");
  form.method = "post";
  form.action = path;
  for (const [name, value] of Object.entries(fields)) {
    const one = document.createElement("input");
    [one.type, one.name, one.value] = ["hidden", name, value];
    form.append(one);
  }
  document.body.append(form);
  form.submit();
}"""
WIDTHS: dict[str, ViewportSize] = {
    "wide": {"width": 1280, "height": 844},
    "phone": {"width": 390, "height": 844},
}
WHEELBASE = {"address": "car.body.wheelbase", "here": "/car"}


@pytest.fixture(scope="module")
def browser() -> Iterator[Browser]:
    with open_browser() as one:
        yield one


@pytest.fixture
def opened(tmp_path: Path) -> Iterator[Bench]:
    with bench(tmp_path, BUILD) as found:
        yield found


def sent(page: Page, path: str, **fields: str) -> None:
    """Send a form as a browser without script does, and look at the page that answers."""
    with page.expect_navigation():
        page.evaluate(SEND, [path, fields])


def shown(address: str) -> Callable[[Page, Bench], None]:
    """Return what shows an address."""

    def show(page: Page, opened: Bench) -> None:
        page.goto(opened.origin + address)

    return show


def a_slip_at_its_field(page: Page, opened: Bench) -> None:
    page.goto(f"{opened.origin}/choices/engine/larger")
    form = page.locator("#e-options-engine-larger-mass")
    form.locator("input[name=value]").fill("150 mm")
    form.locator("input[name=value]").press("Enter")
    expect(form.locator(".wrong")).to_contain_text("mm")


def a_slip_without_script(page: Page, opened: Bench) -> None:
    sent(page, "/set", **WHEELBASE, was="2480 ± 3 mm", value="2480 kg")
    expect(page.get_by_role("heading", name="Not saved")).to_be_visible()


def two_changes_of_one_thing(page: Page, opened: Bench) -> None:
    sent(page, "/set", **WHEELBASE, was="1 mm", value="2490 mm")
    expect(page.get_by_role("heading", name="Two changes of one thing")).to_be_visible()


def picks_that_cannot_stand(page: Page, opened: Bench) -> None:
    sent(page, "/pick", system="gearbox", option="five-speed", was="?", here="/choices")
    expect(page.locator("#s-gearbox")).to_contain_text("cannot stand")
    expect(page.locator("#count[data-choices=yes]")).to_have_count(1)


def a_reply_under_review(page: Page, opened: Bench) -> None:
    sent(page, "/advice/read", pasted=GOOD)
    expect(page.locator("#review")).to_contain_text("Ada Example")
    expect(page.locator("#review .busy")).to_have_count(0)


def a_new_build_with_slips(page: Page, opened: Bench) -> None:
    sent(page, "/new", name="", wheelbase="98 kg", year="?x", budget="many", hours="-")
    expect(page.get_by_role("alert")).to_be_visible()


def a_new_build_begun(page: Page, opened: Bench) -> None:
    sent(page, "/new", name="mine", kind="ladder")
    expect(page.get_by_role("heading", name="The new build is written")).to_be_visible()


def a_build_file_with_a_problem(page: Page, opened: Bench) -> None:
    (opened.folder / "build.yaml").write_text(BROKEN, encoding="utf-8")
    page.goto(f"{opened.origin}/advice")
    expect(page.locator("#notes")).to_contain_text("1 problem in the build file")


def the_file_for_advice(page: Page, opened: Bench) -> None:
    file = opened.folder.parent / "for-advice.html"
    file.write_bytes(opened.client.get("/share").content)
    page.goto(file.as_uri())


STATES: dict[str, Callable[[Page, Bench], None]] = {
    **{address: shown(address) for address in (*(one.path for one in PAGES), *MORE)},
    "/shell": shown("/shell?zone=tunnel"),
    "a slip at its field": a_slip_at_its_field,
    "a slip without script": a_slip_without_script,
    "two changes of one thing": two_changes_of_one_thing,
    "picks that cannot stand": picks_that_cannot_stand,
    "a reply under review": a_reply_under_review,
    "a new build with slips": a_new_build_with_slips,
    "a new build begun": a_new_build_begun,
    "a build file with a problem": a_build_file_with_a_problem,
    "the file for advice": the_file_for_advice,
}
"""In an order in which each can follow the one before."""


def wider_than_the_window(page: Page) -> bool:
    drawn = "new Promise(done => requestAnimationFrame(() => requestAnimationFrame(done)))"
    page.evaluate(drawn)  # plots follow the window a frame later
    wide: bool = page.evaluate("document.documentElement.scrollWidth > innerWidth")
    return wide


def test_axe_finds_nothing_and_nothing_is_too_wide(browser: Browser, opened: Bench) -> None:
    page = browser.new_context(viewport=WIDTHS["wide"]).new_page()
    page.set_default_timeout(60_000)
    expect.set_options(timeout=60_000)
    page.goto(f"{opened.origin}/enter/{TOKEN}")
    found = []
    for state, show in STATES.items():
        show(page, opened)
        page.wait_for_selector("#strip[data-settled=yes], body.bare, nav#contents")
        page.wait_for_selector("a[data-draw]", state="detached")
        for width, size in WIDTHS.items():
            page.set_viewport_size(size)
            if wider_than_the_window(page):
                found.append(f"{state}, {width}: wider than the window")
            found += [f"{state}, {width}, {one}" for one in found_by_axe(page)]
        page.set_viewport_size(WIDTHS["wide"])
    page.context.close()
    assert found == []
