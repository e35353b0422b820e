"""How forms are read and answered: shown again, refused with words, or put beside a clash."""

from __future__ import annotations

from collections.abc import Callable

import anyio.to_thread
from starlette.datastructures import FormData
from starlette.requests import Request
from starlette.responses import RedirectResponse, Response

from drybuild.errors import Problem
from drybuild.workbench.desk import Desk
from drybuild.workbench.pages import PAGES
from drybuild.workbench.rendering import page

SHOWN_AFTER = 303
CLASH, REFUSED = 409, 422


def answers(
    act: Callable[[Desk, FormData], Response], fields: int = 40
) -> Callable[[Request], object]:
    """Return what answers a form: read it, then act on a thread of its own."""

    async def answer(request: Request) -> Response:
        form = await request.form(max_files=0, max_fields=fields, max_part_size=100_000)
        return await anyio.to_thread.run_sync(act, request.app.state.desk, form)

    return answer


def text(form: FormData, name: str) -> str:
    """Return a field of a form as text, without blanks round it."""
    found = form.get(name, "")
    return found.strip() if isinstance(found, str) else ""


def back(form: FormData) -> Response:
    """Show the page again that the form came from."""
    return RedirectResponse(here(form), SHOWN_AFTER)


def here(form: FormData) -> str:
    """Return the page to show next: one of ours, whatever the form says."""
    wanted = text(form, "here")
    known = {one.path for one in PAGES}
    path = wanted.partition("#")[0].partition("?")[0]
    ours = path in known or path.startswith(("/choices/", "/check/", "/jobs/", "/quantity/"))
    return wanted if ours and "\\" not in wanted and "//" not in wanted else "/"


def clash(desk: Desk, form: FormData, now: str) -> Response:
    """Put what was typed beside what somebody else wrote meanwhile."""
    return told(desk, "clash.html.j2", form, CLASH, now=now)


def refused(desk: Desk, form: FormData, words: str, problems: tuple[Problem, ...] = ()) -> Response:
    """Say why nothing was saved, and let it be mended."""
    return told(desk, "refused.html.j2", form, REFUSED, words=words, problems=problems)


def told(desk: Desk, template: str, form: FormData, status: int, **content: object) -> Response:
    """Return a page about a form."""
    kept = {name: text(form, name) for name in form}
    back_to = here(form)
    shown = next((one for one in PAGES if one.path == back_to.partition("?")[0]), PAGES[0])
    with desk.lock:
        return page(
            desk,
            template,
            {"page": shown, "pages": PAGES, "form": kept, "here": back_to, **content},
            status=status,
        )
