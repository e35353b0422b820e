"""The free body pulled at its hardpoints: motion and forces for a unit pull at each."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np

from drybuild.physics.frame.assembly import unit_factors
from drybuild.physics.frame.cases import AXES
from drybuild.physics.frame.modes import lumped_mass
from drybuild.physics.frame.relief import relieved_motion, tilted_mass
from drybuild.project.samples import Values
from drybuild.quantities.shell_model import Addition, Built, ShellModel
from drybuild.quantities.shell_stress import greatest_by_family, member_stress, own_forces
from drybuild.tables.frame import Hardpoint, hardpoints, side_names

ENGINE_SHARE = 0.2
"""Share of the car's mass that hangs at the engine mounts: engine and gearbox; common practice."""
PULLS = ("x", "y", "z", "turn x", "turn y")
Pull = tuple[str, str]
"""A node and an axis."""
Loads = Mapping[Pull, float]


@dataclass(frozen=True, kw_only=True)
class Car:
    """The nominal car round its frame: what loads go by."""

    mass: float
    front_share: float
    cg_over_road: float
    wheelbase: float
    tracks: tuple[float, float]
    ride_height: float
    """Road to the sill seam, where z is nought."""


@dataclass(frozen=True, kw_only=True)
class Pulled:
    """A free body under unit pulls."""

    built: Built
    points: dict[str, Hardpoint]
    pulls: tuple[Pull, ...]
    motion: Values
    """Of every freedom by pull, (freedoms, pulls)."""
    acceleration: Values
    """As a rigid body, (6, pulls)."""
    force: Values
    """At members' ends by pull, (pulls, members, 12)."""

    def place(self, node: str) -> Values:
        """Return where a node is."""
        frame = self.built.frame
        return np.asarray(frame.places[frame.node(node)])

    def nodes_of(self, point: str) -> tuple[str, ...]:
        """Return the left and right node of a hardpoint, or the one in the middle."""
        return side_names(self.points[point].place, frozenset(self.built.frame.nodes))

    def has(self, point: str) -> bool:
        """Whether the frame has this hardpoint."""
        found = self.points.get(point)
        names = frozenset(self.built.frame.nodes)
        return found is not None and set(side_names(found.place, names)) <= names

    def under(self, loads: Loads) -> Values:
        """Return the motion of every freedom under some loads."""
        return self.motion @ self._weights(loads)

    def accelerated(self, loads: Loads) -> Values:
        """Return the acceleration as a rigid body under some loads."""
        return self.acceleration @ self._weights(loads)

    def end_forces(self, *cases: Loads) -> Values:
        """Return the forces at members' ends under each of some loads, (cases, members, 12)."""
        weights = np.array([self._weights(loads) for loads in cases])
        return np.tensordot(weights, self.force, axes=1)

    def compliance(self, node: str, axis: str) -> float:
        """Return how far a node gives under a unit pull at itself."""
        row = 6 * self.built.frame.node(node) + AXES[axis]
        return float(self.motion[row, self.pulls.index((node, axis))])

    def moved(self, motion: Values, node: str, axis: str) -> float:
        """Return the motion of one node along one axis."""
        return float(motion[6 * self.built.frame.node(node) + AXES[axis]])

    def _weights(self, loads: Loads) -> Values:
        found = np.zeros(len(self.pulls))
        for pull, value in loads.items():
            found[self.pulls.index(pull)] += value
        return found


def pulled_body(model: ShellModel, car: Car, work: tuple[Addition, ...] = ()) -> Pulled:
    """Return the nominal body under unit pulls at every hardpoint, after some work."""
    built, factors = model.built(work), model.nominal(work)
    points = hardpoints(model.template)
    known = frozenset(built.frame.nodes)
    stems = dict.fromkeys(one.place for one in points.values())
    found = [name for stem in stems for name in side_names(stem, known) if name in known]
    pulls = tuple((node, axis) for node in found for axis in PULLS)
    loads = np.zeros((built.elements.freedoms, len(pulls)))
    for column, (node, axis) in enumerate(pulls):
        loads[6 * built.frame.node(node) + AXES[axis], column] = 1.0
    motion, acceleration = relieved_motion(
        elements=built.elements,
        factors=factors,
        case=built.torsion,
        mass=_mass(built, car, points),
        loads=loads,
    )
    return Pulled(
        built=built,
        points=points,
        pulls=pulls,
        motion=motion,
        acceleration=acceleration,
        force=own_forces(built, factors, motion.T),
    )


def stress_under(model: ShellModel, pulled: Pulled, loads: Loads) -> dict[str, float]:
    """Return the greatest stress in each family of members under some loads."""
    return stress_by_case(model, pulled, {"": loads})[""]


def stress_by_case(
    model: ShellModel, pulled: Pulled, cases: Mapping[str, Loads]
) -> dict[str, dict[str, float]]:
    """Return the greatest stress in each family of members by load case."""
    force = pulled.end_forces(*cases.values())
    found = greatest_by_family(pulled.built, member_stress(pulled.built, model.sizes, force))
    return {
        name: {family: float(one[number]) for family, one in found.items()}
        for number, name in enumerate(cases)
    }


def _mass(built: Built, car: Car, points: Mapping[str, Hardpoint]) -> Values:
    """Return the car's mass over the nodes: the engine at its mounts, the rest like the steel."""
    frame, at = built.frame, -(1.0 - car.front_share) * car.wheelbase
    shape = lumped_mass(elements=built.elements, factors=unit_factors(elements=built.elements))
    hung = np.zeros(len(shape))
    if "engine" in points:
        for node in side_names(points["engine"].place, frozenset(frame.nodes)):
            hung[frame.node(node)] += 0.5 * ENGINE_SHARE * car.mass
    x = frame.places[:, 0]
    rest = car.mass - float(hung.sum())
    middle = (car.mass * at - float(hung @ x)) / rest
    return hung + tilted_mass(places=x, shape=shape, total=rest, at=middle)
