"""Read a build folder into a `Build`: the readable part, and every problem at once."""

from __future__ import annotations

import difflib
from dataclasses import replace
from pathlib import Path

from drybuild.project.brief import Brief
from drybuild.project.build import AS_IT_STANDS, FORMAT, Build
from drybuild.project.catalogue import CAR_SECTIONS, NAMED, SYSTEMS, TOPS, system_class
from drybuild.project.condition_zones import zone_problems
from drybuild.project.document import Entry, Mapping, Node, Scalar, Where
from drybuild.project.folder import read_folder
from drybuild.project.option import Option
from drybuild.project.packaging_place_problems import placing_problems
from drybuild.project.packaging_problems import solid_problems
from drybuild.project.reader import Reader, nearest
from drybuild.project.sections import (
    Section,
    describe,
    is_empty,
    read_section,
    unknown_entry,
)
from drybuild.project.shell_places import place_problems
from drybuild.project.work_order import work_problems

PLAIN = ("build", "format", "units", "brief", "car", "options", "picks", "limits", "include")


def load(folder: Path) -> Build:
    """Read a build folder, or one build file.

    Parameters
    ----------
    folder : Path
        The folder with ``*.yaml`` files, or a single file.

    Returns
    -------
    Build
        The readable part; ``problems`` holds every fault found, with file, line and mend.

    """
    source = read_folder(folder)
    reader = Reader(problems=list(source.problems))
    root = source.root
    for name, entry in root.entries.items():
        if name not in (*PLAIN, *TOPS, *NAMED):
            unknown_entry(reader, entry, name, (*PLAIN, *TOPS, *NAMED))
    _check_format(root, reader)
    car = _read_car(root, reader)
    options = _read_options(root, reader)
    build = Build(
        folder=folder if folder.is_dir() else folder.parent,
        name=_text(root, "build") or folder.resolve().stem,
        kind=str(car["body"].given.get("kind") or "unitary"),
        brief=read_section(Brief, _node(root, "brief"), "brief", "brief", reader),
        car=car,
        tops={
            name: read_section(cls, _node(root, name), name, name, reader)
            for name, cls in TOPS.items()
        },
        named={name: _read_named(root, name, cls, reader) for name, cls in NAMED.items()},
        options=options,
        picks={} if "options" in source.broken else _read_picks(root, options, reader),
        limits=_read_limits(root, reader),
        currency=reader.currency or "EUR",
        units=_units(root, reader),
        problems=(),
        hashes={file.path: file.sha256 for file in source.files},
        broken=source.broken,
        tree=root,
    )
    _check_references(build, reader)
    reader.problems.extend(place_problems(build))
    reader.problems.extend(solid_problems(build))
    reader.problems.extend(placing_problems(build))
    reader.problems.extend(zone_problems(build))
    if "jobs" not in source.broken:
        reader.problems.extend(work_problems(build))
    ordered = sorted(dict.fromkeys(reader.problems), key=lambda one: (str(one.file), one.line))
    return replace(build, problems=tuple(ordered))


def _node(root: Mapping, name: str) -> Node | None:
    entry = root.entries.get(name)
    return entry.node if entry else None


def _text(root: Mapping, name: str) -> str:
    node = _node(root, name)
    return node.value if isinstance(node, Scalar) and node.value else ""


def _check_format(root: Mapping, reader: Reader) -> None:
    node = _node(root, "format")
    if node is not None and _text(root, "format") != str(FORMAT):
        reader.problem(
            "format-unknown",
            node.where,
            "format",
            f"this file says format {_text(root, 'format') or '?'}",
            f'This drybuild reads format {FORMAT}; write "format: {FORMAT}" or use a newer one.',
        )


def _units(root: Mapping, reader: Reader) -> str:
    node, text = _node(root, "units"), _text(root, "units")
    if node is None or text in ("metric", "us"):
        return text or "metric"
    reader.problem(
        "choice-unknown",
        node.where,
        "units",
        f'"{text}" is none of the choices here',
        'Write "metric" or "us": the units that results are shown in.',
    )
    return "metric"


def _entries(root: Mapping, name: str, reader: Reader, example: str) -> dict[str, Entry]:
    """Return the entries of a top-level group; anything else there is a problem."""
    node = _node(root, name)
    if node is None or is_empty(node):
        return {}
    if isinstance(node, Mapping):
        return dict(node.entries)
    reader.problem(
        "mapping-wanted",
        node.where,
        name,
        f"this is {describe(node)}, but a group of entries belongs here",
        f"Write entries below it, such as {example}.",
    )
    return {}


def _read_car(root: Mapping, reader: Reader) -> dict[str, Section]:
    entries = _entries(root, "car", reader, '"body: {kind: unitary}"')
    for name, entry in entries.items():
        if name not in CAR_SECTIONS:
            unknown_entry(reader, entry, f"car.{name}", CAR_SECTIONS)
    return {
        name: read_section(
            cls,
            entries[name].node if name in entries else None,
            f"car.{name}",
            f"car.{name}",
            reader,
        )
        for name, cls in CAR_SECTIONS.items()
    }


