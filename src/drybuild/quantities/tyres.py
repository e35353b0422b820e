"""Tyres: size, load, speed, radii, and whether they suit the wheels."""

from __future__ import annotations

from dataclasses import dataclass

from drybuild.errors import MissingInput
from drybuild.physics import tyres as physics
from drybuild.physics.tyre_sizes import INCH
from drybuild.project.brief import Brief
from drybuild.project.option import ask_where_changed
from drybuild.project.samples import Values
from drybuild.project.tyres import Tyres
from drybuild.project.wheels import Wheels
from drybuild.quantities.axles import AXLES, FRONT, REAR, both_axles, constant, each_axle
from drybuild.quantities.quantity import Labelled, quantity, step
from drybuild.quantities.tyres_form import TyreForm, tyre_form
from drybuild.tables.tyres import measuring_rim_ratio, rim_width_range

Forms = dict[str, TyreForm | None]
"""Form of the tyre of each axle; None where no size is given."""
RADIAL_GROWTH, DIAGONAL_GROWTH = 1.04, 1.08  # [-], UN R30 6.1.5, from memory
RIM_STEP = 0.25 * INCH
"""Rims come in half inches; a limit between two steps belongs to the nearer one."""


@dataclass(frozen=True, kw_only=True)
class TyreShape:
    """A tyre as it stands in the build, on both axles."""

    rim_diameter: Labelled
    outside_diameter: Labelled
    section_width: Labelled
    """On the measuring rim. [m]"""
    measuring_rim_width: Labelled


@step("Form of the tyres as their sizes say", source="un-r30")
def tyre_forms(tyres: Tyres) -> Forms:
    """Read the sizes; None where there is none."""
    front = tyre_form(tyres.size) if tyres.has("size") else None
    rear = tyre_form(tyres.rear_size) if tyres.has("rear_size") else front
    return {FRONT: front, REAR: rear}


@quantity("m", "Outside diameter of the tyre", per="axle", source="un-r30", shown="mm")
def tyre_outside_diameter(tyre_forms: Forms, tyres: Tyres) -> Labelled:
    """Take it new and unloaded: as measured, else as the size says, else a usual one."""
    return _known(tyres, "outside_diameter", tyre_forms)


@step("Shape of the tyres: measured, else as the size says, else typical", source="un-r30")
def tyre_shape(
    tyre_forms: Forms, tyres: Tyres, tyre_outside_diameter: Labelled, wheel_diameter: Labelled
) -> TyreShape:
    """Gather what is known of both tyres."""
    width = _known(tyres, "section_width", tyre_forms)

    def rim(axle: str) -> Values:
        form = tyre_forms[axle]
        return constant(form.rim_diameter) if form else wheel_diameter[axle]

    def measuring_rim(axle: str) -> Values:
        form = tyre_forms[axle]
        if form:
            return constant(form.measuring_rim_width)
        height = (tyre_outside_diameter[axle] - wheel_diameter[axle]) / 2.0
        return measuring_rim_ratio(float(height[0] / width[axle][0])) * width[axle]

    return TyreShape(
        rim_diameter=each_axle(rim),
        outside_diameter=tyre_outside_diameter,
        section_width=width,
        measuring_rim_width=each_axle(measuring_rim),
    )


@quantity("m", "Section width of the tyre on its rim", per="axle", source="un-r30", shown="mm")
def tyre_section_width(tyre_shape: TyreShape, wheel_width: Labelled) -> Labelled:
    """Widest width as fitted: 5 mm more for each half inch of rim."""
    return each_axle(
        lambda axle: physics.section_width_on_rim(
            section_width=tyre_shape.section_width[axle],
            measuring_rim_width=tyre_shape.measuring_rim_width[axle],
            rim_width=wheel_width[axle],
        )
    )


@quantity("m", "Section height of the tyre", per="axle", source="un-r30", shown="mm")
def tyre_section_height(tyre_shape: TyreShape) -> Labelled:
    """From the rim's nominal diameter to the tread."""
    return each_axle(
        lambda axle: (tyre_shape.outside_diameter[axle] - tyre_shape.rim_diameter[axle]) / 2.0
    )


