"""A reading's path in words: what it is and where it stands, without the file's own spelling."""

from __future__ import annotations

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
        place = self._place(path)
        return f"{place}: {words}" if place else words

    def _place(self, path: str) -> str:
        head, _, rest = path.partition(".")
        if head == "options":
            system, _, rest = rest.partition(".")
            options = sorted(self._build.options.get(system, ()), key=len, reverse=True)
            name = next((one for one in options if rest.startswith(f"{one}.")), "")
            return f"{system_words(system)}, {name}" if name else system_words(system)
        if head in self._build.named:
            name = next((one for one in self._build.named[head] if rest.startswith(one)), "")
            return f"{head}, {name}" if name else head
        return head if head in self._build.tops else ""


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
