"""Areas, litres, mass, filler and blasting of a finish, and how straight it asks panels to be."""

from __future__ import annotations

import numpy as np

from drybuild.errors import DoesNotApply
from drybuild.physics.paint import (
    allowed_waviness as waviness_allowed,
)
from drybuild.physics.paint import (
    blasting_time,
    cure_time,
    film_mass,
    fresnel_reflectance,
    paint_volume,
    reflection_contrast,
    spray_airflow,
)
from drybuild.project.body import Body
from drybuild.project.option import ask_where_changed
from drybuild.project.paint import Paint, Panels
from drybuild.project.samples import Values
from drybuild.quantities.quantity import Labelled, quantity
from drybuild.tables.paint import finish, materials, nozzle
from drybuild.tables.paint import panels as panel_list

CLEAR_INDEX = 1.5  # [-], refractive index of clear coats, usual text value
STRAIGHT_EDGE = 0.3  # [m], length of the straight-edge that waviness is told on
SPRAY_AIR_SPEED = 0.508  # [m/s], 100 ft/min: 29 CFR 1910.107(b)(5), as an OSHA letter tells it
ON_METAL = "epoxy primer"
SANDED = "surfacer"


@quantity(
    "m²", "Outside area of each panel, both sides together", source="common-practice", per="panel"
)
def panel_area(panels: Panels, body: Body) -> Labelled:
    """As measured, else a share of the body's outside dimensions."""
    sizes = {"width": body.width, "height": body.height}
    measured = panels.areas
    found = {
        name: one.coefficient
        * one.along
        * body.length
        * sizes[one.across]
        * one.count
        * panels.estimate
        for name, one in panel_list().items()
        if name not in measured
    }
    return {**found, **{name: one.area for name, one in measured.items()}}


@quantity("m²", "Outside area of the body", source="common-practice")
def outer_area(panel_area: Labelled) -> Values:
    """Add the panels up."""
    first, *rest = panel_area.values()
    return sum(rest, start=first)


@quantity("m²", "Area of a full refinish, with jambs and insides of lids", source="common-practice")
def painted_area(outer_area: Values, panels: Panels) -> Values:
    """Return the outside with the share for jambs, edges and insides."""
    return outer_area * (1.0 + panels.inside_share)


@quantity(
    "m³",
    "Paint of each material for a full refinish, ready to spray",
    source="coating-coverage",
    per="material",
    shown="l",
)
def paint_volume_needed(painted_area: Values, paint: Paint) -> Labelled:
    """Film over solids and transfer; surfacer for the film before it is sanded."""
    return {
        name: paint_volume(
            area=painted_area,
            dry_film=film,
            volume_solids=solids,
            transfer_efficiency=paint.transfer,
        )
        for name, (film, solids) in _coats(paint).items()
    }


@quantity("m³", "Paint for a full refinish, ready to spray", source="coating-coverage", shown="l")
def paint_volume_total(paint_volume_needed: Labelled) -> Values:
    """Add the materials up."""
    first, *rest = paint_volume_needed.values()
    return sum(rest, start=first)


@quantity(
    "m³", "Solvent and overspray that does not stay on the car", source="definition", shown="l"
)
def paint_lost(painted_area: Values, paint: Paint, paint_volume_total: Values) -> Values:
    """Return what is sprayed less the film that stays."""
    film = sum(film for film, _ in _coats(paint).values())
    return paint_volume_total - painted_area * film


@quantity("kg", "Mass of a full refinish, dry", source="coating-coverage")
def paint_mass(painted_area: Values, paint: Paint) -> Values:
    """Return film times density, with the sanded surfacer taken off."""
    mass = 0.0 * painted_area
    for name, (film, _) in _coats(paint).items():
        left = film * (1.0 - paint.sanded_share) if name == SANDED else film
        mass = mass + film_mass(
            area=painted_area, dry_film=left, dry_density=materials()[name].density
        )
    return mass


@quantity("m", "Dry film of clear coat", source="refinish-film-note", shown="µm")
def clear_coat_film(paint: Paint) -> Values:
    """Return the film as given, else the usual one."""
    _painting(paint, paint.has("clear_coat_film"))
    return paint.clear_coat_film


@quantity("m", "Dry film of all materials after sanding", source="definition", shown="µm")
def paint_film(paint: Paint) -> Values:
    """Add the films up, with the sanded surfacer taken off."""
    films = {name: film for name, (film, _) in _coats(paint).items()}
    films[SANDED] = films[SANDED] * (1.0 - paint.sanded_share)
    first, *rest = films.values()
    return sum(rest, start=first)


@quantity("m", "Filler where it is thickest", source="sheet-metal-forming-book", shown="mm")
def filler_thickness(panels: Panels, paint: Paint) -> Values:
    """Return the thickness as given, else the usual one."""
    _painting(paint, panels.has("filler_thickness"))
    return panels.filler_thickness


