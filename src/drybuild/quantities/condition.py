"""The body's survey: odds of each zone, hours, money and sheet that repairs will take."""

from __future__ import annotations

import numpy as np

from drybuild.physics.condition import (
    GRADES,
    Belief,
    Discovery,
    Zone,
    believe,
    draw_grades,
    expected_three_point,
    left_over_loading,
    seam_length,
    shifted_odds,
    thickness_likelihood,
)
from drybuild.project.body import Body
from drybuild.project.condition import Survey, ZoneFinding
from drybuild.project.samples import Values, normal_scores
from drybuild.quantities.quantity import Labelled, quantity, step
from drybuild.tables.condition import Life, ZoneRow, left_by_state, life_of, look, zones

PATCH_SHARE = 0.25  # [-], sheet of a patch over that of the whole zone; common practice
CAUTION = (
    "Cutting and welding a body: prop it, disconnect the battery, keep fuel away, watch for fire; "
    "old paint and solder hold lead, underseal may hold asbestos. Licensed practice decides on "
    "structure and belt mounts."
)
NEW_SHEET = 0.08  # [-], deviation of a sheet's thickness when new from the list's; common practice
STEEL = 7850.0  # [kg/m³], usual text value
SURE = ("probed", "blasted", "measured")


@step("What is believed of every zone", source="bayes")
def body_belief(body: Body, survey: Survey) -> Belief:
    """Odds for the car's life, sharpened by everything that was seen anywhere on it."""
    findings = survey.zones
    life = _life(survey)
    rows = zones(body.zone_kind)
    odds = np.stack(
        shifted_odds(
            patch=[row.patch for row in rows.values()],
            replace=[row.replace for row in rows.values()],
            shift=[sum(one.on(row) for one in life) for row in rows.values()],
        ),
        axis=-1,
    ).tolist()
    prior = []
    for (name, row), (sound, patch, replace) in zip(rows.items(), odds, strict=True):
        seen = _seen(findings[name], row) if name in findings else (1.0, 1.0, 1.0)
        prior.append(
            Zone(
                name=name,
                odds=(sound, patch, replace),
                loading=row.loading,
                link=row.link,
                link_loading=row.link_loading,
                seen=seen,
            )
        )
    return believe(zones=prior)


@step("Discoveries that the work plan has to reckon with", source="factor-copula")
def discoveries(body_belief: Belief, body: Body, survey: Survey) -> tuple[Discovery, ...]:
    """One a zone: odds as believed now, hours and cost at the owner's pace and prices."""
    pace, sheet = float(survey.pace[0]), float(survey.sheet_price[0])
    consumables = float(survey.consumables[0])
    jobs = {"strip": survey.strip_job or "strip", "blast": survey.blast_job or "blast"}
    found = []
    for name, row in zones(body.zone_kind).items():
        hours = {grade: hours_of(row, grade, pace) for grade in GRADES}
        found.append(
            Discovery(
                name=name,
                odds=dict(zip(GRADES, body_belief.odds[name], strict=True)),
                loading=left_over_loading(
                    loading=row.loading, factor_sd=min(1.0, body_belief.factor_sd)
                ),
                link=row.link,
                link_loading=_link_loading(row, body_belief),
                hours={grade: _in_hours(three) for grade, three in hours.items()},
                cost={
                    grade: _cost(row, grade, hours[grade], sheet, consumables) for grade in GRADES
                },
                revealed_by=jobs[row.stage],
                caution=CAUTION,
            )
        )
    return tuple(found)


@step("Grade of each zone in every sample", source="factor-copula")
def drawn_grades(discoveries: tuple[Discovery, ...], survey: Survey) -> dict[str, Values]:
    """Bodies as they may turn out, common causes and all; the nominal one stays undecided (nan)."""
    count = survey.pace.size - 1
    common = normal_scores("survey.rust", count)
    grades = {}
    for one in discoveries:
        drawn = draw_grades(
            discovery=one,
            common=common,
            linked=normal_scores(f"survey.link.{one.link}", count),
            own=normal_scores(f"survey.zones.{one.name}", count),
        )
        grades[one.name] = np.concatenate([[np.nan], drawn.astype(np.float64)])
    return grades


@quantity("-", "Chance that a zone is sound", source="bayes", per="zone", shown="%")
def rust_sound_odds(body_belief: Belief, survey: Survey) -> Labelled:
    """Return what is believed after everything that was seen anywhere on the car."""
    return _odds(body_belief, 0, survey)


