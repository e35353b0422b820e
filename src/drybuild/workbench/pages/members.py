"""The members of the body's frame, for the page "shell": a view in space, and their sections."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from urllib.parse import quote
from weakref import WeakKeyDictionary

from drybuild.present.frame_view import frame_view
from drybuild.present.numbers import with_band
from drybuild.project.address import Address
from drybuild.project.build import Build
from drybuild.project.sections import Section
from drybuild.project.shell import Frame
from drybuild.project.shell_frame import FrameMember, FrameModel, FrameSection
from drybuild.project.shell_places import MODEL
from drybuild.quantities.shell_families import PartLine
from drybuild.tables.frame import sections
from drybuild.workbench.apart import ready
from drybuild.workbench.desk import Desk
from drybuild.workbench.entries import Entry, Reader
from drybuild.workbench.pages.matters import known_result

RAILS = {
    "frame rail": ("rail_width", "rail_height", "rail_wall", "open_rails"),
    "frame cross-member": ("cross_width", "cross_height", "cross_wall", "open_cross_members"),
}
"""Sections of a ladder frame whose size stands among the measures of the frame."""
SIZES = ("shape", "width", "height", "gauge")
EXAMPLES = {"doubler": "1.5 mm", "wasted": "0.3 ± 0.1 mm", "holes": "10 %"}
"""What one would type, where the template has nothing to show."""
MOUNTS = ("mount_rate", "mount_side_share", "mount_radius")


@dataclass(frozen=True, kw_only=True)
class BodyFrame:
    """The frame that stands for the body."""

    parts: tuple[PartLine, ...]
    template: str


_LAST: WeakKeyDictionary[Desk, BodyFrame] = WeakKeyDictionary()
"""The frame as it was last known: it stays in sight while it is worked out anew."""


@dataclass(frozen=True, kw_only=True)
class Member:
    """A member, both sides of the car taken together."""

    name: str
    section: str
    share: float
    """Of the strain energy in torsion. [-]"""
    added: bool
    """Whether the picked work brings it."""

    @property
    def to(self) -> str:
        """Where its section is changed."""
        return f"/shell?member={quote(self.name, safe='')}#member"

    @property
    def percent(self) -> str:
        """Its share of the strain as it is read."""
        return f"{100.0 * self.share:.1f} %"


@dataclass(frozen=True, kw_only=True)
class Chosen:
    """The member that is chosen, with the entries of its section."""

    member: Member
    like: tuple[str, ...]
    """Other members of the same section."""
    entries: tuple[Entry, ...]


def frame_of(desk: Desk) -> BodyFrame | None:
    """Return the frame of the build; while verdicts settle the one before. None without any."""
    picture, model = (known_result(desk, name) for name in ("shell_picture", "shell_model"))
    if picture and model and not (picture.open or model.open):
        _LAST[desk] = BodyFrame(parts=picture.value, template=model.value.template)
    elif ready(desk):
        _LAST.pop(desk, None)
    return _LAST.get(desk)


def members_of(parts: Sequence[PartLine]) -> dict[str, Member]:
    """Return the members by name, those first that strain most."""
    found: dict[str, list[PartLine]] = {}
    for one in parts:
        if one.section:
            found.setdefault(one.family, []).append(one)
    members = [
        Member(
            name=name,
            section=ones[0].section,
            share=sum(one.share for one in ones),
            added=ones[0].added,
        )
        for name, ones in found.items()
    ]
    return {one.name: one for one in sorted(members, key=lambda one: -one.share)}


def view_of_members(parts: Sequence[PartLine], members: Mapping[str, Member], chosen: str) -> str:
    """Return the frame in space."""
    return frame_view(parts, {name: one.to for name, one in members.items()}, chosen)


def chosen_member(
    reader: Reader, members: Mapping[str, Member], name: str, template: str
) -> Chosen | None:
    """Return what the form of a member shows; nothing where there is no such member."""
    member = members.get(name)
    if member is None:
        return None
    like = [one.name for one in members.values() if one.section == member.section]
    like.remove(name)
    own = _own_member(reader, name)
    return Chosen(
        member=member,
        like=tuple(like),
        entries=(*own, *_entries(reader, member.section, template)),
    )


def _own_member(reader: Reader, name: str) -> tuple[Entry, ...]:
    """Return the section of a member that this car has beside the template's."""
    model = reader.build.car[MODEL[1]].given.get(MODEL[2])
    members = model.given.get("members") if isinstance(model, Section) else None
    if not isinstance(members, Mapping) or name not in members:
        return ()
    at: Address = (*MODEL, "members", name, "section")
    return (reader.entry(FrameMember.FIELDS["section"], at, _key("members", "section")),)


def _entries(reader: Reader, section: str, template: str) -> tuple[Entry, ...]:
    """Return the entries that a section goes by."""
    if sections()[section].shape == "mount":
        return tuple(
            reader.entry(FrameModel.FIELDS[one], (*MODEL, one), _key(one)) for one in MOUNTS
        )
    ladder = section in RAILS and template == "ladder"
    found = []
    if ladder:
        at = (*MODEL[:2], "frame")
        found = [
            reader.entry(Frame.FIELDS[one], (*at, one), ".".join((*at, one)))
            for one in RAILS[section]
        ]
    for name, field in FrameSection.FIELDS.items():
        if ladder and name in SIZES[1:]:
            continue
        one = reader.entry(field, (*MODEL, "sections", section, name), _key("sections", name))
        found.append(_beside_template(one, section, reader.build))
    return tuple(found)


def _beside_template(one: Entry, section: str, build: Build) -> Entry:
    """Tell what the template has where nothing is typed."""
    usual = sections()[section]
    name = one.path.rpartition(".")[2]
    if one.typed or name not in (*SIZES, *EXAMPLES):
        return one
    if name in EXAMPLES:
        return replace(one, example=EXAMPLES[name])
    if name == "shape":
        return replace(one, usual=usual.shape)
    metres = getattr(usual, name)
    value = with_band((metres, metres, metres), "m", "mm", build.units, build.currency)
    return replace(one, example=value, stands_in=f"{value} of the template")


def _key(*names: str) -> str:
    return ".".join((*MODEL, *names))
