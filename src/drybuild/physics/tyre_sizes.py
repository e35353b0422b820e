"""Read a tyre's size as moulded on its sidewall, in the four systems a classic car meets."""

from __future__ import annotations

import math
import re
from dataclasses import dataclass
from enum import Enum

from drybuild.errors import InputError

INCH = 0.0254  # [m], exact
MILLIMETRE = 0.001  # [m]


class System(Enum):
    """How a size is written."""

    METRIC = "metric"
    FLOTATION = "flotation"
    NUMERIC = "numeric"
    LETTER = "letter"


class Construction(Enum):
    """How the plies run."""

    RADIAL = "radial"
    DIAGONAL = "diagonal"
    BELTED = "bias-belted"


@dataclass(frozen=True, kw_only=True)
class TyreSize:
    """A size as marked; what the marking does not say is None."""

    text: str
    """The designation without the service description, in its usual spelling."""
    system: System
    rim_code: float
    """Rim diameter code: inches. [in]"""
    construction: Construction
    section_width: float | None
    """Nominal section width; None for letter sizes, which only name a load. [m]"""
    aspect: float | None
    """Section height over section width; None where the size names no series. [-]"""
    stated_diameter: float | None
    """Outside diameter, where the size itself states it (flotation sizes). [m]"""
    load_letter: str | None
    service: str
    """Prefix: P, LT or nothing."""
    load_index: int | None
    speed_symbol: str | None
    extra_load: bool

    @property
    def rim_diameter(self) -> float:
        """Nominal rim diameter d of the standard. [m].

        Notes
        -----
        UN R30, 2.17.1.3: the code times 25.4 mm, rounded to a whole millimetre.

        """
        return _half_up(self.rim_code * 25.4) * MILLIMETRE


SPEED = r"(?P<speed>ZR|[A-HJ-NP-WYZ])"
SERVICE = r"(?:\s+\(?(?P<index>\d{2,3})(?:/\d{2,3})?\s*(?P<symbol>[A-HJ-NP-WY])?\)?)?"
EXTRA = r"(?:\s+(?P<extra>XL|EXTRA LOAD|REINFORCED|RF))?"
TAIL = SERVICE + EXTRA + r"\s*$"

METRIC = re.compile(
    r"^(?P<service>P|LT)?\s*(?P<width>\d{3})(?:\s*/\s*(?P<series>\d{2}))?\s*"
    r"(?P<build>[SHVTQ]?R|ZR|[SHVTQ]?B|D|-)\s*(?P<rim>\d{2}(?:\.5)?)C?" + TAIL
)
FLOTATION = re.compile(
    r"^(?P<service>LT)?\s*(?P<diameter>\d{2}(?:\.\d{1,2})?)\s*[X×]\s*(?P<width>\d{1,2}\.\d{1,2})\s*"
    r"(?P<build>R|B|D|-)\s*(?P<rim>\d{2}(?:\.5)?)(?:LT)?" + TAIL
)
NUMERIC = re.compile(
    r"^(?P<width>\d{1,2}\.\d{1,2})(?:\s*/\s*(?P<series>\d{2}))?\s*(?P<build>[SHV]?R|-|S-|H-|V-)\s*"
    r"(?P<rim>\d{2}(?:\.5)?)L?" + TAIL
)
LETTER = re.compile(
    r"^(?P<letter>[A-HJ-N])(?P<radial>R)?\s*(?P<series>\d{2})\s*(?P<build>-|R|B)?\s*"
    r"(?P<rim>\d{2})" + TAIL
)