@quantity("m", "Spot putty where it is thickest", source="sheet-metal-forming-book", shown="mm")
def putty_thickness(panels: Panels) -> Values:
    """Return the thickness as given; putty is for pinholes."""
    if not panels.has("putty_thickness"):
        raise DoesNotApply(panels.path_of("putty_thickness"), "nobody says there is any")
    return panels.putty_thickness


@quantity("kg", "Mass of filler on the car", source="definition")
def filler_mass(outer_area: Values, panels: Panels) -> Values:
    """Return the filled share of the outside at its mean thickness."""
    return film_mass(
        area=outer_area * panels.filled_share,
        dry_film=panels.filler_mean,
        dry_density=panels.filler_density,
    )


@quantity("m²", "Area to be blasted for a full refinish", source="common-practice")
def blast_area(panels: Panels, paint: Paint) -> Values:
    """Both sides of the shell; nothing where the finish is stripped in another way or not."""
    blasted = paint.blasting in ("hard media", "soft media")
    return panels.shell_area * (1.0 if blasted else 0.0)


@quantity("s", "Time with the blasting nozzle open", source="abrasive-supplier", shown="h")
def blast_time(blast_area: Values, paint: Paint) -> Values:
    """Hard media on steel at 6.9 bar; soft media are slower."""
    return blasting_time(area=blast_area, rate=nozzle(paint.nozzle).rate)


@quantity("kg", "Blasting media that goes through the nozzle", source="abrasive-supplier")
def blast_media(blast_area: Values, paint: Paint) -> Values:
    """Return 24 kg for each square metre of steel with hard media."""
    return blast_area * nozzle(paint.nozzle).media_per_area


@quantity("m³/s", "Air that the blasting nozzle asks for", source="abrasive-supplier", shown="l/s")
def blast_air(paint: Paint) -> Values:
    """Return the free air at 6.9 bar for the nozzle chosen."""
    return np.array([nozzle(paint.nozzle).air])


@quantity("-", "Contrast of a mirrored edge in the finish", source="fresnel")
def finish_contrast(paint: Paint) -> Values:
    """From 0 (nothing is mirrored) to 1 (a black mirror): dark gloss shows most."""
    contrast = reflection_contrast(
        mirror=fresnel_reflectance(refractive_index=CLEAR_INDEX),
        gloss=finish("gloss", paint.gloss),
        body_reflectance=finish("colour", paint.colour),
    )
    return np.atleast_1d(contrast)


@quantity(
    "m", "Waves that the finish still hides, over 300 mm", source="common-practice", shown="mm"
)
def allowed_waviness(finish_contrast: Values, paint: Paint) -> Values:
    """Return a deeper wave for a finish that mirrors less."""
    return waviness_allowed(
        wave_length=STRAIGHT_EDGE, allowed_slope=paint.allowed_slope, contrast=finish_contrast
    )


@quantity("m", "Waves left in the panels, over 300 mm", source="the-build-file", shown="mm")
def panel_waviness(panels: Panels, paint: Paint) -> Values:
    """Return what a 300 mm straight-edge shows."""
    _painting(paint, panels.has("waviness"))
    return panels.waviness


@quantity("s", "Clear coat through-dry in the shop's air", source="common-practice", shown="h")
def clear_coat_cure(paint: Paint) -> Values:
    """Return the data sheet time, doubled for every 10 K less than 20 °C."""
    return cure_time(time_at_20_celsius=paint.cure_time, temperature=paint.shop_temperature)


@quantity("K", "Temperature of the panels in the shop", source="the-build-file", shown="°C")
def shop_temperature(paint: Paint) -> Values:
    """Return the temperature as given, else the usual one."""
    _painting(paint, paint.has("shop_temperature"))
    return paint.shop_temperature


@quantity("m³/s", "Air that sweeps the whole spray place", source="osha-spray")
def spray_air_needed(paint: Paint) -> Values:
    """Return cross-section times 100 ft/min."""
    return spray_airflow(width=paint.booth_width, height=paint.booth_height, speed=SPRAY_AIR_SPEED)


@quantity("m³/s", "Air that the spray place's fan draws", source="the-build-file")
def spray_air(paint: Paint) -> Values:
    """Return the airflow as given."""
    _painting(paint, paint.has("booth_airflow"))
    return paint.booth_airflow


def _painting(paint: Paint, given: bool) -> None:
    """Ask only where something is painted, or the answer is given anyway."""
    ask_where_changed(paint, given=given, why="the paint stays as it is")


def _coats(paint: Paint) -> dict[str, tuple[Values, Values]]:
    return {
        ON_METAL: (paint.epoxy_primer_film, paint.epoxy_primer_solids),
        SANDED: (paint.surfacer_film, paint.surfacer_solids),
        "base coat": (paint.base_coat_film, paint.base_coat_solids),
        "clear coat": (paint.clear_coat_film, paint.clear_coat_solids),
    }
