"""Put a frame template to this car: its tape measures, sections, known stiffness, own members."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from drybuild.errors import MissingInput, TableError
from drybuild.physics.shell import torsional_stiffness_from_corner_load
from drybuild.project.body import Body
from drybuild.project.samples import Values
from drybuild.project.shell import Measure, Shell, Structure
from drybuild.project.shell_frame import FrameModel, FrameSection
from drybuild.project.shell_places import usual_template
from drybuild.quantities.shell_model import Addition, ShellModel
from drybuild.tables.frame import (
    BODY_OF,
    Bar,
    Node,
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

AXES = ("x", "y", "z")
THROUGH = 1e-4
"""What is left of a wall that rust went through, so that a sample is soft and no mechanism."""


def template_of(frame: FrameModel, body: Body) -> str:
    """Return the template that stands for the body: as given, else by its kind and shape."""
    if frame.has("template"):
        return frame.template
    return usual_template(body.kind, body.shape if body.has("shape") else "")


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
    for name, usual in sections().items():
        if usual.shape == "mount":
            sizes[name], walls[name] = _mount(frame, usual)
        else:
            sizes[name], walls[name] = _section(frame, usual, given.get(name))
    if template == "ladder" and (body.kind == "ladder" or structure.has("frame")):
        _ladder_sections(structure, sizes, walls, given)
    return sizes, walls


def _section(
    frame: FrameModel, usual: SectionSize, own: FrameSection | None
) -> tuple[SectionSize, Values]:
    """Return one section by what was measured of it, else as usual."""
    has = {key: own is not None and own.has(key) for key in ("width", "height", "gauge")}
    values = {
        key: getattr(own, key) if has[key] else np.full_like(frame.gauge_share, getattr(usual, key))
        for key in has
    }
    gauge = values["gauge"] if has["gauge"] else values["gauge"] * frame.gauge_share
    wall = gauge if own is None else _worked(gauge, own)
    size = SectionSize(
        shape=_shape(usual, own),
        width=float(values["width"][0]),
        height=float(values["height"][0]),
        gauge=float(wall[0]),
        holes=float(own.holes[0]) if own is not None and own.has("holes") else 0.0,
    )
    share = wall / wall[0] if wall[0] > 0.0 else np.ones_like(wall)
    return size, share if has["width"] and has["height"] else share * frame.section_share


def _worked(gauge: Values, own: FrameSection) -> Values:
    """Return a wall with what was welded on, less what rust took; none is left below nought."""
    wall = gauge + (own.doubler if own.has("doubler") else 0.0)
    wall = wall - (own.wasted if own.has("wasted") else 0.0)
    return np.maximum(wall, THROUGH * wall[0]) if wall[0] > 0.0 else wall


def _shape(usual: SectionSize, own: FrameSection | None) -> str:
    if own is None:
        return usual.shape
    shape = own.shape if own.has("shape") else usual.shape
    return "open" if own.slit and shape == "closed" else shape


def _mount(frame: FrameModel, usual: SectionSize) -> tuple[SectionSize, Values]:
    rate = frame.mount_rate
    across = float(rate[0] * frame.mount_side_share[0])
    # a round pad turns by its second moment as it gives by its area: I/A = r²/4
    turn = float(rate[0] * frame.mount_radius[0] ** 2 / 4.0)
    rates = (float(rate[0]), across, turn)
    return replace(usual, rates=rates), rate / rate[0]


def _ladder_sections(
    structure: Structure,
    sizes: dict[str, SectionSize],
    walls: dict[str, Values],
    given: dict[str, FrameSection],
) -> None:
    """Take rails and cross-members as car.structure.frame has them; walls carry their spread."""
    frame = structure.frame
    for name, width, height, gauge, channel in (
        ("frame rail", frame.rail_width, frame.rail_height, frame.rail_wall, frame.open_rails),
        (
            "frame cross-member",
            frame.cross_width,
            frame.cross_height,
            frame.cross_wall,
            frame.open_cross_members,
        ),
    ):
        own = given.get(name)
        wall = gauge if own is None else _worked(gauge, own)
        usual = SectionSize(
            shape="channel" if channel else "closed",
            width=float(width[0]),
            height=float(height[0]),
            gauge=float(wall[0]),
            holes=sizes[name].holes,
        )
        sizes[name] = replace(usual, shape=_shape(usual, own))
        walls[name] = wall / wall[0] if wall[0] > 0.0 else np.ones_like(wall)


def own_places(frame: FrameModel, template: str) -> tuple[dict[str, Node], dict[str, Values]]:
    """Return every place by name, and the measures that one's own places go by.

    A place of one's own has its mirror image on the right unless it lies in the middle; a place
    of the template that was measured takes the measured coordinates, the others stay.
    """
    places, measures_ = dict(nodes(template)), dict[str, Values]()
    for name, one in frame.places.items():
        usual = places.get(name, places.get(f"{name} left"))
        if usual is None and not all(one.has(axis) for axis in AXES):
            raise MissingInput(one.path, f"a place of one's own needs {', '.join(AXES)}")
        shares = [dict(axis) for axis in usual.shares] if usual else [{}, {}, {}]
        for number, axis in enumerate(AXES):
            if one.has(axis):
                measures_[f"{name} {axis}"] = getattr(one, axis)
                shares[number] = {f"{name} {axis}": 1.0}
        middle = name in places or (usual is None and float(one.y[0]) == 0.0)
        for label, sign in (
            [(name, 1.0)] if middle else [(f"{name} left", 1.0), (f"{name} right", -1.0)]
        ):
            across = {measure: sign * share for measure, share in shares[1].items()}
            places[label] = Node(name=label, shares=(shares[0], across, shares[2]))
    return places, measures_


def body_on_mounts(template: str) -> Addition | None:
    """Return the body that sits on a frame by rubber mounts, where the template knows one."""
    body = BODY_OF.get(template)
    if body is None:
        return None
    return Addition(name="body on its mounts", bars=bars(body), sheets=sheets(body))


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


def own_bars(frame: FrameModel, places: dict[str, Node]) -> tuple[Bar, ...]:
    """Return the members that this car has beside the template's."""
    known = frozenset(places)
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
        known = frozenset(model.places)
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
