"""Load cases, hardpoints, states, own places and sections, bound to small build files."""

from __future__ import annotations

import json
from math import radians

import numpy as np
import pytest
from tests.building import BARE, Evaluated, evaluate

from drybuild.quantities.shell_mesh import frame_mesh
from drybuild.quantities.shell_sets import known_prices

PER_DEG = radians(1.0)
BELTS = "options: {belts: {new: {kind: three-point}}}\n"


def model(words: str, *, body: str = "{kind: unitary}", samples: int = 20) -> Evaluated:
    text = f"build: a\ncar:\n  body: {body}\n  structure:\n    frame_model:\n      {words}\n"
    return evaluate(text, samples=samples)


def torsion(words: str, **how: str) -> float:
    return model(words, **how).value("shell_frame_torsion", "original")  # type: ignore[arg-type]  # a body


def done(options: str, *, samples: int = 50) -> Evaluated:
    return evaluate(
        "build: a\ncar: {body: {kind: unitary}}\noptions:\n  shell:\n    left: {as_is: true}\n"
        f"    done: {options}\npicks: {{shell: done}}\n",
        samples=samples,
    )


def test_a_coupe_has_no_centre_pillar_and_is_softer_than_a_saloon() -> None:
    found = {
        shape: evaluate(f"build: a\ncar: {{body: {{shape: {shape}}}}}\n", samples=0)
        for shape in ("saloon", "coupe")
    }
    parts = found["coupe"].result("shell_frame_energy").labelled()
    assert "centre pillar" not in parts
    assert sum(value[0] for value in parts.values()) == pytest.approx(1.0)
    saloon, coupe = (one.value("shell_frame_torsion", "original") for one in found.values())
    assert 0.5 * saloon < coupe < saloon


def test_walls_that_are_doubled_wasted_and_holed() -> None:
    sill = "sections: {sill: {gauge: 1.2 mm, %s}}"
    plain, doubled, wasted, holed = (
        torsion(sill % words, body="{shape: roadster}")
        for words in ("slit: false", "doubler: 1 mm", "wasted: 0.5 mm", "holes: 15 %")
    )
    assert doubled > plain > wasted
    assert plain > holed
    # a wall that rust went through in some samples leaves them soft, not without a solution
    found = model("sections: {sill: {wasted: 0.8 ± 0.4 mm}}", body="{shape: roadster}", samples=200)
    assert np.isfinite(found.samples_of("shell_frame_torsion", "original")).all()


def test_a_frame_of_channels_is_stiffer_the_more_its_joints_keep_it_from_warping() -> None:
    body = (
        "build: a\ncar:\n  body: {kind: ladder}\n  structure:\n"
        "    frame: {open_rails: true, open_cross_members: true}\n"
    )
    held = [
        evaluate(body + f"    frame_model: {{warping_held: {share}}}\n", samples=0)
        for share in ("0 %", "70 %", "100 %")
    ]
    free, some, built_in = (one.value("shell_frame_torsion", "original") for one in held)
    assert free < some < built_in
    # the closed form has the rails and two cross-members alone, without warping: a lower bound
    assert held[0].value("frame_torsional_stiffness") < some
    spread = evaluate(body, samples=200).samples_of("shell_frame_torsion", "original")
    assert np.quantile(spread[1:], 0.95) > 1.5 * np.quantile(spread[1:], 0.05)


def test_a_cab_on_its_rubber_mounts_stiffens_its_frame_the_more_the_harder_they_are() -> None:
    soft, hard = (
        model(f"mount_rate: {rate}", body="{kind: ladder}") for rate in ("300 N/mm", "3000 N/mm")
    )
    label = "original with its body on its mounts"
    bare = soft.value("shell_frame_torsion", "original")
    assert (
        bare < soft.value("shell_frame_torsion", label) < hard.value("shell_frame_torsion", label)
    )


def test_places_may_be_measured_and_made() -> None:
    plain = torsion("without: []")
    wide = torsion("places: {tower: {y: 620 ± 5 mm}}")
    assert wide != pytest.approx(plain, rel=1e-3)
    new = torsion(
        "places: {knee: {x: -500 mm, y: 0 mm, z: 300 mm}}\n"
        "      members: {stay: {start: tower, end: knee}, prop: {start: toe, end: knee}}"
    )
    assert new > plain
    spread = model("places: {tower: {y: 620 ± 60 mm}}", samples=200)
    assert np.ptp(spread.result("shell_model").value.size_effect()) > 0.0


