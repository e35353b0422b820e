"""The body's panels as a painter sees them, and what may be put on them."""

from __future__ import annotations

from drybuild.project.document import Mapping, Node
from drybuild.project.fields import choice, flag, reading
from drybuild.project.groups import NamedField, named
from drybuild.project.option import Option
from drybuild.project.reader import Reader
from drybuild.project.readings import Origin
from drybuild.project.sections import Section, unknown_entry
from drybuild.tables.paint_shop import joints


class PanelArea(Section):
    """A panel measured by its owner."""

    area = reading("m²", "Area of its outside, both sides of the car together")


class PanelJoint(Section):
    """A gap between two panels as measured."""

    start = reading("m", "Gap at its front or upper end", origin=Origin.MEASURED)
    end = reading("m", "Gap at its rear or lower end", origin=Origin.MEASURED)
    step = reading(
        "m", "The first panel above the second, plus for proud", least=None, origin=Origin.MEASURED
    )


class JointsField(NamedField[PanelJoint]):
    """Gaps by joint and side; a joint that no body has is a problem with a hint."""

    def read(self, node: Node, path: str, reader: Reader) -> dict[str, PanelJoint] | None:
        """Return the joints that exist."""
        known = tuple(joints())
        for name, entry in node.entries.items() if isinstance(node, Mapping) else ():
            if not name.startswith(known):
                unknown_entry(reader, entry, f"{path}.{name}", known)
        found = super().read(node, path, reader)
        return found and {name: one for name, one in found.items() if name.startswith(known)}


class Panels(Section):
    """The body's outside: areas and straightness."""

    areas = named(PanelArea, "Areas of single panels, by the names of the panel list")
    joints = JointsField(PanelJoint, "Gaps and steps, by joint and side: front wing to door left")
    estimate = reading("-", "True area over that from outside dimensions", typical=True)
    inside_share = reading("-", "Jambs, edges and insides over the outer area", typical=True)
    shell_area = reading("m²", "Both sides of the bare shell's sheet", typical=True)
    waviness = reading("m", "Depth of the waves left after filling, on a 300 mm straight-edge")
    filled_share = reading("-", "Share of the outside that gets filler", typical=True, most=1.0)
    filler_thickness = reading("m", "Filler left where it is thickest", typical=True)
    putty_thickness = reading("m", "Spot putty left where it is thickest")
    filler_mean = reading("m", "Filler left on average, where there is any", typical=True)
    filler_density = reading("kg/m³", "Density of cured filler", typical=True)


class Paint(Option):
    """A finish: colour, gloss, materials, and how the old one comes off."""

    mass = reading("kg", "Mass of the paint beyond that of the old one", least=None, typical=True)
    colour = choice("How dark it is", "white", "light", "mid", "dark", "black", usual="mid")
    gloss = choice("How it shines", "gloss", "satin", "matt", usual="gloss")
    two_pack = flag("Two-pack materials with an isocyanate hardener", usual=True)
    transfer = reading("-", "Share of the solids that lands on the car", typical=True, most=1.0)
    epoxy_primer_film = reading("m", "Epoxy primer, dry", typical=True)
    surfacer_film = reading("m", "Surfacer as sprayed, dry, before sanding", typical=True)
    base_coat_film = reading("m", "Base coat, dry", typical=True)
    clear_coat_film = reading("m", "Clear coat, dry", typical=True)
    epoxy_primer_solids = reading("-", "Epoxy primer, solids as sprayed", typical=True, most=1.0)
    surfacer_solids = reading("-", "Surfacer, solids as sprayed", typical=True, most=1.0)
    base_coat_solids = reading("-", "Base coat, solids as sprayed", typical=True, most=1.0)
    clear_coat_solids = reading("-", "Clear coat, solids as sprayed", typical=True, most=1.0)
    sanded_share = reading("-", "Share of the surfacer sanded off", typical=True, most=1.0)
    allowed_slope = reading("rad", "Slope that just shows in a full mirror", typical=True)
    blasting = choice(
        "What strips the shell", "none", "hard media", "soft media", "dipping", usual="hard media"
    )
    spare_skins = flag("Flat outer skins are spared from hard media: soft media, or by hand")
    nozzle = choice("Bore of the blasting nozzle in mm", "6.4", "7.9", "9.5", usual="6.4")
    cure_time = reading("s", "Clear coat through-dry at 20 °C, from its sheet", typical=True)
    shop_temperature = reading("K", "Temperature of the panels while it cures", typical=True)
    booth_width = reading("m", "Width of the spray place", typical=True)
    booth_height = reading("m", "Height of the spray place", typical=True)
    booth_length = reading("m", "Length of the spray place", typical=True)
    booth_mixing = reading(
        "-", "How much worse than evenly the fan sweeps it: 1 at best", typical=True, least=1.0
    )
    booth_airflow = reading("m³/s", "Air that its fan draws through it")