def _read_named(root: Mapping, name: str, cls: type[Section], reader: Reader) -> dict[str, Section]:
    return {
        one: read_section(cls, entry.node, f"{name}.{one}", name, reader)
        for one, entry in _entries(root, name, reader, '"a name: {...}"').items()
    }


def _read_options(root: Mapping, reader: Reader) -> dict[str, dict[str, Option]]:
    entries = _entries(root, "options", reader, '"engine: {original: {as_is: true}}"')
    found: dict[str, dict[str, Option]] = {}
    for system in SYSTEMS:
        found[system] = {}
    for system, entry in entries.items():
        if system not in SYSTEMS and difflib.get_close_matches(system, SYSTEMS, cutoff=0.75):
            unknown_entry(reader, entry, f"options.{system}", SYSTEMS)
            continue
        found[system] = _read_system(system, entry.node, reader)
    for system, options in found.items():
        if not options:
            path = f"options.{system}.{AS_IT_STANDS}"
            options[AS_IT_STANDS] = system_class(system)(
                path=path, key=system, given={"as_is": True}
            )
    return found


def _read_system(system: str, node: Node, reader: Reader) -> dict[str, Option]:
    if is_empty(node):
        return {}
    if not isinstance(node, Mapping):
        reader.problem(
            "mapping-wanted",
            node.where,
            f"options.{system}",
            f"this is {describe(node)}, but options by name belong here",
            'Write a name for each option, such as "original: {as_is: true}".',
        )
        return {}
    return {
        name: read_section(
            system_class(system), entry.node, f"options.{system}.{name}", system, reader
        )
        for name, entry in node.entries.items()
    }


def _read_picks(
    root: Mapping, options: dict[str, dict[str, Option]], reader: Reader
) -> dict[str, str]:
    found: dict[str, str] = {}
    for system, entry in _entries(root, "picks", reader, '"engine: original"').items():
        path = f"picks.{system}"
        name = entry.node.value if isinstance(entry.node, Scalar) else None
        if system not in options:
            unknown_entry(reader, entry, path, options)
        elif is_empty(entry.node) or name == "?":
            continue
        elif name is None or name not in options[system]:
            elsewhere = [one for one, named in options.items() if name in named]
            hint = f'"{name}" is an option of {elsewhere[0]}. ' if elsewhere else ""
            reader.problem(
                "pick-unknown",
                entry.node.where,
                path,
                f"{describe(entry.node)} is no option of {system}",
                hint + nearest(name or "", options[system]),
            )
        else:
            found[system] = name
    return found


def _read_limits(root: Mapping, reader: Reader) -> dict[str, str]:
    found: dict[str, str] = {}
    for name, entry in _entries(root, "limits", reader, '"brakes.pedal-force: 350 N"').items():
        if isinstance(entry.node, Scalar) and entry.node.value:
            found[name] = entry.node.value
        else:
            reader.problem(
                "text-wanted",
                entry.node.where,
                f"limits.{name}",
                f"this is {describe(entry.node)}, but one limit belongs here",
                'Write the value with its unit, as "350 N".',
            )
    return found


def _check_references(build: Build, reader: Reader) -> None:
    """Options name other options and files; each name must lead somewhere."""
    for options in build.options.values():
        for option in options.values():
            for entry in ("needs", "excludes"):
                named = option.given.get(entry)
                for system, names in (named if isinstance(named, dict) else {}).items():
                    _check_names(build, option, f"{entry}.{system}", system, names, reader)
            _check_shape(build, option, reader)


def _check_names(
    build: Build, option: Option, entry: str, system: str, names: tuple[str, ...], reader: Reader
) -> None:
    where = option.where or Where(file=build.folder, line=1, column=1, start=0, end=0)
    if system not in build.options:
        wrong = f'there is no system "{system}"'
        reader.problem(
            "reference-unknown", where, option.path_of(entry), wrong, nearest(system, build.options)
        )
        return
    for name in names:
        if name not in build.options[system]:
            wrong = f'"{name}" is no option of {system}'
            reader.problem(
                "reference-unknown",
                where,
                option.path_of(entry),
                wrong,
                nearest(name, build.options[system]),
            )


def _check_shape(build: Build, option: Option, reader: Reader) -> None:
    shape = option.given.get("shape")
    if not isinstance(shape, str) or not option.where:
        return
    inside = (build.folder / shape).resolve()
    if not inside.is_relative_to(build.folder.resolve()) or not inside.is_file():
        reader.problem(
            "file-missing",
            option.where,
            option.path_of("shape"),
            f'there is no file "{shape}" in the build folder',
            "Give a file inside the build folder, or leave the entry out.",
        )
