"""The free body, rubber mounts, load cases and best sets against statics and closed forms."""

from __future__ import annotations

from dataclasses import replace
from itertools import combinations

import numpy as np
import pytest

from drybuild.errors import InputError
from drybuild.physics.frame.assembly import dense_stiffness, prepare, unit_factors
from drybuild.physics.frame.best_set import best_set
from drybuild.physics.frame.cases import AXES, load_case
from drybuild.physics.frame.elements import beam_stiffness
from drybuild.physics.frame.modes import lumped_mass
from drybuild.physics.frame.mounts import mount_beam
from drybuild.physics.frame.relief import relieved_motion, rigid_motions, tilted_mass
from drybuild.physics.frame.solve import solve
from drybuild.quantities.shell_loads import road_cases, standing, wheel_loads
from drybuild.quantities.shell_points import Car, Pulled
from drybuild.quantities.shell_sections import beam_section
from drybuild.quantities.shell_stress import member_stress
from drybuild.tables.frame import SectionSize
from tests.building import evaluate
from tests.truth.frames import BOX, E, G, beams, shell

GRAVITY = 9.80665
CAR = Car(
    mass=1000.0,
    front_share=0.52,
    cg_over_road=0.55,
    wheelbase=2.5,
    tracks=(1.35, 1.33),
    ride_height=0.30,
)


def pulled(body: str = "{kind: unitary, shape: saloon}") -> Pulled:
    found = evaluate(f"build: a\ncar: {{body: {body}}}\n", samples=0).result("pulled_frame")
    assert isinstance(found.value, Pulled)
    return found.value


def test_a_floating_beam_pushed_in_its_middle_bends_like_one_on_two_supports() -> None:
    # masses at the ends only: each end pushes back with F/2, so F L³/48EI between middle and ends;
    # two feathers beside the middle give the line of masses an inertia about itself
    frame = beams(
        {
            "a": (0.0, 0.0, 0.0),
            "m": (1.0, 0.0, 0.0),
            "b": (2.0, 0.0, 0.0),
            "left": (1.0, 0.5, 0.0),
            "right": (1.0, -0.5, 0.0),
        },
        [("a", "m", BOX), ("m", "b", BOX), ("m", "left", BOX), ("m", "right", BOX)],
    )
    elements = prepare(frame=frame)
    loads = np.zeros((30, 1))
    loads[6 + AXES["z"], 0] = 1000.0
    motion, acceleration = relieved_motion(
        elements=elements,
        factors=unit_factors(elements=elements),
        case=load_case(frame=frame, name="float", held={"a": tuple(AXES)}, loads={}),
        mass=[5.0, 0.0, 5.0, 1e-9, 1e-9],
        loads=loads,
    )
    sag = motion[6 + 2, 0] - 0.5 * (motion[2, 0] + motion[12 + 2, 0])
    inertia = float(BOX.second_moment_upright)
    assert sag == pytest.approx(1000.0 * 2.0**3 / (48.0 * E * inertia), rel=1e-6)
    assert acceleration[2, 0] == pytest.approx(1000.0 / 10.0, rel=1e-6)


def test_the_supports_of_a_free_body_bear_nothing() -> None:
    # statics: outer forces and inertia balance, so it does not matter which node is held
    frame = shell()
    elements = prepare(frame=frame)
    factors = unit_factors(elements=elements)
    mass = lumped_mass(elements=elements, factors=factors)
    rng = np.random.default_rng(1)
    loads = rng.standard_normal((elements.freedoms, 2)) * 1e3
    found = []
    for node in ("mount left", "rail right"):
        case = load_case(frame=frame, name="free", held={node: tuple(AXES)}, loads={})
        motion, acceleration = relieved_motion(
            elements=elements, factors=factors, case=case, mass=mass, loads=loads
        )
        found.append(motion)
    assert found[0] == pytest.approx(found[1], rel=1e-6, abs=1e-9)
    rigid = rigid_motions(places=frame.places)
    heavy = np.repeat(mass, 6) * np.tile([1, 1, 1, 0, 0, 0], len(mass))
    # Newton and Euler: force and moment of the inertia are those of the loads
    assert rigid.T @ (heavy[:, None] * (rigid @ acceleration)) == pytest.approx(rigid.T @ loads)
    # the mean motion of the mass is nought
    assert rigid.T @ (heavy[:, None] * found[0]) == pytest.approx(np.zeros((6, 2)), abs=1e-9)


