"""Addresses of values in the build file: ``options.engine."2.0 twin".mass`` and ``jobs[2].hours``.

A key is written as it stands; one that holds a dot, a bracket or a quote goes in double quotes.
"""

from __future__ import annotations

import json
import re

Address = tuple[str | int, ...]
"""The steps from the root: a text is a key of a mapping, a number is a place in a list (from 0)."""

_STEP = re.compile(r'\.?(?:"((?:[^"\\]|\\.)*)"|([^.\[\]"]+))|\[(\d+)\]')
_NEEDS_QUOTES = re.compile(r'[.\[\]"\\\n]|^\s|\s$|^$')


def read_address(text: str) -> Address:
    """Return the steps of an address as typed.

    Raises
    ------
    ValueError
        The text is not an address.

    """
    steps: list[str | int] = []
    at = 0
    while at < len(text):
        match = _STEP.match(text, at)
        if match is None or (match.group()[0] not in ".[" if at else match.group()[0] == "."):
            break
        quoted, bare, place = match.groups()
        if place is not None:
            steps.append(int(place))
        else:
            steps.append(json.loads(f'"{quoted}"') if quoted is not None else bare)
        at = match.end()
    if not steps or at < len(text):
        raise ValueError(
            f"{text!r} does not read as an address such as car.body.wheelbase; a name that holds a "
            'dot or a bracket goes in double quotes, as in options.engine."2.0 twin".mass'
        )
    return tuple(steps)


def write_address(steps: Address) -> str:
    """Return the address as a person would type it; the root is an empty text."""
    parts: list[str] = []
    for step in steps:
        if isinstance(step, int):
            parts.append(f"[{step}]")
        else:
            key = json.dumps(step, ensure_ascii=False) if _NEEDS_QUOTES.search(step) else step
            parts.append(f".{key}" if parts else key)
    return "".join(parts)
