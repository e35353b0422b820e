"""The datum sheet: what to measure of the shell, what was measured, and how it is judged."""

from __future__ import annotations

from drybuild.book.pages import Block, Chapter, Figure, Section, Sheet, Words
from drybuild.book.sheets import cautions, unknown, verdicts_of
from drybuild.present.body_shape import body_shape
from drybuild.present.datum_drawing import plan_drawing, side_drawing
from drybuild.present.numbers import value_and_band, with_minus
from drybuild.project.datum import Datum
from drybuild.project.samples import Values
from drybuild.quantities.datum import JUDGED, Network, odds_of
from drybuild.quantities.graph import summary
from drybuild.session import Session
from drybuild.tables.datum import OPENINGS, SIDES, PointPair, allowed, asked_lengths, point_pairs

HOW = (
    "Empty the car, put it on stands under the points that carry it standing, and set it level "
    "across at pair 3. Brace the door openings before doors come off for good.",
    "Hang a plumb line from each point and mark the floor, or use a trammel held level: the "
    "lengths of this sheet are lengths in plan.",
    "Stretch one level line (water level or laser) under the car and take each point's height "
    "over it.",
    "Take each length twice, from either end. Two people, one tape, the same pull.",
    "Enter the set in the build file under datum; drybuild puts all lengths together and tells "
    "which one does not fit. One spare length shows that something is wrong, three tell which.",
    "Measure again after every repair of the order, before the braces come off, and at the end.",
)
SINGLE = {"datum_twist": "twist", "datum_wheelbase": "wheelbase"}
SUSPICIOUS = 3.29


def datum_chapter(session: Session) -> Chapter:
    """Return the sheet to fill in, its drawings, and the judgement of what was entered."""
    datum = session.build.tops["datum"]
    assert isinstance(datum, Datum)
    pairs = point_pairs(session.build.kind)
    blocks: list[Block] = [*cautions(session, "datum"), Section(title="How to measure")]
    blocks.append(Words(points=HOW, numbered=True))
    blocks += _drawn(session, datum, pairs)
    blocks += _judged(session)
    blocks += verdicts_of(session, "The questions on the datum sheet", "datum")
    blocks += [Section(title="The sheet"), *_points(session, datum, pairs)]
    blocks += _lengths(session, datum, pairs)
    blocks.append(_openings(session, datum))
    return Chapter(
        title="Datum and straightness sheet",
        intro="Before metal is cut, while it is held, and when it is closed: the same points, the "
        "same lengths. More are taken than needed, so that they check each other.",
        blocks=tuple(blocks),
    )


def _drawn(session: Session, datum: Datum, pairs: tuple[PointPair, ...]) -> list[Block]:
    shape = body_shape(session.build)
    measured = tuple(Datum.lengths.given(datum))
    odd = [name for name, one in _misfits(session).items() if one > SUSPICIOUS]
    heights = {name: _shown(session, one.value) for name, one in Datum.heights.given(datum).items()}
    listed = "; ".join(f"{one.number}: {one.words}" for one in pairs)
    wrong = f" Not fitting: {', '.join(odd)}." if odd else ""
    return [
        Figure(
            svg=plan_drawing(shape, pairs, asked_lengths(pairs), measured, odd),
            caption="The points from above, and the lengths between them.",
            words=f"Points, left and right: {listed}. Measured: {len(measured)} lengths.{wrong}",
        ),
        Figure(
            svg=side_drawing(shape, pairs, heights),
            caption="The points from the side over the level line; heights left and right.",
            words="; ".join(f"{name} {one}" for name, one in heights.items()) or "No heights yet.",
        ),
    ]