def test_rigid_motions_strain_nothing() -> None:
    frame = shell()
    elements = prepare(frame=frame)
    whole = dense_stiffness(elements=elements, factors=unit_factors(elements=elements))
    strained = whole @ rigid_motions(places=frame.places)
    assert np.abs(strained).max() < 1e-9 * np.abs(whole).max()


def test_mass_is_tilted_to_the_centre_that_is_wanted() -> None:
    places, shape = np.array([0.5, 0.0, -1.0, -2.0, -2.5]), np.array([1.0, 3.0, 4.0, 2.0, 1.0])
    found = tilted_mass(places=places, shape=shape, total=1200.0, at=-1.1)
    assert found.sum() == pytest.approx(1200.0)
    assert found @ places / 1200.0 == pytest.approx(-1.1)
    with pytest.raises(InputError, match="well inside the body"):
        tilted_mass(places=places, shape=shape, total=1200.0, at=-2.45)


# --- rubber mounts


def test_a_mount_has_the_rates_that_it_was_given() -> None:
    along, across, turn, length = 8e5, 4.8e5, 400.0, 0.066
    area, shear, bending, twist = mount_beam(
        along=along, across=across, turn=turn, length=length, elastic_modulus=E, shear_modulus=G
    )
    k = beam_stiffness(
        length=length,
        elastic_modulus=E,
        shear_modulus=G,
        area=area,
        second_moment_upright=bending,
        second_moment_sideways=bending,
        torsion_constant=twist,
        shear_area_upright=shear,
        shear_area_sideways=shear,
    )
    assert k[0, 0] == pytest.approx(along)
    assert k[1, 1] == pytest.approx(across)  # pushed across, its ends kept from turning
    assert k[2, 2] == pytest.approx(across)
    assert k[3, 3] == pytest.approx(turn)
    with pytest.raises(InputError, match="turn"):
        mount_beam(
            along=1e6, across=1e8, turn=10.0, length=0.066, elastic_modulus=E, shear_modulus=G
        )


def _mounted(rate: float) -> float:
    """Return the torsional stiffness of a stiff body on four mounts over two separate axles."""
    stiff = replace(
        BOX,
        area=np.array(1.0),
        second_moment_upright=np.array(1.0),
        second_moment_sideways=np.array(1.0),
        torsion_constant=np.array(1.0),
    )
    spine = replace(stiff, torsion_constant=np.array(1e-6))
    size = SectionSize(
        shape="mount", width=0.06, height=0.06, gauge=0.005, rates=(rate, 4e5, 100.0)
    )
    found = beam_section(size, 0.05, 1.0)
    rubber = replace(
        BOX,
        area=np.array(found.area),
        second_moment_upright=np.array(found.second_moment_upright),
        second_moment_sideways=np.array(found.second_moment_sideways),
        torsion_constant=np.array(found.torsion_constant),
    )
    nodes: dict[str, tuple[float, float, float]] = {}
    members = []
    for end, x in (("f", 0.0), ("r", -2.0)):
        nodes |= {
            f"{end} low left": (x, 0.4, 0.0),
            f"{end} low right": (x, -0.4, 0.0),
            f"{end} high left": (x, 0.4, 0.05),
            f"{end} high right": (x, -0.4, 0.05),
            f"{end} middle": (x, 0.0, 0.05),
        }
        members += [
            (f"{end} low left", f"{end} high left", rubber),
            (f"{end} low right", f"{end} high right", rubber),
            (f"{end} high left", f"{end} middle", stiff),
            (f"{end} middle", f"{end} high right", stiff),
        ]
    members.append(("f middle", "r middle", spine))
    frame = beams(nodes, members)
    held = {"r low left": tuple(AXES), "r low right": tuple(AXES)}
    sides = ("x", "y", "turn x", "turn y", "turn z")
    held |= {"f low left": sides, "f low right": sides}
    case = load_case(
        frame=frame,
        name="twist",
        held=held,
        loads={("f low left", "z"): 1.0 / 0.8, ("f low right", "z"): -1.0 / 0.8},
    )
    elements = prepare(frame=frame)
    return solve(elements=elements, factors=unit_factors(elements=elements), case=case).stiffness


