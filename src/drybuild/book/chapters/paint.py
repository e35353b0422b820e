"""The paint sheet: gaps, straightness, filler, stripping by panel, tins, stages, air, hazards."""

from __future__ import annotations

import math

import numpy as np

from drybuild.book.pages import Block, Chapter, Figure, Section, Sheet
from drybuild.book.sheets import by_label, cautions, figures, verdicts_of
from drybuild.physics.paint import (
    allowed_waviness,
    fresnel_reflectance,
    reflection_contrast,
    tins_for,
)
from drybuild.present.numbers import with_minus
from drybuild.present.plots import bars_plot
from drybuild.project.paint import Paint
from drybuild.quantities.paint import CLEAR_INDEX, STRAIGHT_EDGE
from drybuild.quantities.paint_panels import joint_of
from drybuild.session import Session
from drybuild.tables.paint import finish, finishes, hazards, limit_of, nozzle
from drybuild.tables.paint_shop import fillers, joints, media, mixes

SURFACE = (
    "outer_area",
    "painted_area",
    "paint_volume_total",
    "paint_lost",
    "paint_mass",
    "paint_film",
    "clear_coat_film",
    "filler_mass",
    "filler_thickness",
    "panel_waviness",
    "allowed_waviness",
)
SHOP = (
    "paint_cure_factor",
    "clear_coat_cure",
    "shop_temperature",
    "spray_air",
    "spray_air_needed",
    "spray_clearance",
)
BLAST = ("blast_area", "blast_time", "blast_media", "blast_air", "hard_blasted_skin")
EDGES = ("pillars and sills",)
"""Panels that are no flat skins."""
SPARE = 1.1
"""What is bought of thinner and hardener beyond the sum; common practice."""


def paint_chapter(session: Session) -> Chapter:
    """Return everything that a finish asks, from bare panels to polish."""
    blocks: list[Block] = [*cautions(session, "paint"), Section(title="Gaps and steps")]
    blocks += [_gaps(session), Section(title="Straightness and filler")]
    blocks += [_straight(session), _fillers()]
    blocks += [Section(title="Stripping"), *_stripping(session), _media()]
    blocks += figures(session, "Blasting the whole shell", BLAST)
    blocks += [Section(title="Materials"), *figures(session, "Quantities", SURFACE)]
    blocks += by_label(
        session, "Ready to spray", "material", {"volume": "paint_volume_needed"}, bands=True,
        widths=(1.0, 2.0),
    )  # fmt: skip
    blocks += [*_tins(session), Section(title="In the spray place"), *_stages(session)]
    blocks += figures(session, "Air and warmth", SHOP)
    blocks += [_harm(), *verdicts_of(session, "The questions on panels and paint", "paint")]
    return Chapter(
        title="Panels and paint",
        intro="Gaps and flats are made in metal, before any paint; the finish only shows them. "
        "Quantities follow from areas, films and what lands on the car.",
        blocks=tuple(blocks),
    )


def _gaps(session: Session) -> Sheet:
    panels = session.build.car["panels"]
    given = panels.given.get("joints")
    measured = given if isinstance(given, dict) else {}
    rows = []
    for name in dict.fromkeys((*measured, *(j for j in joints() if not _told_of(j, measured)))):
        row = joint_of(name)
        ends = measured[name].given if name in measured else {}
        told = [f"{ends[e].value * 1e3:.1f}" if e in ends else "" for e in ("start", "end", "step")]
        rows.append(
            (
                name,
                f"{row.gap[1] * 1e3:g} ({row.gap[0] * 1e3:g} to {row.gap[2] * 1e3:g})",
                f"{row.taper * 1e3:g}",
                with_minus(f"{row.flush[0] * 1e3:+g} to {row.flush[1] * 1e3:+g}"),
                " / ".join(told) if any(told) else "",
                "",
            )
        )
    return Sheet(
        title="Gaps and steps, in mm",
        columns=("joint", "gap (band)", "taper", "step", "entered: ends / step", "now"),
        rows=tuple(rows),
        widths=(2.0, 1.2, 0.6, 1.1, 1.3, 1.0),
        to_write=True,
        note="Step: the first panel above the second. Common practice, no source: cars of the time "
        "left the works between 2.3 and 3.9 mm (trade article); even gaps matter more than narrow "
        "ones.",
    )


def _told_of(joint: str, measured: dict[str, object]) -> bool:
    return any(name.startswith(joint) for name in measured)


def _straight(session: Session) -> Sheet:
    """Return the wave that each finish still hides; the picked one is marked."""
    picked = session.evaluation.result("finish_contrast")
    paint = _paint(session)
    colour, gloss = _word(paint, "colour", "mid"), _word(paint, "gloss", "gloss")
    mirror = fresnel_reflectance(refractive_index=CLEAR_INDEX)
    slope = session.evaluation.result("allowed_waviness")
    seen = 1.0
    if not (picked.open or slope.open):
        seen = float(slope.value[0] * picked.value[0] * math.pi / STRAIGHT_EDGE)
    rows = []
    for shade in finishes("colour"):
        cells = []
        for shine in finishes("gloss"):
            depth = allowed_waviness(
                wave_length=STRAIGHT_EDGE,
                allowed_slope=seen if seen < 1.0 else 1e-3,
                contrast=reflection_contrast(
                    mirror=mirror,
                    gloss=finish("gloss", shine),
                    body_reflectance=finish("colour", shade),
                ),
            )
            mark = " ◂ this finish" if (shade, shine) == (colour, gloss) else ""
            cells.append(f"{float(depth) * 1e3:.2f} mm{mark}")
        rows.append((shade, *cells))
    return Sheet(
        title="The deepest wave over 300 mm that a finish still hides",
        columns=("colour", *finishes("gloss")),
        rows=tuple(rows),
        note="By the contrast of a mirrored edge; order of size. Dark gloss shows most.",
    )


