"""The pages, by the questions a person has: one module a page, one line each here.

A page is a `Page`: an address, a title, the question it answers, a template, and what fills it.
"""

from __future__ import annotations

from drybuild.workbench.pages import (
    advice,
    book,
    brief,
    car,
    choices,
    compare,
    fit,
    power,
    running_gear,
    shell,
    steps,
    verdicts,
    work,
)
from drybuild.workbench.pages.page import Page

PAGES: tuple[Page, ...] = (
    brief.PAGE,
    car.PAGE,
    choices.PAGE,
    compare.PAGE,
    fit.PAGE,
    running_gear.PAGE,
    power.PAGE,
    shell.PAGE,
    work.PAGE,
    steps.PAGE,
    verdicts.PAGE,
    advice.PAGE,
    book.PAGE,
)
"""In the order of the navigation."""
