"""Where to put the tape: the bay's readings as lines from place to place, most telling first."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass

import numpy as np

from drybuild.checks.verdicts import Verdict, doubt_shares
from drybuild.next_steps.fields import Fields
from drybuild.physics.solids.scene import Pose
from drybuild.physics.solids.shapes import Array
from drybuild.present.nominal import number
from drybuild.present.numbers import value_and_band
from drybuild.present.packaging_pairs import STEPS, Pair
from drybuild.present.packaging_tape_engine import BY_HAND, engine_line
from drybuild.project.build import Build
from drybuild.project.packaging import Bay, EngineBox, Station
from drybuild.project.packaging_solids import LoftStation
from drybuild.project.readings import Origin, Reading
from drybuild.project.sections import Section
from drybuild.quantities.graph import Evaluation
from drybuild.quantities.packaging_scene import PlacedEngine
from drybuild.tables.measuring import how_to

BAY = "car.bay."
MOST = 14
"""Readings on a sheet: what a person takes in one go."""
SURE = 0.02
"""A pair so sure either way still counts so much, to put readings in an order."""
AXES = ("x", "y", "z")
ANGLES = ("opens", "nose_up")
"""Entries of the sheet that are no lengths."""
DATUM = ("front wheel centres", "middle of the car", "sill seam")
LINE = {"x": 0, "y": 1, "z": 2}
SIDES = {"rear": 0, "front": 0, "right": 1, "left": 1, "bottom": 2, "top": 2}
_ITEM = re.compile(r"^(\w+)\[(\d+)\]$")
Ends = tuple[Array, Array]


@dataclass(frozen=True, kw_only=True, eq=False)
class Tape:
    """One reading to take."""

    path: str
    what: str
    """From where to where, in words."""
    ends: Ends | None
    """The two places in body axes (m); None where it is no length on the car."""
    value: str
    band: str
    origin: str
    settles: str
    """Whose doubt it takes away, and how much of it."""
    weight: float
    """Share of doubt, by how unsettled each pair is. [-]"""
    again: bool
    """It is measured as well as a tape can: only worth it to be sure of the tape."""


def tapes_of(
    evaluation: Evaluation, verdicts: Iterable[Verdict], pairs: Iterable[Pair]
) -> tuple[Tape, ...]:
    """Return the bay's readings, those first that would settle most.

    Notes
    -----
    A pair counts by how near to even its odds are: w = 2 min(p, 1 - p). A reading's share of a
    pair's doubt is the squared correlation with its margin (`checks.verdicts.doubt_shares`); its
    weight is the greatest w times share over the pairs.

    """
    telling = _telling(evaluation, verdicts, pairs)
    places = _Places(evaluation)
    fields = Fields(evaluation.build)
    found = []
    for path, reading in evaluation.readings.items():
        if not path.startswith(BAY):
            continue
        said = places.of(path)
        if said is None:
            continue
        weight, settles = telling.get(path, (0.0, ""))
        field = fields.of(path)
        unit = "rad" if path.rpartition(".")[2] in ANGLES else "m"
        how = how_to(field.key, unit) if field else None
        error = how.error_of(reading.value, unit) if how else 0.0
        value, band = _said(reading, unit, evaluation.build)
        found.append(
            Tape(
                path=path,
                what=said[0],
                ends=said[1],
                value=value,
                band=band,
                origin=str(reading.origin),
                settles=settles,
                weight=weight,
                again=reading.origin is Origin.MEASURED and reading.spread <= 1.5 * error,
            )
        )
    rank = {Origin.HANDBOOK: 0, Origin.GUESS: 0}
    found.sort(
        key=lambda one: (
            -one.weight if one.weight > SURE else 0.0,
            rank.get(Origin(one.origin), 1),
            -one.weight,
        )
    )
    return tuple(found[:MOST])


def _telling(
    evaluation: Evaluation, verdicts: Iterable[Verdict], pairs: Iterable[Pair]
) -> dict[str, tuple[float, str]]:
    """Return each reading's weight, and whose doubt it takes away."""
    inputs = {one.check.id: one.inputs for one in verdicts if one.check.id in STEPS}
    every = frozenset().union(*inputs.values()) if inputs else frozenset[str]()
    found: dict[str, tuple[float, str]] = {}
    for pair in pairs:
        p = pair.judged.probability
        weight = max(2.0 * min(p, 1.0 - p), SURE / 2.0)
        for doubt in doubt_shares(pair.gap.margin, every, evaluation):
            known = found.get(doubt.path, (0.0, ""))
            if weight * doubt.share > known[0]:
                share = f"{doubt.share:.0%}".replace("%", " %")
                found[doubt.path] = (weight * doubt.share, f"{pair.name}: {share}")
    return found


