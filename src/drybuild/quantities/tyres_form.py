"""What a tyre size says of a tyre's form, from the standard's formula or the printed lists."""

from __future__ import annotations

from dataclasses import dataclass

from drybuild.errors import TableError
from drybuild.physics.tyre_sizes import INCH, Construction, System, TyreSize, tyre_size
from drybuild.physics.tyres import outside_diameter, section_height
from drybuild.tables.tyres import (
    UNSTATED_ASPECT,
    highest_speed,
    letter_load_capacity,
    listed_size,
    load_capacity,
    measuring_rim_ratio,
    metric_equivalent,
)


@dataclass(frozen=True, kw_only=True)
class TyreForm:
    """The nominal form of a tyre of some size."""

    size: TyreSize
    outside_diameter: float
    """[m]"""
    section_width: float
    """On the measuring rim. [m]"""
    measuring_rim_width: float
    """[m]"""

    @property
    def rim_diameter(self) -> float:
        """Nominal rim diameter of the standard. [m]."""
        return self.size.rim_diameter

    @property
    def section_height(self) -> float:
        """[m]."""
        return (self.outside_diameter - self.rim_diameter) / 2.0

    @property
    def aspect(self) -> float:
        """Section height over section width, as marked or as it comes out. [-]."""
        return self.size.aspect or self.section_height / self.section_width

    @property
    def load_capacity(self) -> float | None:
        """Load that the marking rates it for, if it does. [kg]."""
        if self.size.load_index is not None:
            return load_capacity(self.size.load_index)
        if self.size.load_letter is not None:
            return letter_load_capacity(self.size.load_letter)
        return None

    @property
    def speed_rating(self) -> float | None:
        """Speed that the marking rates it for, if it does. [m/s]."""
        return highest_speed(self.size.speed_symbol) if self.size.speed_symbol else None

    @property
    def radial(self) -> bool:
        """Whether its plies run radially."""
        return self.size.construction is Construction.RADIAL


def tyre_form(text: str) -> TyreForm:
    """Return the form of a tyre size.

    Raises
    ------
    TableError
        The size names no series, and no list has it.

    """
    size = tyre_size(text=text)
    listed = listed_size(size.text)
    if listed is not None:
        return TyreForm(
            size=size,
            outside_diameter=listed.outside_diameter,
            section_width=listed.section_width,
            measuring_rim_width=listed.measuring_rim_width,
        )
    if size.stated_diameter is not None and size.section_width is not None:
        return _formed(size, size.section_width, size.stated_diameter)
    if (size.system is System.NUMERIC and size.aspect is None) or size.section_width is None:
        return _interchanged(size)
    aspect = size.aspect or UNSTATED_ASPECT
    height = float(section_height(section_width=size.section_width, aspect=aspect))
    diameter = outside_diameter(rim_diameter=size.rim_diameter, section_height=height)
    return _formed(size, size.section_width, float(diameter))


def _interchanged(size: TyreSize) -> TyreForm:
    metric = metric_equivalent(size.text.replace("R", "", 1) if size.load_letter else size.text)
    if metric is None:
        raise TableError(
            f"no list has the size {size.text}: measure outside_diameter, section_width and "
            "load_capacity of the tyre"
        )
    like = tyre_form(metric)
    return TyreForm(
        size=size,
        outside_diameter=like.outside_diameter,
        section_width=like.section_width,
        measuring_rim_width=like.measuring_rim_width,
    )


def _formed(size: TyreSize, width: float, diameter: float) -> TyreForm:
    aspect = size.aspect or (diameter - size.rim_diameter) / 2.0 / width
    # Rims come in half inches.
    rim = round(measuring_rim_ratio(aspect) * width / INCH * 2.0) / 2.0 * INCH
    return TyreForm(
        size=size, outside_diameter=diameter, section_width=width, measuring_rim_width=rim
    )
