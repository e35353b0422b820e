"""The body as a frame in the book: every option side by side, where it strains, what would help."""

from __future__ import annotations

from drybuild.book.pages import Block, Caution, Figure, Section, Sheet, Words
from drybuild.book.sheets import by_label, figures, short_of
from drybuild.present.numbers import with_band
from drybuild.present.shell_compare import CHANGES, FIGURES, headings, shell_options
from drybuild.present.shell_drawing import shell_drawing, strain_words
from drybuild.quantities.shell_frame_parts import LIMITS
from drybuild.quantities.shell_sets import known_prices
from drybuild.session import Session

FRAME = (
    "shell_frame_torsion",
    "shell_frame_bending",
    "shell_frame_bending_ratio",
    "shell_frame_gain",
    "shell_frame_as_found",
    "shell_frame_joint_rate",
    "shell_frame_tower_spread",
    "shell_frame_modes",
)
STRESS = (
    "shell_case_stress_ratio",
    "shell_work_force",
    "shell_work_joint_use",
    "shell_torque_stress",
    "shell_weld_fatigue_use",
    "shell_belt_stress",
)
GIVEN = ("shell_camber_given", "shell_toe_given")
MOST = 14
"""Parts that are listed."""


def frame_blocks(session: Session) -> list[Block]:
    """Return the comparison of options, the drawing of the strain, and what would help."""
    result = session.evaluation.result("shell_picture")
    if result.open:
        return []
    blocks: list[Block] = [Section(title="The body as a frame"), *_compared(session)]
    blocks.append(
        Figure(
            svg=shell_drawing(result.value),
            caption="Where twisting strains the body: a frame of beams and panels that stands for "
            "it, front to the left, with the work that is picked.",
            words=strain_words(result.value),
        )
    )
    blocks += figures(session, "By the frame model", FRAME)
    blocks += by_label(
        session,
        "What each usual measure would give alone",
        "measure",
        {"torsion": "shell_frame_candidate_gain", "for its steel": "shell_frame_candidate_yield"},
        bands=True,
        widths=(1.6, 1.5, 1.9),
        note="Together they give less or more than their sum. Cutting and welding a body belongs "
        "to licensed practice.",
    )
    blocks += _best_sets(session)
    blocks += _hardest(session)
    blocks += by_label(
        session,
        "The body in each state",
        "state",
        {
            "torsion over the original": "shell_state_torsion",
            "bending": "shell_state_bending",
            "first mode": "shell_state_mode",
        },
        bands=True,
        widths=(1.6, 1.5, 1.5, 1.5),
    )
    blocks += by_label(
        session,
        "Peak loads: the greatest stress, and the part it is in",
        "case: part",
        {"stress": "shell_case_stress"},
        bands=True,
        widths=(2.0, 2.0),
        note="Mild body sheet yields from about 180 MPa; 120 MPa leaves it half as much again. "
        "Beam stress at members' ends by plain sections, before and after the work alike: read "
        "the change. At a weld, a hole or a dent it is several times more.",
    )
    blocks += figures(session, "Stress: the work, the engine, the belts", STRESS)
    blocks += by_label(
        session,
        "How firm the suspension's hardpoints are",
        "hardpoint",
        {"stiffness": "shell_hardpoint_stiffness"},
        bands=True,
        widths=(2.0, 2.0),
    )
    blocks += figures(session, "What that costs in camber and toe", GIVEN)
    blocks += twist_test_blocks()
    return blocks


def _hardest(session: Session) -> list[Block]:
    """Return the parts whose loss would cost most, with their strain and what metal is worth."""
    names = ("shell_frame_loss", "shell_frame_energy", "shell_frame_worth")
    loss, energy, worth = (session.evaluation.result(name) for name in names)
    if loss.open or energy.open or worth.open:
        return []
    ranked = sorted(loss.labelled(), key=lambda part: -loss.labelled()[part][0])[:MOST]
    rows = tuple(
        (
            part,
            *(
                short_of(session, one, one.labelled()[part]) if part in one.labelled() else ""
                for one in (loss, energy, worth)
            ),
        )
        for part in ranked
    )
    return [
        Sheet(
            title="Parts that twisting leans on most",
            columns=("part, both sides", "lost without it", "share of strain", "worth of metal"),
            rows=rows,
            numeric=(1, 2, 3),
            widths=(2.0, 1.2, 1.2, 1.6),
            note="Worth holds for a little metal; a part with little strain may still be needed.",
        )
    ]