@quantity("m", "Largest diameter the standard allows", per="axle", source="un-r30", shown="mm")
def tyre_largest_diameter(tyre_forms: Forms, tyre_shape: TyreShape) -> Labelled:
    """Allow for another maker's tyre of the same size: the arch must clear it too."""

    def largest(axle: str) -> Values:
        form, rim = tyre_forms[axle], tyre_shape.rim_diameter[axle]
        return physics.largest_outside_diameter(
            rim_diameter=rim,
            section_height=(tyre_shape.outside_diameter[axle] - rim) / 2.0,
            growth_factor=RADIAL_GROWTH if form is None or form.radial else DIAGONAL_GROWTH,
        )

    return each_axle(largest)


@quantity("kg", "Load that one tyre is rated for", per="axle", source="iso-4000-1")
def tyre_load_capacity(tyre_forms: Forms, tyres: Tyres) -> Labelled:
    """By the load index or load letter; without either, what the file or the trade says."""
    return _rated(tyres, "load_capacity", tyre_forms)


@quantity(
    "m/s",
    "Speed the tyres are rated for",
    per="axle",
    source="speed-symbols-reprint",
    shown="km/h",
)
def tyre_speed_rating(tyre_forms: Forms, tyres: Tyres) -> Labelled:
    """By the speed symbol; without one, what the file or the trade says."""
    found = {}
    for axle in AXLES:
        form = tyre_forms[axle]
        rated = None if tyres.has("speed_rating") or form is None else form.speed_rating
        found[axle] = tyres.speed_rating if rated is None else constant(rated)
    return found


@quantity("m", "Road covered in one turn of the wheel", per="axle", source="etrto-standards-manual")
def rolling_circumference(tyre_outside_diameter: Labelled, tyre_forms: Forms) -> Labelled:
    """At 60 km/h under load."""

    def rolled(axle: str) -> Values:
        form = tyre_forms[axle]
        radial = form is None or form.radial
        return physics.rolling_circumference(
            outside_diameter=tyre_outside_diameter[axle],
            rolling_factor=(
                physics.ROLLING_FACTOR_RADIAL if radial else physics.ROLLING_FACTOR_DIAGONAL
            ),
        )

    return each_axle(rolled)


@quantity("m", "Rolling radius", per="axle", source="etrto-standards-manual", shown="mm")
def rolling_radius(rolling_circumference: Labelled) -> Labelled:
    """Of the rigid wheel that would roll as far."""
    return each_axle(
        lambda axle: physics.rolling_radius(rolling_circumference=rolling_circumference[axle])
    )


@quantity(
    "m", "Height of the wheel centre, standing", per="axle", source="reimpell-chassis", shown="mm"
)
def static_radius(tyre_shape: TyreShape, tyre_section_height: Labelled, tyres: Tyres) -> Labelled:
    """Stand the loaded tyre on the road: the static radius."""
    return each_axle(
        lambda axle: physics.standing_radius(
            rim_diameter=tyre_shape.rim_diameter[axle],
            section_height=tyre_section_height[axle],
            height_share=tyres.height_share,
        )
    )


@quantity("1/m", "Turns of the wheel on the road", per="axle", source="definition", shown="1/km")
def revs_per_km(rolling_circumference: Labelled) -> Labelled:
    """Count the turns in a kilometre."""
    return each_axle(
        lambda axle: physics.turns_per_length(rolling_circumference=rolling_circumference[axle])
    )


@quantity("-", "Rear tyres' rolling circumference over the front's", source="definition")
def rolling_circumference_ratio(rolling_circumference: Labelled) -> Values:
    """One for four alike."""
    return rolling_circumference[REAR] / rolling_circumference[FRONT]


@quantity("m/s", "Speed the tyres must be rated for", source="the-build-file", shown="km/h")
def tyre_speed_needed(brief: Brief) -> Values:
    """Take the brief's usual speed on a fast road; codes may ask for the car's top speed."""
    return brief.cruise_speed


@quantity("kg", "Load to spare on the axle's two tyres, laden", per="axle", source="iso-4000-1")
def tyre_load_margin(tyre_load_capacity: Labelled, laden_axle_load: Labelled) -> Labelled:
    """Both tyres' rated load less the axle's."""
    return each_axle(lambda axle: 2.0 * tyre_load_capacity[axle] - laden_axle_load[axle])