@pytest.mark.parametrize("rate", [2e5, 8e5, 3e6])
def test_a_body_on_four_mounts_is_springs_in_series(rate: float) -> None:
    # statics by hand: a pair of mounts rolls by k w²/2, and turns by itself where its feet are
    # kept level; the spine twists by G J/L. φ turns the front feet, θ1 and θ2 the body's ends
    body, pair, turn = G * 1e-6 / 2.0, 2.0 * rate * 0.4**2, 2.0 * 100.0
    angles = np.linalg.solve(
        [[pair, -pair, 0.0], [-pair, pair + turn + body, -body], [0.0, -body, body + pair + turn]],
        [1.0, 0.0, 0.0],
    )
    assert _mounted(rate) == pytest.approx(1.0 / angles[0], rel=2e-3)


# --- wheels' forces at the hardpoints


@pytest.mark.parametrize("body", ["{kind: unitary}", "{kind: ladder}", "{kind: backbone}"])
def test_hardpoints_carry_the_wheels_forces_and_moments(body: str) -> None:
    # statics: the pulls at the body are worth the forces at the road, as force and as moment
    found, rng = pulled(body), np.random.default_rng(2)
    wheels = {
        (axle, side): tuple(rng.standard_normal(3) * 1e3)
        for axle in ("front", "rear")
        for side in (1, -1)
    }
    loads = wheel_loads(found, CAR, wheels)
    force, moment = np.zeros(3), np.zeros(3)
    for (node, axis), value in loads.items():
        row = AXES[axis]
        if row < 3:
            pull = np.eye(3)[row] * value
            force += pull
            moment += np.cross(found.place(node), pull)
        else:
            moment += np.eye(3)[row - 3] * value
    road, about = np.zeros(3), np.zeros(3)
    for (axle, side), one in wheels.items():
        track = CAR.tracks[0 if axle == "front" else 1]
        x = found.place(found.nodes_of(f"{axle} high")[0])[0]
        road += one
        about += np.cross([x, side * track / 2.0, -CAR.ride_height], one)
    assert force == pytest.approx(road)
    assert moment[0] == pytest.approx(about[0])


def test_a_bump_of_three_lifts_the_car_at_three_g_and_does_not_turn_it() -> None:
    # Newton: three times the static load under every wheel, the centre of mass between them
    found = evaluate("build: a\ncar: {body: {kind: unitary}}\n", samples=0)
    body, car = found.result("pulled_frame").value, found.result("frame_car").value
    lifted = body.accelerated(road_cases(body, car)["bump both sides"])
    assert lifted[2] == pytest.approx(3.0 * GRAVITY, rel=1e-6)
    assert np.abs(np.delete(lifted, 2)).max() < 1e-3
    standing_ = body.accelerated(wheel_loads(body, car, standing(car)))
    assert standing_[2] == pytest.approx(GRAVITY, rel=1e-6)


@pytest.mark.parametrize(
    ("case", "axis", "times"),
    [("braking", 0, -1.1), ("cornering", 1, 1.0), ("jacking", 2, 1.0), ("towing", 0, 0.5)],
)
def test_cases_push_the_car_as_hard_as_they_say(case: str, axis: int, times: float) -> None:
    # Newton: the outer force over the mass; factors of the table of load cases
    found = evaluate("build: a\ncar: {body: {kind: unitary}}\n", samples=0)
    body, car = found.result("pulled_frame").value, found.result("frame_car").value
    loads = road_cases(body, car)[case]
    name = "xyz"[axis]
    total = sum(value for (_, one), value in loads.items() if one == name)
    assert total == pytest.approx(times * car.mass * GRAVITY, rel=1e-6)


def test_a_half_of_the_car_on_a_jack_stands_on_three_points() -> None:
    # statics by hand: lift (y_j + t/2) = W t/2 about the wheels that stay down
    found = evaluate("build: a\ncar: {body: {kind: unitary}}\n", samples=0)
    body, car = found.result("pulled_frame").value, found.result("frame_car").value
    loads = road_cases(body, car)["jacking"]
    node = body.nodes_of("jack")[0]
    half = 0.25 * sum(car.tracks)
    assert loads[node, "z"] == pytest.approx(
        car.mass * GRAVITY * half / (body.place(node)[1] + half)
    )