@pytest.mark.parametrize(
    ("words", "field", "told"),
    [
        ("members: {tie: {start: tower, end: moon}}", "members.tie.end", 'called "moon"'),
        ("members: {tie: {start: tower, end: tower}}", "members.tie.end", "no length"),
        ("members: {tie: {start: tower, end: cowl, section: rope}}", "tie.section", "rope"),
        ("without: [roof beam]", "frame_model.without", 'no part called "roof beam"'),
        ("places: {here: {x: 1 m}}", "places.here", "y, z is not given"),
        ("sections: {sill: {holes: 70 %}}", "sill.holes", "outside"),
        ("sections: {sil: {gauge: 1 mm}}", "sections.sil", "sil"),
        ("template: cab", "template", "cab"),
    ],
)
def test_impossible_frames_are_located_in_the_file(words: str, field: str, told: str) -> None:
    (problem,) = model(words).problems
    assert problem.line == 6
    assert problem.field.endswith(field)
    assert told in problem.wrong
    assert problem.mend


@pytest.mark.parametrize(
    ("words", "told"),
    [
        ("sections: {sill: {gauge: 0 mm}}", "section sill of the frame model has no wall; give"),
        ("sections: {sill: {wasted: 4 mm}}", "section sill of the frame model has no wall; give"),
        (
            "places: {lost: {x: 1 m, y: 0 m, z: 1 m}, away: {x: 2 m, y: 0 m, z: 1 m}}\n"
            "      members: {loose: {start: lost, end: away}}",
            "hangs on nothing: its members do not reach the rest; join it",
        ),
    ],
)
def test_impossible_frames_name_the_part_and_the_mend(words: str, told: str) -> None:
    assert told in model(words).result("shell_frame_torsion").missing[0].why


def test_a_measure_that_leads_nowhere_is_located_too() -> None:
    (problem,) = done("{measures: {strut: {start: moon, end: cowl}}}").problems
    assert problem.line == 6
    assert problem.field == "options.shell.done.measures.strut.start"


def test_states_of_the_body() -> None:
    found = done("{work: connectors, mass: 14 kg}")
    ratio = found.result("shell_state_torsion").labelled()
    assert ratio["original"][0] == 1.0
    assert (
        ratio["towers out"][0] < ratio["towers out, with the work"][0] < ratio["after the work"][0]
    )
    assert ratio["after the work"] == pytest.approx(found.samples_of("shell_stiffness_ratio"))
    assert ratio["towers out, with the work"] == pytest.approx(found.samples_of("shell_towers_out"))
    assert set(found.result("shell_state_bending").labelled()) == set(ratio)
    modes = found.result("shell_state_mode").labelled()
    assert modes["as found"][0] < modes["original"][0] < modes["after the work"][0]
    assert modes["original"][0] == pytest.approx(found.value("shell_frame_modes", "first"))


def test_what_an_option_asks_for() -> None:
    found = done("{work: connectors, price: 350 EUR, lead_time: 3 weeks, fitting: 6 / 12 / 24 h}")
    assert found.value("shell_work_price") == 350.0
    assert found.value("shell_work_wait") == pytest.approx(3 * 7 * 86400.0)
    weekly = found.build.tops["work"].given.get("hours_a_week")
    assert weekly is None  # the usual one
    assert found.value("shell_work_weeks") > 0.0
    nothing = evaluate(BARE).result("shell_work_price")
    assert nothing.missing[0].senseless


def test_work_may_not_bring_more_stress_than_there_was() -> None:
    found = done("{work: connectors}")
    ratio = found.result("shell_case_stress_ratio").labelled()
    assert len(ratio) == len(found.result("shell_case_stress").labelled())
    assert found.verdict("shell.case-stress").check.advice
    assert evaluate(BARE).result("shell_case_stress_ratio").missing[0].senseless


