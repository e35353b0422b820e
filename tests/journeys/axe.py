"""What axe-core, a library of accessibility rules, finds on a page as it stands.

The rules are those for WCAG 2.2 AA, and the library's own best practice.
"""

from __future__ import annotations

from pathlib import Path

import pytest
from playwright.sync_api import Page

LIBRARY = Path(__file__).resolve().parents[2] / "islands/node_modules/axe-core/axe.min.js"
RULES = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"]
OF_COLOUR = ["color-contrast", "link-in-text-block"]
"""The only rules that a change of colours can break; the others need no second look."""
FEW = """() => {
  document.querySelectorAll("details").forEach(one => { one.open = true; });
  const alike = ["tbody tr:nth-child(n+5)", "details .entry:nth-of-type(n+4)",
    "details.adding .columns > :nth-child(n+4)", ".about > .weighs ~ .weighs",
    "option:nth-child(n+3)", ".jump li:nth-child(n+5)", "[role=img] svg *",
    ".plan svg > :not(a)", ".plan a:nth-of-type(n+7)", "section .chapter table ~ table",
    ".chapter .sheet:nth-of-type(n+9)", "details .rest:nth-of-type(n+4)"];
  document.querySelectorAll(alike.join()).forEach(one => one.remove());
}"""
"""Opens every fold, and keeps a few of what comes in dozens from the same lines of a template."""
RUN = """rules => axe.run(document, {runOnly: rules}).then(done => done.violations.map(
    one => `${one.id}: ${one.nodes[0].html.slice(0, 160)} ${one.nodes[0].failureSummary}`))"""


def found_by_axe(page: Page) -> list[str]:
    """Return what axe finds by day and by night, with every fold of the page open."""
    if not LIBRARY.exists():
        pytest.skip(f"no axe-core at {LIBRARY}: the tools of the islands are not installed")
    page.evaluate(FEW)
    if not page.evaluate("'axe' in window"):
        page.evaluate(LIBRARY.read_text("utf-8"))
    found: list[str] = []
    for scheme in ("light", "dark"):
        page.emulate_media(color_scheme=scheme)
        rules = RULES if scheme == "light" else OF_COLOUR
        found += [f"{scheme}: {one}" for one in page.evaluate(RUN, rules)]
    page.emulate_media(color_scheme="light")
    return found
