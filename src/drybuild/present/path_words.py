"""A reading's path in words: what it is and where it stands, without the file's own spelling."""

from __future__ import annotations

from collections.abc import Iterable

from drybuild.next_steps.fields import Fields
from drybuild.project.build import Build


class PathWords:
    """Words for the paths of one build."""

    def __init__(self, build: Build) -> None:
        self._fields = Fields(build)
        self._build = build

    def of(self, path: str) -> str:
        """Return ``rear brakes, larger drums: arm of the normal force``; else the path itself."""
        found = self._fields.of(path)
        words = found.words if found else path.rpartition(".")[2].replace("_", " ")
        words = words[:1].lower() + words[1:] if not words[:2].isupper() else words
        place = self.place(path)
        return f"{place}: {words}" if place else words

    def place(self, path: str) -> str:
        """Return where an entry stands: ``rear brakes, larger drums``; empty for the brief."""
        head, _, rest = path.partition(".")
        if head == "options":
            system, _, rest = rest.partition(".")
            name, rest = _first_name(rest, self._build.options.get(system, ()))
            return ", ".join(filter(None, (system_words(system), name, _inner(rest))))
        if head in self._build.named:
            name, rest = _first_name(rest, self._build.named[head])
            return ", ".join(filter(None, (head, name, _inner(rest))))
        if head == "car":
            return _inner(rest.partition(".")[2])
        return ", ".join(filter(None, (head, _inner(rest)))) if head in self._build.tops else ""


def _first_name(rest: str, names: Iterable[str]) -> tuple[str, str]:
    """Return the name that a path goes on with, the longest that fits, and what follows it."""
    fitting = [one for one in names if rest == one or rest.startswith(f"{one}.")]
    name = max(fitting, key=len, default="")
    return name, rest[len(name) :].lstrip(".")


def _inner(rest: str) -> str:
    """Return the name of a thing within: ``ignition`` of ``circuits.ignition.current``."""
    between = rest.rpartition(".")[0]
    return between.partition(".")[2] or between.replace("_", " ")


def plain(text: str) -> str:
    """Return a reading's text without the stroke that stands for "no unit"."""
    return text.removesuffix(" -")


def part_name(part: str) -> str:
    """Return the option of a part that is called ``rear_brakes: larger drums``."""
    return part.partition(": ")[2] or part


def part_words(part: str) -> str:
    """Return ``rear brakes: larger drums``; anything else as it is."""
    system, colon, option = part.partition(": ")
    return f"{system_words(system)}{colon}{option}"


def system_words(system: str) -> str:
    """Return a system's name as people write it."""
    return system.replace("_", " ")