def test_bolts_are_judged_by_the_force_that_the_frame_brings() -> None:
    few, many = (
        done(f"{{work: bolt-in sub-frame, bolts: {count}, bolt_thread: M8, bolt_class: 8.8}}")
        for count in (1, 20)
    )
    (force,) = few.result("shell_work_force").labelled().values()
    uses = [one.value("shell_work_joint_use", "bolts") for one in (few, many)]
    assert uses[0] == pytest.approx(20.0 * uses[1])
    # M8 8.8, thread in the plane: 0.6 × 800 × 36.6/1.25 = 14.05 kN (EN 1993-1-8 table 3.4)
    assert uses[0] == pytest.approx(force[0] / 14.05e3, rel=5e-3)
    given = done(
        "{work: bolt-in sub-frame, bolts: 4, bolt_thread: M8, bolt_class: 8.8, joint_force: 9 kN}"
    )
    assert given.result("shell_work_joint_use").missing[0].senseless
    assert given.value("shell_bolt_use") > 0.0
    assert few.result("shell_bolt_use").missing[0].senseless


def test_hardpoints_give_and_a_tie_makes_towers_firmer() -> None:
    plain, tied = evaluate(BARE, samples=20), done("{measures: {tower tie: {mass: 2 kg}}}")
    point = "front high sideways"
    before, after = (one.value("shell_hardpoint_stiffness", point) for one in (plain, tied))
    assert 1e5 < before < after
    assert tied.value("shell_camber_given", "front") < plain.value("shell_camber_given", "front")
    assert 0.0 < plain.value("shell_toe_given", "front, sideways") < radians(0.5)
    ladder = evaluate("build: a\ncar: {body: {kind: ladder}}\n").result("shell_camber_given")
    assert ladder.missing[0].senseless


def test_belts_and_seats_pull_at_the_frame() -> None:
    found = evaluate(BARE + BELTS, samples=20)
    tests = [label.partition(":")[0] for label in found.result("shell_belt_stress").labelled()]
    assert tests == ["belts", "seats"]
    verdict = found.verdict("shell.belt-points")
    assert verdict.check.advice
    assert "licensed practice" in verdict.check.caution
    assert evaluate(BARE).result("shell_belt_stress").missing[0].senseless
    cab = evaluate("build: a\ncar: {body: {kind: ladder}}\n" + BELTS).result("shell_belt_stress")
    assert cab.missing[0].senseless


def test_stress_goes_with_the_car_s_mass_and_engine_torque() -> None:
    found = evaluate(BARE, samples=50)
    stress = found.result("shell_case_stress").labelled()
    assert {label.partition(":")[0] for label in stress} >= {
        "bump both sides",
        "braking",
        "jacking",
    }
    mass = found.samples_of("kerb_mass")
    some = next(iter(stress.values()))
    assert some / some[0] == pytest.approx(mass / mass[0])
    (torque,) = found.result("shell_torque_stress").labelled().values()
    assert torque[0] > 0.0


def test_prices_of_measures_are_theirs_alone() -> None:
    found = evaluate(
        "build: a\noptions:\n  shell:\n"
        "    one: {work: connectors, price: 350 EUR}\n"
        "    claimed: {work: bolt-on chassis, gain: 90 %, price: 7800 EUR}\n"
        "    two: {price: 500 EUR, measures: {a: {kind: tower tie, price: 60 EUR},"
        " sill doublers: {mass: 9 kg}}}\n"
        "    hoop: {price: 700 EUR, measures: {roll bar: {mass: 17 kg}}}\n"
    )
    prices = known_prices(found.build.options["shell"])
    assert prices == {"connectors": 350.0, "tower tie": 60.0, "roll bar": 700.0}
    sets = found.result("frame_sets").value
    best = sets.best(money=400.0, prices=prices)
    assert best.names in {("connectors",), ("tower tie",)}
    assert best.price is not None
    assert best.price <= 400.0
    assert best.solved <= 2**3


def test_the_mesh_is_plain_data() -> None:
    found = done("{work: connectors}")
    work = tuple(found.result("frame_work").value.values())
    mesh = json.loads(json.dumps(frame_mesh(found.result("shell_model").value, work)))
    members = {one["name"]: one for one in mesh["members"]}
    assert members["connector left"]["added"]
    assert members["connector left"]["wall"] == pytest.approx(2e-3)
    assert set(mesh["nodes"]) >= {members["sill ahead left"][end] for end in ("start", "end")}
    shares = [one["share"] for one in (*mesh["members"], *mesh["panels"])]
    assert sum(shares) == pytest.approx(1.0)