@quantity(
    "Pa",
    "Least cold pressure for the laden axle",
    per="axle",
    source="etrto-passenger-pages",
    shown="kPa",
)
def tyre_pressure_needed(
    tyre_load_capacity: Labelled, laden_axle_load: Labelled, tyres: Tyres
) -> Labelled:
    """By load alone; the car maker's or tyre maker's table comes first."""
    return each_axle(
        lambda axle: physics.pressure_for_load(
            load=laden_axle_load[axle] / 2.0,
            capacity=tyre_load_capacity[axle],
            reference_pressure=tyres.reference_pressure,
            exponent=tyres.pressure_exponent,
        )
    )


@quantity("Pa", "Cold tyre pressure", per="axle", source="the-build-file", shown="kPa")
def tyre_pressure(tyres: Tyres) -> Labelled:
    """As set."""
    return {FRONT: tyres.pressure, REAR: tyres.rear_pressure}


@quantity(
    "m", "Least rim width for the tyre", per="axle", source="etrto-standards-manual", shown="in"
)
def least_rim_width(tyre_forms: Forms, tyre_shape: TyreShape) -> Labelled:
    """By the usual share of the section width; the tyre maker's list decides."""
    return _rim_limit(tyre_forms, tyre_shape, 0, -RIM_STEP)


@quantity(
    "m", "Largest rim width for the tyre", per="axle", source="etrto-standards-manual", shown="in"
)
def largest_rim_width(tyre_forms: Forms, tyre_shape: TyreShape) -> Labelled:
    """By the usual share of the section width; the tyre maker's list decides."""
    return _rim_limit(tyre_forms, tyre_shape, 1, RIM_STEP)


@quantity("m", "Tyre's rim diameter less the wheel's", per="axle", source="un-r30", shown="in")
def tyre_rim_mismatch(tyre_forms: Forms, wheels: Wheels, tyres: Tyres) -> Labelled:
    """Zero when the tyre belongs on the wheel."""
    known = wheels.has("diameter") and tyres.has("size")
    ask_where_changed(wheels, tyres, given=known, why="the tyres stay on their wheels")
    if not wheels.has("diameter"):
        raise MissingInput(wheels.path_of("diameter"), "the wheels' nominal diameter is not given")
    diameter = both_axles(wheels, "diameter")

    def mismatch(axle: str) -> Values:
        form = tyre_forms[axle]
        if form is None:
            raise MissingInput("options.tyres.size", "the tyres' size is not given")
        return form.size.rim_code * INCH - diameter[axle]

    return each_axle(mismatch)


def _rim_limit(forms: Forms, shape: TyreShape, which: int, step_to_rim: float) -> Labelled:
    def limit(axle: str) -> Values:
        form, width = forms[axle], shape.section_width[axle]
        height = (shape.outside_diameter[axle] - shape.rim_diameter[axle]) / 2.0
        aspect = form.aspect if form else float(height[0] / width[0])
        return rim_width_range(aspect)[which] * width + step_to_rim

    return each_axle(limit)


def _known(tyres: Tyres, name: str, forms: Forms) -> Labelled:
    """Return measured values first, then the size's, then the typical range."""
    found: Labelled = {}
    for axle, entry in ((FRONT, name), (REAR, f"rear_{name}")):
        form = forms[axle]
        if tyres.has(entry):
            found[axle] = getattr(tyres, entry)
        elif axle == REAR and not tyres.has("rear_size"):
            found[axle] = found[FRONT]
        elif form is not None:
            found[axle] = constant(getattr(form, name))
        else:
            found[axle] = getattr(tyres, name)
    return found


def _rated(tyres: Tyres, name: str, forms: Forms) -> Labelled:
    found: Labelled = {}
    for axle, entry in ((FRONT, name), (REAR, f"rear_{name}")):
        form = forms[axle]
        rated = getattr(form, name) if form else None
        if tyres.has(entry):
            found[axle] = getattr(tyres, entry)
        elif axle == REAR and not tyres.has("rear_size"):
            found[axle] = found[FRONT]
        else:
            found[axle] = getattr(tyres, name) if rated is None else constant(rated)
    return found