def _said(reading: Reading, unit: str, build: Build) -> tuple[str, str]:
    triple = (reading.value, reading.low, reading.high)
    shown = "deg" if unit == "rad" else "mm"
    return value_and_band(triple, unit, shown, build.units, build.currency)


class _Places:
    """Finds where each reading of the bay lies on the car, at the nominal readings."""

    def __init__(self, evaluation: Evaluation) -> None:
        self.build = evaluation.build
        bay = self.build.car.get("bay")
        self.bay = bay if isinstance(bay, Bay) else Bay(path="car.bay", key="car.bay")
        self.placed: PlacedEngine | None = evaluation.result("placed_engine").value

    def of(self, path: str) -> tuple[str, Ends | None] | None:
        """Return from where to where a reading goes, in words and places; None: not taped."""
        name, _, rest = path.removeprefix(BAY).partition(".")
        if not rest:
            return self._plain(name)
        known = {
            "bonnet": self._station,
            "boxes": self._box,
            "solids": self._solid,
            "lofts": self._loft,
            "engines": self._engine,
        }
        return known[name](rest) if name in known else None

    def _value(self, section: Section, name: str) -> float:
        found = number(section, name, self.build)
        return 0.0 if found is None else found

    def _bay(self, name: str) -> float:
        return self._value(self.bay, name)

    def _plain(self, name: str) -> tuple[str, Ends | None] | None:
        b = self._bay
        middle = (b("bulkhead") + b("radiator")) / 2.0
        rail, cross = b("rail_width") / 2.0, (b("crossmember_front") + b("crossmember_rear")) / 2.0
        low = b("crossmember_top")
        high = (b("rail_top") + b("bonnet_front")) / 2.0
        head = b("bulkhead")
        known: dict[str, tuple[str, Array, Array]] = {
            "bulkhead": _from(0, "the bulkhead's face", (head, 0.0, high)),
            "radiator": _from(0, "the radiator's rear face", (b("radiator"), 0.0, high)),
            "crossmember_front": _from(
                0, "the cross-member's front", (b("crossmember_front"), 0.05, low)
            ),
            "crossmember_rear": _from(
                0, "the cross-member's rear", (b("crossmember_rear"), -0.05, low)
            ),
            "crossmember_top": _from(2, "the cross-member's top", (cross, 0.0, low)),
            "rail_top": _from(2, "the top of a rail", (middle, rail, b("rail_top"))),
            "tunnel_top": _from(2, "the tunnel's mouth, inside", (head, 0.0, b("tunnel_top"))),
            "bonnet_front": _from(
                2, "the bonnet over the radiator", (b("radiator"), 0.0, b("bonnet_front"))
            ),
            "bonnet_rear": _from(2, "the bonnet over the bulkhead", (head, 0.0, b("bonnet_rear"))),
            "tower_width": _across("tower to tower", (middle, b("tower_width") / 2.0, high)),
            "rail_width": _across("rail to rail", (middle, rail, b("rail_top") - 0.05)),
            "tunnel_width": _across(
                "the tunnel's mouth, inside", (head, b("tunnel_width") / 2.0, b("tunnel_top") / 2.0)
            ),
            "bonnet_width": _across(
                "the bonnet, inside its edges", (middle, b("bonnet_width") / 2.0, high)
            ),
            "hinge_x": _from(0, "the bonnet's hinge", (b("hinge_x"), 0.3, b("hinge_z"))),
            "hinge_z": _from(2, "the bonnet's hinge", (b("hinge_x"), 0.3, b("hinge_z"))),
        }
        if name == "opens":
            return "how far the bonnet opens, with an angle gauge on it", None
        return (known[name][0], known[name][1:]) if name in known else None

    def _station(self, rest: str) -> tuple[str, Ends | None] | None:
        name, _, entry = rest.rpartition(".")
        one = _named(self.bay, "bonnet").get(name)
        if not isinstance(one, Station):
            return None
        at = (self._value(one, "x"), 0.0, self._value(one, "height"))
        if entry == "drop":
            return f"how much lower the bonnet is at its sides, at {name}", None
        return _said_of(_from(0 if entry == "x" else 2, f"the bonnet's underside, {name}", at))

    def _box(self, rest: str) -> tuple[str, Ends | None] | None:
        name, _, side = rest.rpartition(".")
        one = _named(self.bay, "boxes").get(name)
        if one is None or side not in SIDES:
            return None
        low = [self._value(one, word) for word in ("rear", "right", "bottom")]
        high = [self._value(one, word) for word in ("front", "left", "top")]
        at = [(a + b) / 2.0 for a, b in zip(low, high, strict=True)]
        axis = SIDES[side]
        at[axis] = self._value(one, side)
        return _said_of(_from(axis, f"{name}, its {side}", (at[0], at[1], at[2])))

    def _solid(self, rest: str) -> tuple[str, Ends | None] | None:
        name, _, entry = rest.rpartition(".")
        item = _ITEM.match(entry)
        one = _named(self.bay, "solids").get(name)
        if one is None:
            return None
        if item is None:
            known = {
                "diameter": f"across {name}, with calipers",
                "doubt": f"check of {name}'s skin",
            }
            return (known[entry], None) if entry in known else None
        field, k = item[1], int(item[2])
        given = one.given.get(field)
        values = (
            [r.value for r in given if isinstance(r, Reading)] if isinstance(given, tuple) else []
        )
        if field == "size":
            return f"{name}: its {('length', 'width', 'height')[k]}", None
        if field not in ("start", "end", "centre", "corners") or len(values) <= k:
            return None
        first = 3 * (k // 3)
        x, y, z = values[first : first + 3]
        words = {
            "start": "one end", "end": "other end", "centre": "middle",
            "corners": f"point {k // 3 + 1}",
        }  # fmt: skip
        return _said_of(_from(k % 3, f"{name}, {words[field]}", (x, y, z)))

    def _loft(self, rest: str) -> tuple[str, Ends | None] | None:
        loft_name, _, behind = rest.partition(".stations.")
        name, _, entry = behind.rpartition(".")
        loft = _named(self.bay, "lofts").get(loft_name)
        one = _named(loft, "stations").get(name) if loft is not None else None
        if not isinstance(one, LoftStation):
            return None
        x = self._value(one, "x")
        heights = _values(one, "heights")
        item = _ITEM.match(entry)
        if item is None:
            at = (x, 0.0, heights[0] if heights else 0.0)
            return _said_of(_from(0, f"{loft_name}, station {name}", at)) if entry == "x" else None
        field, k = item[1], int(item[2])
        widths = _values(one, field if field != "heights" else "half") or _values(one, "left")
        if k >= min(len(heights), len(widths) or 0):
            return None
        side = -1.0 if field == "right" else 1.0
        at = (x, side * widths[k], heights[k])
        words = f"{loft_name} at {name}, height {k + 1}"
        return _said_of(_from(2 if field == "heights" else 1, words, at))

    def _engine(self, rest: str) -> tuple[str, Ends | None] | None:
        name, _, entry = rest.rpartition(".")
        one = _named(self.bay, "engines").get(name)
        section = one if isinstance(one, EngineBox) else None
        if self.placed is None or ".parts." in rest or ".packages." in rest:
            return None
        v = section or EngineBox(path=f"car.bay.engines.{name}", key="car.bay.engines")
        pose = self.placed.pose.nominal
        length = self._value(v, "length")
        nose = pose.turn @ np.array((length, 0.0, 0.0)) + pose.shift
        if entry in ("nose", "crank_offset", "crank_height"):
            axis = ("nose", "crank_offset", "crank_height").index(entry)
            x, y, z = (float(at) for at in nose)
            return _said_of(_from(axis, "the crankshaft at the nose", (x, y, z)))
        if entry in BY_HAND:
            return BY_HAND[entry], None
        line = engine_line(entry, lambda word: self._value(v, word))
        return (line[0], (_put(line[1], pose), _put(line[2], pose))) if line else None


def _put(at: tuple[float, ...], pose: Pose) -> Array:
    placed: Array = pose.turn @ np.array(at, float) + pose.shift
    return placed


def _from(axis: int, to: str, at: tuple[float, float, float]) -> tuple[str, Array, Array]:
    """Return a line from a datum plane to a place."""
    end = np.array(at)
    start = end.copy()
    start[axis] = 0.0
    return f"{DATUM[axis]} to {to}", start, end


def _across(words: str, left: tuple[float, float, float]) -> tuple[str, Array, Array]:
    end = np.array(left)
    return words, end * np.array((1.0, -1.0, 1.0)), end


def _said_of(one: tuple[str, Array, Array]) -> tuple[str, Ends]:
    return one[0], one[1:]


def _values(section: Section, name: str) -> list[float]:
    given = section.given.get(name)
    if not isinstance(given, tuple):
        return []
    return [one.value for one in given if isinstance(one, Reading)]


def _named(section: Section, name: str) -> Mapping[str, Section]:
    given = section.given.get(name)
    return given if isinstance(given, dict) else {}
