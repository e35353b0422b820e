"""The body survey: zone by zone what was seen and what may be found."""

from __future__ import annotations

from collections.abc import Iterator

from drybuild.book.figures import in_pages
from drybuild.book.pages import Block, Chapter, Figure, Section, Sheet, Words
from drybuild.book.sheets import cautions, figures, verdicts_of
from drybuild.present.body_survey import (
    skin_drawing,
    structure_drawing,
    survey_of,
    survey_words,
)
from drybuild.present.plots import shares_plot
from drybuild.project.condition import ZoneFinding
from drybuild.project.readings import Reading
from drybuild.session import Session
from drybuild.tables.condition import zones

ODDS = {
    "sound": "rust_sound_odds",
    "patch": "rust_patch_odds",
    "replace": "rust_replace_odds",
}
REPAIR = (
    "rust_repair_hours",
    "rust_repair_cost",
    "rust_sheet_area",
    "rust_zones_replaced",
    "rust_factor",
    "unprobed_share",
)
ROWS_A_FIGURE = 40


def condition_chapter(session: Session) -> Chapter:
    """Return the survey, the odds of each zone, and what they may cost."""
    blocks: list[Block] = [*cautions(session, "condition"), Section(title="Body")]
    blocks += [*_seen(session), *_drawn(session)]
    blocks += list(_odds(session))
    blocks += figures(session, "What rust may cost", REPAIR)
    blocks += verdicts_of(session, "The questions on the body", "condition")
    return Chapter(
        title="Body survey",
        intro="Damage is not known before the shell is stripped and laid bare. Until then each "
        "zone has odds: from the car's life, sharpened by all that was seen anywhere on it.",
        blocks=tuple(blocks),
    )


def _seen(session: Session) -> list[Block]:
    survey = session.build.tops["survey"].given
    life = [
        f"{words} {survey[name]}"
        for name, words in (
            ("climate", "climate"),
            ("storage", "stood"),
            ("repairs", "old repairs"),
            ("drains", "drain holes"),
            ("proofing", "proofing"),
        )
        if isinstance(survey.get(name), str)
    ]
    blocks: list[Block] = [Words(text=f"Its life: {', '.join(life)}.")] if life else []
    given = survey.get("zones")
    rows = [
        (
            name,
            str(one.given.get("found", "not known")),
            str(one.given.get("judged", "looked")),
            _noted(one),
        )
        for name, one in (given.items() if isinstance(given, dict) else ())
        if isinstance(one, ZoneFinding)
    ]
    if not rows:
        return [*blocks, Words(text="Nobody has looked at the body yet.")]
    return [
        *blocks,
        Sheet(
            title="What was seen so far",
            columns=("zone", "seems", "how judged", "note"),
            rows=tuple(rows),
            widths=(1.6, 0.9, 0.9, 2.6),
        ),
    ]


def _noted(one: ZoneFinding) -> str:
    gauge, note = one.given.get("thickness"), str(one.given.get("note", ""))
    read = f"gauge {gauge.text}" if isinstance(gauge, Reading) else ""
    return "; ".join(filter(None, (read, note)))


def _drawn(session: Session) -> Iterator[Block]:
    survey = survey_of(session.build)
    yield Figure(
        svg=skin_drawing(survey),
        caption="What was seen on the skin, unfolded; front to the left.",
        words=survey_words(survey),
        width=0.86,
    )
    yield Figure(
        svg=structure_drawing(survey),
        caption="What was seen of floor and frame; front to the left.",
        words="The zones of floor and frame, as in the list of what was seen.",
        width=0.86,
    )


def _odds(session: Session) -> Iterator[Block]:
    results = {word: session.quantities[name] for word, name in ODDS.items()}
    if any(one.open for one in results.values()):
        return
    odds = {
        word: {zone: float(v[0]) for zone, v in one.labelled().items()}
        for word, one in results.items()
    }
    rows = zones(session.build.zone_kind)
    ranked = sorted(odds["replace"], key=lambda zone: -odds["replace"][zone])
    for start, shown in in_pages(ranked, ROWS_A_FIGURE):
        svg = shares_plot(
            shown,
            {word: [by_zone[zone] for zone in shown] for word, by_zone in odds.items()},
            x_label="odds",
            bold=[rows[zone].carries for zone in shown],
        )
        words = "; ".join(f"{zone}: replace {odds['replace'][zone] * 100:.0f} %" for zone in shown)
        more = ", going on" if start else ""
        yield Figure(
            svg=svg,
            caption=f"Odds of each zone, worst first{more}. Bold: it carries load, suspension, "
            "seats or belts.",
            words=words,
        )
