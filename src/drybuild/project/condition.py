"""What is known of the body's state: its life so far, and each zone that somebody looked at."""

from __future__ import annotations

from drybuild.project.document import Mapping, Node
from drybuild.project.fields import TextsField, choice, reading, text
from drybuild.project.groups import NamedField
from drybuild.project.reader import Reader, nearest
from drybuild.project.sections import Section, unknown_entry
from drybuild.tables.condition import GRADES, ZONE_KINDS, lives, looks, zones


class ZoneFinding(Section):
    """What was found on one zone, and how it was judged."""

    found = choice("What it seems to be", *GRADES)
    judged = choice("How it was judged", *looks(), usual="looked")
    thickness = reading("m", "Sheet that is left, by a thickness gauge on bare metal")
    new_thickness = reading("m", "Sheet when it was new, where it is known", exact=True)
    note = text("What was seen")


class ZonesField(NamedField[ZoneFinding]):
    """Findings by zone; a zone that no kind of body has is a problem with a hint."""

    def read(self, node: Node, path: str, reader: Reader) -> dict[str, ZoneFinding] | None:
        """Return the findings on zones that exist."""
        known = {zone for kind in ZONE_KINDS for zone in zones(kind)}
        for name, entry in node.entries.items() if isinstance(node, Mapping) else ():
            if name not in known:
                unknown_entry(reader, entry, f"{path}.{name}", known)
        found = super().read(node, path, reader)
        return found and {name: one for name, one in found.items() if name in known}


class ZonesNamed(TextsField):
    """A list of body zones; one that no body has is a problem with a hint."""

    def read(self, node: Node, path: str, reader: Reader) -> tuple[str, ...] | None:
        """Return the zones that exist."""
        known = {zone for kind in ZONE_KINDS for zone in zones(kind)}
        found = super().read(node, path, reader)
        for name in found or ():
            if name not in known:
                wrong = f'there is no body zone "{name}"'
                reader.problem("unknown-key", node.where, path, wrong, nearest(name, known))
        return found and tuple(name for name in found if name in known)


class Survey(Section):
    """The body's life, what was looked at, and what repairs cost here."""

    climate = choice("Where it spent its life", *lives("climate"), usual="temperate")
    storage = choice("Where it stood", *lives("storage"), usual="open")
    repairs = choice("What is known of old repairs", *lives("repairs"), usual="none known")
    drains = choice("Whether the drain holes run", *lives("drains"), usual="not tried")
    proofing = choice("What was done against rust", *lives("proofing"), usual="none known")
    zones = ZonesField(ZoneFinding, "Findings by zone")
    pace = reading("-", "Own hours over the trade's hours", typical=True)
    sheet_price = reading("money/m²", "Sheet or repair panels, by their area", typical=True)
    consumables = reading("money/s", "Gas, wire, discs and sealer, by working time", typical=True)
    strip_job = text("Name of the job that takes the car apart")
    blast_job = text("Name of the job that lays the metal bare")
