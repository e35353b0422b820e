"""Tables kept on disk by content, so that a build opened again need not be judged again.

What a table rests on is its key: everything the build gives but its picks, the checks, and the
program itself. A changed pick finds the tables again; a changed reading does not.
"""

from __future__ import annotations

import dataclasses
import hashlib
import io
import json
import tempfile
import zipfile
from collections.abc import Callable, Mapping, Sequence
from contextlib import suppress
from functools import cache
from pathlib import Path
from types import NoneType

import numpy as np

from drybuild.checks.check import Check
from drybuild.keeping import program_name
from drybuild.options.labels import Costs
from drybuild.options.network import Flags
from drybuild.project.build import Build
from drybuild.project.sections import Section

PLACE_ONLY = ("file", "line", "where")
"""Entries that say where something stands, not what it is."""
_WORDS = (str, float, int, NoneType)
"""What tells all of itself in words."""
MOST_KEPT = 12
Judged = tuple[Flags, Costs]
"""Which combinations a check allows, and the margin of those it does not."""


def content_key(build: Build, checks: Sequence[Check], samples: int) -> str:
    """Return a name for everything that the tables rest on."""
    rests_on = (
        build.kind,
        sorted(build.limits.items()),
        [_plain(part) for part in (build.brief, build.car, build.tops, build.named, build.options)],
        [_plain(check) for check in checks],
        samples,
        program_name(),
    )
    return hashlib.blake2b(repr(rests_on).encode(), digest_size=16).hexdigest()


def _plain(value: object) -> object:
    if isinstance(value, _WORDS):
        return value
    if isinstance(value, Section):
        return (value.path, _plain(value.given))
    if isinstance(value, Mapping):
        return [(name, _plain(one)) for name, one in value.items()]
    if isinstance(value, list | tuple):
        return [_plain(one) for one in value]
    kind: type = type(value)
    if names := _names(kind):
        return [(name, _plain(getattr(value, name))) for name in names]
    return repr(value)


@cache
def _names(kind: type) -> tuple[str, ...]:
    named = dataclasses.fields(kind) if dataclasses.is_dataclass(kind) else ()
    return tuple(one.name for one in named if one.name not in PLACE_ONLY)


def fetch(folder: Path, key: str) -> dict[str, Judged]:
    """Return the judged tables by check; none if they are not kept or cannot be read."""
    try:
        content = (folder / f"{key}.npz").read_bytes()
        with np.load(io.BytesIO(content), allow_pickle=False) as kept:
            names = [name.removesuffix(".allowed") for name in kept if name.endswith(".allowed")]
            return {name: (kept[f"{name}.allowed"], kept[f"{name}.margin"]) for name in names}
    except (OSError, ValueError, KeyError, EOFError, zipfile.BadZipFile):
        return {}


def keep(folder: Path, key: str, tables: Mapping[str, Judged]) -> None:
    """Keep judged tables; a folder that cannot be written is let be, as nothing is lost."""
    arrays = {
        f"{name}.{kind}": array
        for name, pair in tables.items()
        for kind, array in zip(("allowed", "margin"), pair, strict=True)
    }
    try:
        folder.mkdir(parents=True, exist_ok=True)
        with tempfile.NamedTemporaryFile(dir=folder, suffix=".part", delete=False) as file:
            np.savez_compressed(file, **arrays)  # type: ignore[arg-type]  # its one flag is not set
        Path(file.name).replace(folder / f"{key}.npz")
        oldest_first = sorted(folder.glob("*.npz"), key=lambda one: one.stat().st_mtime)
        for old in oldest_first[:-MOST_KEPT]:
            for one in (old, *folder.glob(f"{old.stem}-*.json")):
                one.unlink(missing_ok=True)
    except OSError:
        return


class Words:
    """What is said of excluded combinations, kept beside the tables that exclude them."""

    def __init__(self, path: Path | None = None) -> None:
        """Take up what was kept in a file; None keeps nothing."""
        self._path = path
        self._said: dict[str, str] = {}
        with suppress(OSError, ValueError, AttributeError):
            kept = json.loads(path.read_text(encoding="utf-8")) if path else {}
            self._said = {str(name): str(words) for name, words in kept.items()}

    def of(self, name: str, say: Callable[[], str]) -> str:
        """Return what was said under a name, else say it and keep it."""
        if name not in self._said:
            self._said[name] = say()
            if self._path:
                self._keep(self._path)
        return self._said[name]

    def _keep(self, path: Path) -> None:
        with (
            suppress(OSError),
            tempfile.NamedTemporaryFile(
                "w", dir=path.parent, suffix=".part", delete=False, encoding="utf-8"
            ) as file,
        ):
            json.dump(self._said, file)
            file.close()
            Path(file.name).replace(path)
