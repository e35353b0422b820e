"""What a quantity is: a function with a unit, label and source; its parameters are its needs."""

from __future__ import annotations

import inspect
from collections.abc import Callable
from dataclasses import dataclass
from functools import cached_property
from typing import Any, TypeVar

from drybuild.project.samples import Values

Labelled = dict[str, Values]
"""One value per label: front and rear, or each circuit, gear, pair."""
F = TypeVar("F", bound=Callable[..., Any])  # each quantity has its own parameters and result


@dataclass(frozen=True, kw_only=True)
class Quantity:
    """A named result of the graph."""

    name: str
    function: Callable[..., Any]  # see F
    unit: str
    label: str
    per: str
    """What it is labelled by (axle, gear, circuit, ...); empty for a single value."""
    source: str
    shown: str
    """The unit that people read it in, metric."""
    aggregate: bool
    """It sums over the whole build; the chooser holds it between its lightest and heaviest."""
    step: bool
    """A working result that is no number: a curve, a run. Not listed, but traced."""

    @cached_property
    def needs(self) -> tuple[str, ...]:
        """Names of what it is computed from."""
        code = inspect.unwrap(self.function).__code__  # a signature takes ten times as long
        names: tuple[str, ...] = code.co_varnames[: code.co_argcount + code.co_kwonlyargcount]
        return names

    @property
    def matter(self) -> str:
        """The matter that it belongs to: the first word of its module's name."""
        return self.function.__module__.rpartition(".")[2].partition("_")[0]

    @property
    def words(self) -> str:
        """What its docstring says, else its label."""
        return inspect.getdoc(self.function) or self.label

    def __call__(self, *args: Any, **kwargs: Any) -> Any:  # as the function it wraps
        """Compute it directly; tests do."""
        return self.function(*args, **kwargs)


def quantity(
    unit: str,
    label: str,
    *,
    source: str,
    per: str = "",
    shown: str = "",
    aggregate: bool = False,
) -> Callable[[F], Quantity]:
    """Make a quantity of a function.

    Parameters
    ----------
    unit : str
        SI unit of the result; ``-`` for none, ``date`` for days since 1970-01-01.
    label : str
        What a person reads, no unit: "Pedal force for a 0.9 g stop".
    source : str
        Source id of the method in ``references/``.
    per : str
        What the result is labelled by; the function then returns a dict of arrays.
    shown : str
        The unit that people read it in, when it is not the SI one.
    aggregate : bool
        True when it sums over every picked option (mass, cost, current).

    Returns
    -------
    Callable
        The decorator.

    """

    def make(function: F) -> Quantity:
        return Quantity(
            name=function.__name__,
            function=function,
            unit=unit,
            label=label,
            per=per,
            source=source,
            shown=shown or unit,
            aggregate=aggregate,
            step=False,
        )

    return make


def step(label: str, *, source: str, aggregate: bool = False) -> Callable[[F], Quantity]:
    """Make a working result of a function: any object that later quantities need."""

    def make(function: F) -> Quantity:
        return Quantity(
            name=function.__name__,
            function=function,
            unit="",
            label=label,
            per="",
            source=source,
            shown="",
            aggregate=aggregate,
            step=True,
        )

    return make
