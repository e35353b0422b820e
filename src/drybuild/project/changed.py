"""Which entries differ between two readings of the same build, so that the rest need not wait."""

from __future__ import annotations

from collections.abc import Iterator
from weakref import WeakKeyDictionary

from drybuild.project.build import Build
from drybuild.project.sections import Section

PLACE_ONLY = ("file", "line", "where")
"""Entries that say where something stands, not what it is."""


def changed_paths(old: Build, new: Build) -> frozenset[str] | None:
    """Return the paths of entries that say something else; picks, name and units apart.

    Parameters
    ----------
    old : Build
        The build as it was.
    new : Build
        The build as it is.

    Returns
    -------
    frozenset of str or None
        None when more than entries changed: sections, options or jobs that came or went, the
        kind of body, the currency, the person's own limits.

    """
    if (old.kind, old.currency, dict(old.limits)) != (new.kind, new.currency, dict(new.limits)):
        return None
    before, after = ({one.path: one for one in _sections(build)} for build in (old, new))
    if list(before) != list(after):
        return None
    found: set[str] = set()
    for path, section in before.items():
        if section.given is not after[path].given:
            found |= _differing(section, after[path])
    return frozenset(found)


def _differing(old: Section, new: Section) -> set[str]:
    was, now = _said(old), _said(new)
    if was == now:
        return set()
    return {old.path_of(name) for name in {*was, *now} if was.get(name) != now.get(name)}


_SAID: WeakKeyDictionary[Section, dict[str, object]] = WeakKeyDictionary()
"""What sections say; the same ones are compared with every reading of the files that follows."""


def _said(section: Section) -> dict[str, object]:
    found = _SAID.get(section)
    if found is None:
        found = _SAID[section] = {name: plain(one) for name, one in section.given.items()}
    return found


def plain(value: object) -> object:
    """Return what a value says without where it stands."""
    if isinstance(value, Section):
        return (value.path, plain(value.given))
    if isinstance(value, dict):
        return {name: plain(one) for name, one in value.items()}
    if isinstance(value, (tuple, list)):
        return tuple(plain(one) for one in value)
    said = getattr(value, "__dict__", None)
    if said is not None and hasattr(value, "__dataclass_fields__"):
        return tuple((name, plain(one)) for name, one in said.items() if name not in PLACE_ONLY)
    return value


def below(path: str, changed: frozenset[str]) -> bool:
    """Whether a path is one of these, or part of one of them."""
    return any(path == one or (path.startswith(one) and path[len(one)] in ".[") for one in changed)


def _sections(build: Build) -> Iterator[Section]:
    yield build.brief
    yield from build.car.values()
    yield from build.tops.values()
    for named in (*build.named.values(), *build.options.values()):
        yield from named.values()