def tyre_size(*, text: str) -> TyreSize:
    """Read a tyre size in any of the four systems.

    Parameters
    ----------
    text : str
        As marked: ``205/55 R 16 91V``, ``31x10.50R15 109S``, ``6.95-14``, ``155R13``,
        ``155SR13``, ``E70-14``. [-]

    Returns
    -------
    TyreSize
        What the marking says, and nothing that it does not say.

    Notes
    -----
    UN R30, 3.1, for metric sizes: width in millimetres, series, R or - or B, rim code, service
    description. A speed symbol inside the size (155SR13) is the practice before 1990.

    References
    ----------
    .. [1] UN Regulation No. 30, 02 series, par. 2.17, 3.1 and Annex 3.
    .. [2] The Tire and Rim Association Year Book, about 1970, for numeric and letter sizes.

    Raises
    ------
    InputError
        The text is no size in any of the four systems.

    """
    marked = re.sub(r"\s+", " ", text.strip().upper().replace("–", "-").replace("−", "-"))
    for pattern, build in (
        (FLOTATION, _flotation),
        (METRIC, _metric),
        (NUMERIC, _numeric),
        (LETTER, _letter),
    ):
        if found := pattern.match(marked):
            return build(found)
    raise InputError(
        f"text is {text!r}; it must be a tyre size like 205/55 R 16 91V, 155R13, "
        "31x10.50R15, 6.95-14 or E70-14"
    )


def _metric(found: re.Match[str]) -> TyreSize:
    build = found["build"]
    letter = "R" if "R" in build else ("B" if "B" in build else "-")
    series = f"/{found['series']}" if found["series"] else ""
    service = found["service"] or ""
    return TyreSize(
        text=f"{service}{found['width']}{series}{letter}{found['rim']}",
        system=System.METRIC,
        section_width=int(found["width"]) * MILLIMETRE,
        aspect=_aspect(found["series"]),
        stated_diameter=None,
        load_letter=None,
        service=service,
        rim_code=float(found["rim"]),
        construction=_construction(build),
        load_index=_index(found),
        speed_symbol=found["symbol"] or _embedded_speed(build),
        extra_load=found["extra"] is not None,
    )


def _flotation(found: re.Match[str]) -> TyreSize:
    letter = found["build"].replace("D", "-")
    return TyreSize(
        text=f"{found['diameter']}x{found['width']}{letter}{found['rim']}",
        system=System.FLOTATION,
        section_width=float(found["width"]) * INCH,
        aspect=None,
        stated_diameter=float(found["diameter"]) * INCH,
        load_letter=None,
        service="LT",
        rim_code=float(found["rim"]),
        construction=_construction(found["build"]),
        load_index=_index(found),
        speed_symbol=found["symbol"],
        extra_load=found["extra"] is not None,
    )


def _numeric(found: re.Match[str]) -> TyreSize:
    radial = "R" in found["build"]
    series = f"/{found['series']}" if found["series"] else ""
    return TyreSize(
        text=f"{found['width']}{series}{'R' if radial else '-'}{found['rim']}",
        system=System.NUMERIC,
        section_width=float(found["width"]) * INCH,
        aspect=_aspect(found["series"]),
        stated_diameter=None,
        load_letter=None,
        service="",
        rim_code=float(found["rim"]),
        construction=_construction(found["build"]),
        load_index=_index(found),
        speed_symbol=found["symbol"] or _embedded_speed(found["build"]),
        extra_load=found["extra"] is not None,
    )


def _letter(found: re.Match[str]) -> TyreSize:
    radial = found["radial"] is not None or found["build"] == "R"
    belted = found["build"] == "B"
    letter = found["letter"]
    return TyreSize(
        text=f"{letter}{'R' if radial else ''}{found['series']}-{found['rim']}",
        system=System.LETTER,
        section_width=None,
        aspect=_aspect(found["series"]),
        stated_diameter=None,
        load_letter=letter,
        service="",
        rim_code=float(found["rim"]),
        construction=_construction("R" if radial else ("B" if belted else "-")),
        load_index=_index(found),
        speed_symbol=found["symbol"],
        extra_load=found["extra"] is not None,
    )


def _aspect(series: str | None) -> float | None:
    return int(series) / 100.0 if series else None


def _index(found: re.Match[str]) -> int | None:
    return int(found["index"]) if found["index"] else None


def _construction(build: str) -> Construction:
    if "R" in build:
        return Construction.RADIAL
    return Construction.BELTED if "B" in build else Construction.DIAGONAL


def _embedded_speed(build: str) -> str | None:
    letters = build.replace("R", "").replace("B", "").replace("D", "").replace("-", "")
    return letters or None


def _half_up(value: float) -> int:
    """Round halves away from zero, as the standard does; Python's own rounds them to even."""
    return math.floor(value + 0.5)
