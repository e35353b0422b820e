"""Put a frame template to this car: its tape measures, sections, known stiffness, own members."""

from __future__ import annotations

import numpy as np

from drybuild.errors import MissingInput, TableError
from drybuild.physics.shell import torsional_stiffness_from_corner_load
from drybuild.project.body import Body
from drybuild.project.samples import Values
from drybuild.project.shell import Measure, Shell, Structure
from drybuild.project.shell_frame import FrameModel
from drybuild.quantities.shell_model import Addition, ShellModel
from drybuild.tables.frame import (
    Bar,
    SectionSize,
    Sheet,
    added_bars,
    bar_pair,
    bars,
    changes,
    measures,
    nodes,
    sections,
    sheets,
)

TEMPLATE_OF_SHAPE = {"estate": "estate", "hatchback": "estate", "van": "estate"}
OPEN_SHAPES = ("convertible", "roadster")


def template_of(frame: FrameModel, body: Body) -> str:
    """Return the template that stands for the body: as given, else by its kind and shape."""
    if frame.has("template"):
        return frame.template
    if body.kind != "unitary":
        return body.kind
    shape = body.shape if body.has("shape") else "saloon"
    return "open" if shape in OPEN_SHAPES else TEMPLATE_OF_SHAPE.get(shape, "saloon")


def tape_measures(structure: Structure, body: Body, template: str) -> dict[str, Values]:
    """Return the tape measures that the template's places go by."""
    wanted = {name for node in nodes(template).values() for axis in node.shares for name in axis}
    found = {}
    for name in sorted(wanted):
        if name == "frame_width":
            found[name] = structure.frame.width
        elif name.startswith("cell_"):
            found[name] = getattr(structure, name)
        else:
            found[name] = getattr(body, name)
    return found


def section_sizes(
    frame: FrameModel, structure: Structure, template: str, body: Body
) -> tuple[dict[str, SectionSize], dict[str, Values]]:
    """Return every section's nominal size and, by sample, the factor on its stiffness."""
    sizes, walls, given = {}, {}, frame.sections
    gauge, size_share = frame.gauge_share, frame.section_share
    for name, usual in sections().items():
        own = given.get(name)
        has = {key: own is not None and own.has(key) for key in ("width", "height", "gauge")}
        values = {
            key: getattr(own, key) if has[key] else np.full_like(gauge, getattr(usual, key))
            for key in has
        }
        shape = "open" if own is not None and own.slit else usual.shape
        sizes[name] = SectionSize(
            shape=shape, **{key: float(value[0]) for key, value in values.items()}
        )
        wall = values["gauge"] / values["gauge"][0] if has["gauge"] else gauge
        walls[name] = wall if has["width"] and has["height"] else wall * size_share
    if template == "ladder" and (body.kind == "ladder" or structure.has("frame")):
        _ladder_sections(structure, sizes, walls)
    return sizes, walls


def _ladder_sections(
    structure: Structure, sizes: dict[str, SectionSize], walls: dict[str, Values]
) -> None:
    """Take rails and cross-members as car.structure.frame has them; walls carry their spread."""
    frame = structure.frame
    for name, width, height, wall, slit in (
        ("frame rail", frame.rail_width, frame.rail_height, frame.rail_wall, frame.open_rails),
        (
            "frame cross-member",
            frame.cross_width,
            frame.cross_height,
            frame.cross_wall,
            frame.open_cross_members,
        ),
    ):
        sizes[name] = SectionSize(
            shape="open" if slit else "closed",
            width=float(width[0]),
            height=float(height[0]),
            gauge=float(wall[0]),
        )
        walls[name] = wall / wall[0]


def known_stiffness(structure: Structure, body: Body) -> tuple[Values | None, str]:
    """Return the stiffness that joints are set by: the three-stand test, else as given."""
    if structure.has("corner_load") and structure.has("corner_deflection"):
        found = torsional_stiffness_from_corner_load(
            load=structure.corner_load,
            track=structure.corner_track if structure.has("corner_track") else body.rear_track,
            deflection=structure.corner_deflection,
        )
        return found, structure.path_of("corner_deflection")
    if structure.has("torsional_stiffness"):
        return structure.torsional_stiffness, structure.path_of("torsional_stiffness")
    return None, ""


def left_out(frame: FrameModel, template: str) -> tuple[str, ...]:
    """Return what this car does not have of the template; a name that it has not is said."""
    parts: tuple[Bar | Sheet, ...] = (*bars(template), *sheets(template))
    known = {name for one in parts for name in (one.name, one.family)}
    for name in frame.without:
        if name not in known:
            raise MissingInput(
                frame.path_of("without"),
                f"the {template} frame has no part called {name}; "
                f"it has {', '.join(sorted({one.family for one in parts}))}",
            )
    return frame.without


def own_bars(frame: FrameModel, template: str) -> tuple[Bar, ...]:
    """Return the members that this car has beside the template's."""
    known = frozenset(nodes(template))
    return tuple(
        bar
        for name, one in frame.members.items()
        for bar in bar_pair(
            name=name,
            start=one.start,
            end=one.end,
            section=one.section,
            known=known,
            both=not one.one_side,
        )
    )


def addition_of(name: str, one: Measure | Shell, model: ShellModel) -> Addition | None:
    """Return what a measure does to the frame, or nothing when the frame does not know it."""
    if isinstance(one, Measure) and one.has("start") and one.has("end"):
        known = frozenset(nodes(model.template))
        added = bar_pair(
            name=name, start=one.start, end=one.end, section=one.section, known=known, both=True
        )
        return Addition(name=name, bars=added)
    kind = _kind(name, one)
    if kind not in measures():
        return None
    try:
        return Addition(
            name=name,
            bars=added_bars(kind, model.template),
            changes=changes(kind, model.template),
        )
    except TableError:
        return None  # the template has no such place: the measure stays without a known gain


def _kind(name: str, one: Measure | Shell) -> str:
    """Return what the frame model would call a measure: its kind, else its name, or the work."""
    if isinstance(one, Shell):
        return one.work
    return one.kind if one.has("kind") else name