def _compared(session: Session) -> list[Block]:
    """Return a row an option: what it changes, weighs, costs and takes, each with its band."""
    options = shell_options(session.evaluation)
    if len(options) < 2:
        return []
    shown = headings(options)
    found: list[Block] = []
    for title, wanted, note in (
        (
            "Every option for the shell: what it changes",
            (*CHANGES, "adds"),
            "Change against the original first: it is surer than any stiffness on its own. Towers "
            "out: with the spring towers cut as well.",
        ),
        (
            "Every option for the shell: what it costs and takes",
            tuple(one for one in FIGURES if one != "adds"),
            "Work: hours of fitting over the hours of a usual week. Waiting: from order to "
            "delivery.",
        ),
    ):
        columns = tuple(one for one in wanted if one in shown)
        rows = tuple(
            (
                f"{one.name} (picked)" if one.picked else one.name,
                *(one.told[column].words if column in one.told else "" for column in columns),
            )
            for one in options
        )
        widths = (1.5, *(1.3 for _ in columns))
        found.append(
            Sheet(title=title, columns=("option", *columns), rows=rows, widths=widths, note=note)
        )
    return found


def _best_sets(session: Session) -> list[Block]:
    """Return the best set of measures within each mass, proven."""
    result = session.evaluation.result("frame_sets")
    if result.open:
        return []
    sets, build = result.value, session.build
    prices = known_prices(build.options["shell"])
    rows = []
    for limit in LIMITS:
        best = sets.best(mass=limit, prices=prices)
        price = "" if best.price is None else f"{best.price:g} {build.currency}"
        told = [
            with_band((one, one, one), "kg", "kg", build.units, build.currency)
            for one in (limit, best.mass)
        ]
        if best.names:
            proof = f"{best.solved} of {best.allowed}"
            rows.append(
                (
                    told[0],
                    " + ".join(best.names),
                    f"+{100 * best.gain:.0f} %",
                    told[1],
                    price,
                    proof,
                )
            )
    return (
        [
            Sheet(
                title="The best sets of measures for their steel",
                columns=("at most", "best set", "torsion", "steel", "price", "solved"),
                rows=tuple(rows),
                widths=(0.8, 3.0, 0.8, 0.9, 0.9, 0.9),
                note="Each set is solved anew, none is added up from its parts; what was not "
                "solved of the sets that are light enough is proven to be no better. Price "
                "where every measure of the set has one.",
            )
        ]
        if rows
        else []
    )


def twist_test_blocks() -> list[Block]:
    """Return how to twist the car on three stands, and what may go wrong."""
    return [
        Section(title="Twisting the car on three stands"),
        Caution(
            text="A loaded car on stands can fall. Stop when anything creaks, tips or slides; "
            "where floor or stands are in doubt, leave the test to licensed practice.",
            points=(
                "Level concrete; stands rated for the whole car, with pins; wheels chocked.",
                "A second stand just below the free corner, always, a finger's width down.",
                "Nobody below the car, and load put on and taken off from the side.",
                "Fuel out or low, battery off, doors as you want the figure to count: shut or off.",
            ),
        ),
        Words(
            numbered=True,
            points=(
                "Set the car on four stands, under the points that the wheels carry; level it.",
                "Set dial gauges to nought: one under the free front corner, one at each of the "
                "three others, on a bar that stands on the floor.",
                "Take the stand under the free front corner away: three stay. Let it settle, read "
                "all gauges, and set them to nought again.",
                "Load the free corner in five steps (sacks, plates: some 20 kg each), reading all "
                "gauges at each; then take it off in the same steps. Do it twice.",
                "Take from the free corner's reading what the other three moved as a rigid body. "
                "The reading must come back to nought and both ways must agree within a tenth.",
                "Write load, the width from the free corner to its neighbour, and the deflection "
                "into car.structure: corner_load, corner_track, corner_deflection, each with its "
                "spread. One factor on all joint rates then brings the model to that figure.",
            ),
        ),
    ]