@quantity("-", "Chance that a zone wants a patch", source="bayes", per="zone", shown="%")
def rust_patch_odds(body_belief: Belief, survey: Survey) -> Labelled:
    """Return what is believed after everything that was seen anywhere on the car."""
    return _odds(body_belief, 1, survey)


@quantity("-", "Chance that a zone must be replaced", source="bayes", per="zone", shown="%")
def rust_replace_odds(body_belief: Belief, survey: Survey) -> Labelled:
    """Return what is believed after everything that was seen anywhere on the car."""
    return _odds(body_belief, 2, survey)


@quantity(
    "-", "Chance that a carrying zone must be replaced", source="bayes", per="zone", shown="%"
)
def rust_structural_odds(rust_replace_odds: Labelled, body: Body) -> Labelled:
    """Return the zones that carry load, suspension, seats or belts."""
    rows = zones(body.zone_kind)
    return {name: odds for name, odds in rust_replace_odds.items() if rows[name].carries}


@quantity("-", "Rust factor of the whole body, in standard deviations", source="factor-copula")
def rust_factor(body_belief: Belief, survey: Survey) -> Values:
    """Nought for a usual body of its life, more for a worse one."""
    scores = normal_scores("survey.rust", survey.pace.size - 1)
    mean = body_belief.factor_mean
    return np.concatenate([[mean], mean + body_belief.factor_sd * scores])


@quantity("s", "Hours of rust repair at the owner's pace", source="bayes", shown="h")
def rust_repair_hours(
    drawn_grades: dict[str, Values], body_belief: Belief, body: Body, survey: Survey
) -> Values:
    """Nominal: expectation over the odds. Samples: bodies as they may turn out."""
    table = {
        name: [mean_of(hours_of(row, grade, 1.0)) for grade in GRADES]
        for name, row in zones(body.zone_kind).items()
    }
    return survey.pace * _over_zones(table, drawn_grades, body_belief)


@quantity("m²", "Sheet that rust repairs take", source="bayes")
def rust_sheet_area(drawn_grades: dict[str, Values], body_belief: Belief, body: Body) -> Values:
    """Return whole panels for replacements and a quarter of them for patches."""
    table = {
        name: [sheet_of(row, grade) for grade in GRADES]
        for name, row in zones(body.zone_kind).items()
    }
    return _over_zones(table, drawn_grades, body_belief)


@quantity("kg", "Mass of the sheet that rust repairs take", source="definition")
def rust_sheet_mass(drawn_grades: dict[str, Values], body_belief: Belief, body: Body) -> Values:
    """Return area times the thickness of each zone when it was new."""
    table = {
        name: [sheet_of(row, grade) * row.thickness * STEEL for grade in GRADES]
        for name, row in zones(body.zone_kind).items()
    }
    return _over_zones(table, drawn_grades, body_belief)


@quantity("m", "Weld that rust repairs take", source="definition")
def rust_weld_length(drawn_grades: dict[str, Values], body_belief: Belief, body: Body) -> Values:
    """Return the seam round every piece that is let in."""
    table = {
        name: [weld_of(row, grade) for grade in GRADES]
        for name, row in zones(body.zone_kind).items()
    }
    return _over_zones(table, drawn_grades, body_belief)


@quantity("money", "Sheet and consumables of rust repairs", source="bayes")
def rust_repair_cost(rust_sheet_area: Values, rust_repair_hours: Values, survey: Survey) -> Values:
    """Return sheet by area and consumables by hours; labour is not in it."""
    return rust_sheet_area * survey.sheet_price + rust_repair_hours * survey.consumables


@quantity("-", "Zones that must be replaced", source="bayes")
def rust_zones_replaced(drawn_grades: dict[str, Values], body_belief: Belief) -> Values:
    """Count the zones; common causes make the spread far wider than chance."""
    table = {name: [0.0, 0.0, 1.0] for name in body_belief.odds}
    return _over_zones(table, drawn_grades, body_belief)


@quantity(
    "s",
    "Doubt about a zone's repair hours, one standard deviation",
    source="bayes",
    per="zone",
    shown="h",
)
def rust_doubt(body_belief: Belief, body: Body, survey: Survey) -> Labelled:
    """Show what a closer look at the zone could clear up."""
    found = {}
    for name, row in zones(body.zone_kind).items():
        odds = np.array(body_belief.odds[name])
        hours = np.array([mean_of(hours_of(row, grade, 1.0)) for grade in GRADES])
        mean = float(odds @ hours)
        found[name] = survey.pace * float(np.sqrt(odds @ (hours - mean) ** 2))
    return found