def _judged(session: Session) -> list[Block]:
    """Return every figure with a tolerance, its odds of being out of it, and what is missing."""
    rows = []
    for name, what in (*JUDGED.items(), *SINGLE.items()):
        result = session.quantities[name]
        if result.open:
            continue
        for label, values in result.labelled().items():
            shown, band = _told(session, values)
            rows.append(
                (
                    f"{result.quantity.label}{f': {label}' if label else ''}",
                    shown,
                    band,
                    f"± {_shown(session, allowed(what))}",
                    f"{100.0 * odds_of(values, what):.0f} %",
                )
            )
    names = (*JUDGED, *SINGLE, "datum_misfit")
    if not rows:
        words = "Nothing is measured yet: fill the sheet in and enter it under datum."
        return [Section(title="What was measured"), Words(text=words), *unknown(session, names)]
    note = (
        "Tolerances are common practice, no source: a works manual of the car rules over them. The "
        "odds reckon with the spread of the readings; 50 % is a reading just on the limit."
    )
    sheet = Sheet(
        title="Straight, square, level",
        columns=("figure", "value", "5 to 95 %", "tolerance", "odds of being out of it"),
        rows=tuple(rows),
        numeric=(1, 4),
        widths=(3.0, 1.0, 1.6, 0.9, 1.1),
        note=note,
    )
    return [Section(title="What was measured"), sheet, *unknown(session, names)]


def _points(session: Session, datum: Datum, pairs: tuple[PointPair, ...]) -> list[Block]:
    heights = Datum.heights.given(datum)
    rows = tuple(
        (
            f"{one.number} {side}",
            one.words if side == "left" else "as on the left",
            _shown(session, found.value) if (found := heights.get(f"{one.number} {side}")) else "",
            "",
        )
        for one in pairs
        for side in SIDES
    )
    return [
        Sheet(
            title="Points and heights",
            columns=("point", "where (write your own mark if the car has a better one)", "entered",
                     "height now"),
            rows=rows,
            numeric=(2,),
            widths=(0.7, 3.6, 0.8, 1.0),
            to_write=True,
        )
    ]  # fmt: skip


def _lengths(session: Session, datum: Datum, pairs: tuple[PointPair, ...]) -> list[Block]:
    given, network = Datum.lengths.given(datum), session.evaluation.result("datum_network")
    left: dict[str, float] = {}
    if isinstance(network.value, Network):
        left = dict(zip(network.value.lengths, network.value.fit.left_over, strict=True))
    misfits = _misfits(session)
    rows = []
    for name in dict.fromkeys((*asked_lengths(pairs), *given)):
        fits = with_minus(f"{left[name] * 1e3:+.1f} mm") if name in left else ""
        fits += f" ({misfits[name]:.1f})" if name in misfits else ""
        entered = _shown(session, given[name].value) if name in given else ""
        rows.append((name, entered, fits, ""))
    return [
        Sheet(
            title="Lengths in plan",
            columns=(
                "from point to point",
                "entered",
                "fits: left over (deviations)",
                "length now",
            ),
            rows=tuple(rows),
            numeric=(1,),
            widths=(2.0, 1.0, 1.6, 1.2),
            to_write=True,
            note=f"Above {SUSPICIOUS} deviations a reading does not fit the others (Baarda, one "
            "false alarm in a thousand). What no other length checks has no figure.",
        )
    ]


def _openings(session: Session, datum: Datum) -> Sheet:
    given = datum.given.get("openings")
    found = given if isinstance(given, dict) else {}
    rows = []
    for name in OPENINGS:
        ends = found[name].given if name in found else {}
        told = [
            _shown(session, ends[way].value) if way in ends else "" for way in ("rising", "falling")
        ]
        rows.append((name, *told, ""))
    for side in SIDES:
        one = datum.given.get(f"wheelbase_{side}")
        value = getattr(one, "value", None)
        told_one = _shown(session, value) if isinstance(value, float) else ""
        rows.append((f"wheelbase {side}", told_one, "", ""))
    return Sheet(
        title="Openings and wheelbase",
        columns=("opening", "rising, entered", "falling, entered", "now: rising / falling"),
        rows=tuple(rows),
        numeric=(1, 2),
        widths=(1.4, 1.0, 1.0, 1.8),
        to_write=True,
        note="Rising: from low front to high rear (doors), or low left to high right.",
    )


def _misfits(session: Session) -> dict[str, float]:
    result = session.quantities["datum_misfit"]
    if result.open:
        return {}
    return {name: float(values[0]) for name, values in result.labelled().items()}


def _told(session: Session, values: Values) -> tuple[str, str]:
    build = session.build
    return value_and_band(summary(values), "m", "mm", build.units, build.currency)


def _shown(session: Session, value: float) -> str:
    return f"{value / 0.0254:.2f} in" if session.build.units == "us" else f"{value * 1e3:.0f} mm"
