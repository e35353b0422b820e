"""What can go wrong, in three kinds that stay apart.

A fault in our code is an exception of this tree::

    DrybuildError
    ├── InputError    a physics function was given what it cannot take
    ├── TableError    a published table was asked outside its rows
    ├── UnitError     a text does not read as a number with the wanted unit
    ├── MissingInput  a quantity needs something that nobody has given yet (becomes "open")
    │   └── DoesNotApply  the question has no sense for this car (it is not asked)
    ├── GraphError    the graph of quantities does not hold together
    ├── NetworkError  a network of options does not hold together (options/network.py)
    ├── TooLarge      a network of options is too large to compile (options/diagram.py)
    └── SaveError     a file could not be saved, or changed since it was read

A fault in the person's file is a `Problem`: collected, never raised. A fault in the design of the
car is a failing verdict, which is a result and no error at all.
"""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

import numpy as np
import numpy.typing as npt


class DrybuildError(Exception):
    """Root of every exception that drybuild raises on purpose."""


class InputError(DrybuildError):
    """A physics function was given a value that its method does not cover."""


class TableError(DrybuildError):
    """A published table was asked for a row that it does not have."""


class UnitError(DrybuildError):
    """A text does not read as a number with the wanted unit."""


class GraphError(DrybuildError):
    """The graph of quantities does not hold together: a name, a unit or a circle."""


class MissingInput(DrybuildError):  # noqa: N818  a signal, not an error
    """A quantity needs something that is not given; the graph turns it into "open"."""

    def __init__(self, path: str, why: str) -> None:
        super().__init__(f"{path}: {why}")
        self.path = path
        self.why = why


class DoesNotApply(MissingInput):
    """The question has no sense for this car: no harness, no roll bar, no traction battery."""


class SaveError(DrybuildError):
    """A file could not be saved, or was changed by somebody else since it was read."""


def require(ok: bool | npt.ArrayLike, name: str, value: object, unit: str, allowed: str) -> None:
    """Raise `InputError` unless every element of `ok` is true.

    Parameters
    ----------
    ok : bool or array
        The condition; arrays must hold in every element. NaN compares false and is refused.
    name : str
        The parameter, as the signature names it.
    value : object
        What was found.
    unit : str
        The unit of the value, for the message.
    allowed : str
        What would have been right, in words: "more than zero".

    Raises
    ------
    InputError
        Some element of the condition is false.

    """
    if not (ok if isinstance(ok, bool) else np.asarray(ok).all()):
        found = np.asarray(value)
        shown = f"{found}" if found.ndim == 0 else f"an array from {found.min()} to {found.max()}"
        raise InputError(f"{name} is {shown} {unit}; it must be {allowed}")


def require_positive(**given: tuple[npt.ArrayLike, str]) -> None:
    """Raise `InputError` unless every value is more than zero; each comes with its unit.

    A sample without a solution (nan) passes: it stays nan.

    Raises
    ------
    InputError
        Some element of a value is zero or less.

    """
    for name, (value, unit) in given.items():
        require(~np.less_equal(value, 0.0), name, value, unit, "more than zero")


@dataclass(frozen=True, kw_only=True)
class Problem:
    """One thing wrong in the person's file, where it is, and how to put it right."""

    code: str
    """Stable name of this kind of problem; one heading each in docs/reference/problems.md."""
    file: Path
    line: int
    """Counted from 1."""
    field: str
    """As the person would say it: ``electrics.circuits.headlamps.run``."""
    wrong: str
    mend: str

    def __str__(self) -> str:
        return f"{self.file}:{self.line}: {self.field}: {self.wrong}\n  {self.mend} [{self.code}]"
