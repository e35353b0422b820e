"""Where an entry of the build file is shown: the page and the place on it."""

from __future__ import annotations

from collections.abc import Mapping
from functools import lru_cache
from urllib.parse import quote

from drybuild.project.build import Build
from drybuild.project.catalogue import CAR_SECTIONS, system_class
from drybuild.project.groups import NamedField, PartField
from drybuild.project.sections import Section

ZONES = "survey.zones."


@lru_cache(maxsize=4096)
def page_id(text: str) -> str:
    """Return a name for a page's own use: letters, digits and hyphens."""
    return "".join(one if one.isascii() and one.isalnum() else "-" for one in text)


@lru_cache(maxsize=4096)
def option_page(system: str, name: str) -> str:
    """Return the address of an option's page."""
    return f"/choices/{quote(system, safe='')}/{quote(name, safe='')}"


def zone_page(name: str) -> str:
    """Return the address of a zone's form."""
    return f"/shell?zone={quote(name)}#finding"


def part_at(cls: type[Section], section: Section | None, at: str, path: str) -> str:
    """Return the part with a name of the person's own that a path lies in; empty if in none."""
    for name, field in cls.FIELDS.items():
        here, given = f"{at}.{name}", section.given.get(name) if section else None
        if not path.startswith(f"{here}."):
            continue
        if isinstance(field, PartField):
            part = given if isinstance(given, Section) else None
            return part_at(field.section, part, here, path)
        if isinstance(field, NamedField) and isinstance(given, Mapping):
            for one, part in given.items():
                there = f"{here}.{one}"
                if path.startswith(f"{there}."):
                    return part_at(field.section, part, there, path) or there
    return ""


def _opening(part: str) -> str:
    return f"?part={quote(part)}" if part else ""


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
                    part = part_at(system_class(system), options[name], head[:-1], path)
                    return f"{option_page(system, name)}{_opening(part)}#e-{page_id(head + entry)}"
    for job in build.named.get("jobs", {}):
        if path.startswith(f"jobs.{job}."):
            return f"/jobs/{quote(job, safe='')}{at}"
    for head, page in (
        ("survey.", "/shell"),
        ("datum.", "/shell"),
        ("work.", "/work"),
        ("brief.", "/"),
    ):
        if path.startswith(head):
            return page + at
    return _on_car(build, path) if path.startswith("car.") else "/verdicts"


def _on_car(build: Build, path: str) -> str:
    name = path.split(".")[1]
    cls, section = CAR_SECTIONS.get(name), build.car.get(name)
    part = part_at(cls, section, f"car.{name}", path) if cls else ""
    lacks = _lacking(cls, section, f"car.{name}", path) if cls else ""
    at = f"a-{page_id(lacks)}" if lacks else f"e-{page_id(path.partition('[')[0])}"
    return f"/car{_opening(part)}#{at}"


def _lacking(cls: type[Section], section: Section | None, at: str, path: str) -> str:
    """Return the list in which the part that a path lies in is still to be added; else nothing."""
    for name, field in cls.FIELDS.items():
        here, given = f"{at}.{name}", section.given.get(name) if section else None
        if not path.startswith(f"{here}."):
            continue
        if isinstance(field, PartField):
            part = given if isinstance(given, Section) else None
            return _lacking(field.section, part, here, path)
        if isinstance(field, NamedField):
            parts = given if isinstance(given, Mapping) else {}
            for one, part in parts.items():
                if path.startswith(f"{here}.{one}."):
                    return _lacking(field.section, part, f"{here}.{one}", path)
            return here
    return ""