def _fillers() -> Sheet:
    return Sheet(
        title="Fillers: never structural",
        columns=("filler", "at most", "how"),
        rows=tuple(
            (name, f"{one.thickest * 1e3:g} mm", one.words) for name, one in fillers().items()
        ),
        numeric=(1,),
        widths=(1.2, 0.7, 3.4),
        note="Limits: Automotive Sheet Metal Forming & Fabrication, chapter on filler.",
    )


def _stripping(session: Session) -> list[Block]:
    result = session.quantities["panel_area"]
    if result.open:
        return []
    rate = nozzle(_word(_paint(session), "nozzle", "6.4"))
    areas = {name: float(values[0]) for name, values in result.labelled().items()}
    skins = [name for name in areas if name not in EDGES]
    rows = tuple(
        (
            name,
            f"{area:.1f} m²",
            "plastic, starch or soda; by hand" if name in skins else "crushed glass; plastic",
            f"{area / rate.rate / 60.0:.0f} min",
            f"{area * rate.media_per_area:.0f} kg",
        )
        for name, area in areas.items()
    )
    share = bars_plot(
        list(areas),
        list(areas.values()),
        x_label="outside, both sides together [m²]",
        texts=[f"{area:.1f}" for area in areas.values()],
    )
    return [
        Figure(
            svg=share,
            caption="Where the outside lies, both sides together.",
            words="; ".join(f"{name} {area:.1f} m²" for name, area in areas.items()),
            width=0.8,
        ),
        Sheet(
            title="By panel, one side of the sheet",
            columns=("panel", "area", "strip by", "nozzle open", "media"),
            rows=rows,
            numeric=(1, 3, 4),
            widths=(1.5, 0.8, 2.2, 0.9, 0.8),
            note="Times and media are those of hard media on steel at 6.9 bar (supplier's table); "
            "soft media take two to four times as long (common practice). Rails, floor and rust: "
            "crushed glass or finer; then epoxy primer the same day.",
        ),
    ]


def _media() -> Sheet:
    def tick(right: bool) -> str:
        return "yes" if right else "no"

    return Sheet(
        title="What may strip what",
        columns=("by", "Mohs", "takes rust", "flat skins", "structure", "aluminium", "mind"),
        rows=tuple(
            (
                name, one.hardness, tick(one.takes_rust), tick(one.skins), tick(one.structure),
                tick(one.aluminium), one.words,
            )
            for name, one in media().items()
        ),
        widths=(1.1, 0.5, 0.7, 0.7, 0.8, 0.8, 3.4),
    )  # fmt: skip


def _tins(session: Session) -> list[Block]:
    result = session.quantities["paint_to_buy"]
    if result.open:
        return []
    rows = []
    for name, values in result.labelled().items():
        material, _, part = name.partition(": ")
        need = float(values[0]) * (SPARE if part else 1.0)
        sizes = mixes()[material].tins if not part else (0.5e-3, 1e-3, 2.5e-3, 5e-3)
        tins = tins_for(volume=need, sizes=sizes)
        told = [f"{n} × {s * 1e3:g} l" for n, s in zip(tins, sizes, strict=True) if n]
        bought = float(np.dot(tins, sizes))
        rows.append((name, f"{need * 1e3:.1f} l", " + ".join(told), f"{bought * 1e3:g} l", ""))
    return [
        Sheet(
            title="Shopping list",
            columns=("component", "needed", "tins", "bought", "price"),
            rows=tuple(rows),
            numeric=(1, 3),
            widths=(1.8, 0.8, 1.6, 0.8, 1.0),
            to_write=True,
            note="Enough in eight cases of ten; hardener and thinner with a tenth to spare. Mixing "
            "ratios are common practice: the data sheet of the material decides, and hardener, "
            "thinner and paint come from one maker.",
        )
    ]


def _stages(session: Session) -> list[Block]:
    columns = {"in the spray place": "paint_stage_time", "then wait": "paint_stage_cure"}
    note = "; ".join(
        f"{name}: {one.coats} coats, {one.flash / 60:.0f} min apart at 20 °C"
        for name, one in mixes().items()
    )
    return by_label(
        session, "Stages at the shop's temperature", "material", columns, bands=True,
        widths=(1.2, 2.0, 2.0), note=f"{note} (common practice; the data sheet decides).",
    )  # fmt: skip


def _harm() -> Sheet:
    return Sheet(
        title="What harms, and its limit",
        columns=("agent", "limit and what to do"),
        rows=tuple(
            (one, limit_of(one).partition(" (")[2].replace("): ", ": ")) for one in hazards()
        ),
        widths=(1.0, 4.0),
        note="Limits differ by country and change: ask for those where you are.",
    )


def _paint(session: Session) -> Paint | None:
    name = session.build.assumed_picks().get("paint")
    found = session.build.options["paint"].get(name) if name else None
    return found if isinstance(found, Paint) else None


def _word(paint: Paint | None, name: str, usual: str) -> str:
    found = paint.given.get(name) if paint else None
    return found if isinstance(found, str) else usual
