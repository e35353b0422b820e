"""Where an entry of the build file is shown: the page and the place on it."""

from __future__ import annotations

from urllib.parse import quote

from drybuild.project.build import Build

ZONES = "survey.zones."


def page_id(text: str) -> str:
    """Return a name for a page's own use: letters, digits and hyphens."""
    return "".join(one if one.isascii() and one.isalnum() else "-" for one in text)


def option_page(system: str, name: str) -> str:
    """Return the address of an option's page."""
    return f"/choices/{quote(system, safe='')}/{quote(name, safe='')}"


def zone_page(name: str) -> str:
    """Return the address of a zone's form."""
    return f"/shell?zone={quote(name)}#finding"


def shown_at(build: Build, path: str) -> str:
    """Return where a reading can be changed; a page of its matter when it has no field there."""
    at = f"#e-{page_id(path)}"
    if path.startswith(ZONES):
        return zone_page(path.removeprefix(ZONES).rpartition(".")[0])
    if path.startswith("picks."):
        return f"/choices#s-{page_id(path.removeprefix('picks.'))}"
    if path.startswith("options."):
        for system, options in build.options.items():
            for name in options:
                head = f"options.{system}.{name}."
                if path.startswith(head):
                    entry = path.removeprefix(head).partition("[")[0]
                    return option_page(system, name) + f"#e-{page_id(head + entry)}"
    for job in build.named.get("jobs", {}):
        if path.startswith(f"jobs.{job}."):
            return f"/jobs/{quote(job, safe='')}{at}"
    for head, page in (("survey.", "/shell"), ("work.", "/work"), ("brief.", "/")):
        if path.startswith(head):
            return page + at
    return f"/car{at.partition('[')[0]}" if path.startswith("car.") else "/verdicts"
