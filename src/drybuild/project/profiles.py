"""An outline measured across: pairs of a place and a length there, each with its spread."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise
from typing import Any

import numpy as np

from drybuild.project.document import Listing, Node, Scalar
from drybuild.project.linkage import TapeField
from drybuild.project.reader import Reader
from drybuild.project.samples import Values
from drybuild.project.sections import Field, Section, describe, is_empty

PAIR = 2


@dataclass(frozen=True, kw_only=True)
class Profile:
    """An outline by its points."""

    place: Values
    """(points, samples), rising. [m]"""
    length: Values
    """(points, samples). [m]"""


class ProfileField(Field[Profile]):
    """A list of pairs ``[[0 mm, 170 mm], [30 mm, 178 mm]]``, the places rising."""

    kind = "outline"

    def __init__(self, words: str) -> None:
        super().__init__(words)
        self.item = TapeField("m", words, least=None)

    def read(self, node: Node, path: str, reader: Reader) -> Any:  # tuple of pairs of readings
        """Return the pairs of readings."""
        if is_empty(node) or (isinstance(node, Scalar) and node.value == "?"):
            return None
        pairs = []
        for number, item in enumerate(node.items if isinstance(node, Listing) else ()):
            if not isinstance(item, Listing) or len(item.items) != PAIR:
                return self._refuse(item, f"{path}[{number}]", reader)
            pair = [
                self.item.read(one, f"{path}[{number}][{k}]", reader)
                for k, one in enumerate(item.items)
            ]
            if not all(pair):
                return None
            pairs.append(tuple(pair))
        rising = all(a[0].value < b[0].value for a, b in pairwise(pairs) if a[0] and b[0])
        return tuple(pairs) if len(pairs) > 1 and rising else self._refuse(node, path, reader)

    def _refuse(self, node: Node, path: str, reader: Reader) -> None:
        reader.problem(
            "curve-unreadable",
            node.where,
            path,
            f"{describe(node)} is not an outline",
            'Write two or more pairs, the first lengths rising: "[[0 mm, 170 mm], '
            '[30 mm, 178 mm]]".',
        )

    def take(self, section: Section) -> Profile:
        """Return the points over the samples."""
        path = section.path_of(self.name)
        given = section.given.get(self.name)
        if not isinstance(given, tuple):
            section.bench.note(path)
            raise self.missing(section)
        columns = []
        for which in range(PAIR):
            drawn = [
                section.bench.take(f"{path}[{k}][{which}]", pair[which])
                for k, pair in enumerate(given)
            ]
            columns.append(np.array(drawn))
        return Profile(place=columns[0], length=columns[1])

    def schema(self) -> dict[str, Any]:  # JSON Schema is free-form JSON
        """Return the JSON Schema."""
        pair = {"type": "array", "items": {"type": ["string", "number"]}, "minItems": PAIR}
        return {"description": self.words, "type": ["array", "string", "null"], "items": pair}


profile = ProfileField
