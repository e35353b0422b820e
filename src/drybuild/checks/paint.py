"""Filler, film, straight panels, and air for the painter."""

from __future__ import annotations

from drybuild.checks.check import Check
from drybuild.tables.paint import limit_of
from drybuild.tables.paint_shop import fillers

SPRAY = (
    f"{limit_of('isocyanates')} A proper booth and its clearance time belong to it; leave it to a "
    "licensed sprayer where you have none."
)
DUST = (
    f"{limit_of('lead')} {limit_of('respirable silica')} {limit_of('asbestos')} Wet methods, "
    "extraction, a fitted mask; local codes decide."
)

CHECKS = (
    Check(
        id="paint.filler",
        asks="Is the filler thin enough to stay on?",
        quantity="filler_thickness",
        at_most="3.2 mm",
        source="sheet-metal-forming-book",
        caution=DUST,
        mend="Raise the metal first; filler is for the last millimetres and never structural.",
    ),
    Check(
        id="paint.putty",
        asks="Is the spot putty thin enough?",
        quantity="putty_thickness",
        at_most=f"{fillers()['spot putty'].thickest * 1e3:g} mm",
        source="sheet-metal-forming-book",
        caution=DUST,
        mend="Dig it out and fill with polyester; putty is for pinholes and scratches.",
    ),
    Check(
        id="paint.blasted-skins",
        asks="Are the flat outer skins spared from hard media?",
        quantity="hard_blasted_skin",
        at_most="0 m²",
        source="blasting-trade-article",
        caution=DUST,
        mend="Strip bonnet, roof, doors and wings by plastic, starch or soda media, or by hand; "
        "hard media only on floor, rails and where rust is. Then say spare_skins: true.",
        advice=True,
    ),
    Check(
        id="paint.gaps",
        asks="Are the panels' gaps within their bands?",
        quantity="panel_gap_room",
        at_least="0 mm",
        caution=DUST,
        mend="Set hinges and wings before paint; where no hinge helps, the shell is out: "
        "look at the datum sheet.",
        advice=True,
    ),
    Check(
        id="paint.gap-taper",
        asks="Are the gaps as wide at one end as at the other?",
        quantity="panel_taper_room",
        at_least="0 mm",
        caution=DUST,
        mend="Turn the panel on its hinges; then let in or take off metal along its edge.",
        advice=True,
    ),
    Check(
        id="paint.steps",
        asks="Do neighbouring panels lie flush?",
        quantity="panel_step_room",
        at_least="0 mm",
        caution=DUST,
        mend="Shim hinges, latches and wing bolts; never fill a step.",
        advice=True,
    ),
    Check(
        id="paint.clear-film",
        asks="Is the clear coat neither too thin nor too thick?",
        quantity="clear_coat_film",
        at_least="50 µm",
        at_most="76 µm",
        source="refinish-film-note",
        caution=SPRAY,
        mend="Two even wet coats; measure them with a wet-film comb.",
    ),
    Check(
        id="paint.straightness",
        asks="Are the panels straight enough for the finish?",
        quantity="panel_waviness",
        at_most="allowed_waviness",
        caution=DUST,
        mend="Block down further, or choose a lighter or duller finish: dark gloss shows most.",
        advice=True,
    ),
    Check(
        id="paint.shop-warmth",
        asks="Is the shop warm enough for filler and paint to cure?",
        quantity="shop_temperature",
        at_least="18 °C",
        source="filler-practice",
        caution=SPRAY,
        mend="Warm the panels, not just the air; no open flame near solvent.",
        advice=True,
    ),
    Check(
        id="paint.spray-air",
        asks="Does the fan sweep the whole spray place?",
        quantity="spray_air",
        at_least="spray_air_needed",
        source="osha-spray",
        caution=SPRAY,
        mend="A stronger fan with filters, a smaller place, or a hired booth.",
    ),
)