@quantity(
    "-", "Share of the zones that nobody has probed or laid bare", source="definition", shown="%"
)
def unprobed_share(body: Body, survey: Survey) -> Values:
    """Count zones whose finding was probed, blasted or measured as known."""
    known = zones(body.zone_kind)
    findings = survey.zones
    probed = sum(
        1
        for name in known
        if name in findings
        and (
            findings[name].has("thickness")
            or (findings[name].has("found") and findings[name].judged in SURE)
        )
    )
    return np.array([1.0 - probed / len(known)])


def _seen(finding: ZoneFinding, row: ZoneRow) -> tuple[float, float, float]:
    """Return how likely what was found is in each state: by word, by gauge, or by both.

    The word of somebody who measured rests on the gauge: it does not count a second time.
    """
    seen = np.ones(len(GRADES))
    measured = finding.has("thickness")
    if finding.has("found") and not (measured and finding.judged == "measured"):
        rows, place = look(finding.judged), GRADES.index(finding.found)
        seen *= [rows[grade][place] for grade in GRADES]
    if measured:
        seen *= _gauged(finding, row)
    return float(seen[0]), float(seen[1]), float(seen[2])


def _gauged(finding: ZoneFinding, row: ZoneRow) -> tuple[float, ...]:
    known = finding.has("new_thickness")
    new = float(finding.new_thickness[0]) if known else row.thickness
    spread = 0.0 if known else NEW_SHEET * new
    gauge, means = finding.thickness, left_by_state()
    error = float(gauge[1:].std()) if gauge.size > 1 else 0.0
    left = float(gauge[0]) / new
    return thickness_likelihood(
        left=left,
        left_spread=float(np.hypot(error, left * spread)) / new,
        means=means[0],
        spreads=means[1],
    )


def _life(survey: Survey) -> tuple[Life, ...]:
    return (
        life_of("climate", survey.climate),
        life_of("storage", survey.storage),
        life_of("repairs", survey.repairs),
        life_of("drains", survey.drains),
        life_of("proofing", survey.proofing),
    )


def hours_of(row: ZoneRow, grade: str, pace: float) -> tuple[float, float, float]:
    """Return the hours of a grade at a pace: low, likely, high. [s]."""
    if grade == "sound":
        return 0.0, 0.0, 0.0
    low, likely, high = row.patch_hours if grade == "patch" else row.replace_hours
    return low * pace, likely * pace, high * pace


def _in_hours(three: tuple[float, float, float]) -> tuple[float, float, float]:
    return three[0] / 3600.0, three[1] / 3600.0, three[2] / 3600.0


def weld_of(row: ZoneRow, grade: str) -> float:
    """Return the seam of a repair. [m]."""
    return float(seam_length(area=sheet_of(row, grade), aspect=row.aspect))


def sheet_of(row: ZoneRow, grade: str) -> float:
    """Return the sheet of a repair. [m²]."""
    return {"sound": 0.0, "patch": PATCH_SHARE * row.sheet_area, "replace": row.sheet_area}[grade]


def _cost(
    row: ZoneRow, grade: str, hours: tuple[float, float, float], sheet: float, consumables: float
) -> tuple[float, float, float]:
    panel = sheet_of(row, grade) * sheet
    low, likely, high = (panel + consumables * one for one in hours)
    return low, likely, high


def mean_of(three: tuple[float, float, float]) -> float:
    """Return the mean of low, likely, high."""
    return float(expected_three_point(low=three[0], likely=three[1], high=three[2]))


def _link_loading(row: ZoneRow, belief: Belief) -> float:
    if not row.link:
        return 0.0
    return left_over_loading(loading=row.link_loading, factor_sd=min(1.0, belief.link_sd[row.link]))


def _odds(belief: Belief, grade: int, survey: Survey) -> Labelled:
    size = survey.pace.size
    return {name: np.full(size, odds[grade]) for name, odds in belief.odds.items()}


def _over_zones(table: dict[str, list[float]], drawn: dict[str, Values], belief: Belief) -> Values:
    """Sum a figure by grade over the zones: expectation first, then each drawn body."""
    total = np.zeros_like(next(iter(drawn.values())))
    for name, by_grade in table.items():
        values = np.asarray(by_grade)
        total[0] += float(values @ np.asarray(belief.odds[name]))
        total[1:] += values[drawn[name][1:].astype(np.int64)]
    return total