@pytest.mark.parametrize("body", ["{shape: saloon}", "{shape: coupe}", "{shape: roadster}"])
def test_both_sides_of_a_body_give_alike(body: str) -> None:
    found = pulled(body)
    for point in ("front high", "front low", "rear high", "rear low"):
        left, right = found.nodes_of(point)
        for axis in ("x", "y", "z"):
            assert found.compliance(left, axis) == pytest.approx(found.compliance(right, axis))


# --- stress by hand


def test_stress_of_a_cantilever_by_hand() -> None:
    # M c/I + N/A: 1 kN upright and 2 kN along at 1.2 m on a box 60 × 100 × 2 mm
    found = pulled()
    size = SectionSize(shape="closed", width=0.06, height=0.1, gauge=0.002)
    one = beam_section(size, 1.2, 1.0)
    bars = found.built.bars[:1]
    members = replace(
        found.built.frame.members,
        names=("a",),
        area=np.array([one.area]),
        second_moment_upright=np.array([one.second_moment_upright]),
        second_moment_sideways=np.array([one.second_moment_sideways]),
    )
    built = replace(
        found.built,
        bars=bars,
        elements=replace(found.built.elements, frame=replace(found.built.frame, members=members)),
    )
    force = np.zeros((1, 12))
    force[0, 0], force[0, 5] = 2000.0, 1200.0
    stress = member_stress(built, {bars[0].section: size}, force)
    assert stress[0] == pytest.approx(2000.0 / 640e-6 + 1200.0 * 0.05 / 9.33333e-7, rel=1e-5)


# --- best sets


@pytest.mark.parametrize("seed", range(4))
def test_the_best_set_is_that_of_trying_every_set(seed: int) -> None:
    # springs in a frame of two stages in series: rising with more, and never a plain sum
    rng = np.random.default_rng(seed)
    count = 9
    first, second = rng.uniform(0.0, 1.0, (2, count)) * (rng.random((2, count)) < 0.6)
    weights = rng.uniform(0.5, 3.0, (count, 2))
    rivals = frozenset({frozenset({0, 1}), frozenset({2, 5})})

    def stiffness(chosen: frozenset[int]) -> float:
        some = sorted(chosen)
        a, b = 1.0 + first[some].sum(), 0.7 + second[some].sum()
        return float(a * b / (a + b))

    limits = np.array([5.0, 6.0])
    found = best_set(stiffness=stiffness, weights=weights, limits=limits, rivals=rivals)
    every = [
        frozenset(one)
        for size in range(count + 1)
        for one in combinations(range(count), size)
        if (weights[list(one)].sum(axis=0) <= limits).all()
        and not any(pair <= frozenset(one) for pair in rivals)
    ]
    assert found.stiffness == pytest.approx(max(stiffness(one) for one in every))
    assert found.allowed == len(every)
    assert frozenset(found.chosen) in every


def test_the_best_set_of_the_body_is_that_of_trying_every_set() -> None:
    found = evaluate("build: a\ncar: {body: {kind: unitary}}\n", samples=0)
    sets = found.result("frame_sets").value
    best = sets.best(mass=22.0)
    count = len(sets.names)
    every = {
        one: sets.stiffness(frozenset(one))
        for size in range(1, 4)
        for one in combinations(range(count), size)
        if sum(sets.mass[k] for k in one) <= 22.0
        and not any(pair <= frozenset(one) for pair in sets.rivals)
    }
    stiffest = max(every, key=lambda one: every[one])
    assert best.names == tuple(sets.names[one] for one in stiffest)
    # the same set put into the body and solved by the way that options go
    candidates = found.result("frame_candidates").value
    model = found.result("shell_model").value
    work = tuple(candidates[name] for name in best.names)
    ratio = model.sampled("torsion", work).stiffness[0] / model.sampled("torsion").stiffness[0]
    assert best.gain == pytest.approx(ratio - 1.0, rel=1e-3)
