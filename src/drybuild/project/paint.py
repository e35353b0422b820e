"""The body's panels as a painter sees them, and what may be put on them."""

from __future__ import annotations

from drybuild.project.fields import choice, flag, reading
from drybuild.project.groups import named
from drybuild.project.option import Option
from drybuild.project.sections import Section


class PanelArea(Section):
    """A panel measured by its owner."""

    area = reading("m²", "Area of its outside, both sides of the car together")


class Panels(Section):
    """The body's outside: areas and straightness."""

    areas = named(PanelArea, "Areas of single panels, by the names of the panel list")
    estimate = reading("-", "True area over that from outside dimensions", typical=True)
    inside_share = reading("-", "Jambs, edges and insides over the outer area", typical=True)
    shell_area = reading("m²", "Both sides of the bare shell's sheet", typical=True)
    waviness = reading("m", "Depth of the waves left after filling, on a 300 mm straight-edge")
    filled_share = reading("-", "Share of the outside that gets filler", typical=True, most=1.0)
    filler_thickness = reading("m", "Filler left where it is thickest", typical=True)
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
    nozzle = choice("Bore of the blasting nozzle in mm", "6.4", "7.9", "9.5", usual="6.4")
    cure_time = reading("s", "Clear coat through-dry at 20 °C, from its sheet", typical=True)
    shop_temperature = reading("K", "Temperature of the panels while it cures", typical=True)
    booth_width = reading("m", "Width of the spray place", typical=True)
    booth_height = reading("m", "Height of the spray place", typical=True)
    booth_airflow = reading("m³/s", "Air that its fan draws through it")
