"""What the planner is given: jobs, discoveries, orders, and the plan."""

from __future__ import annotations

from dataclasses import dataclass, field

from drybuild.planning.calendar import Calendar
from drybuild.planning.estimates import NOTHING, ThreePoint


@dataclass(frozen=True, kw_only=True)
class Job:
    """A piece of work that the owner does, or sends out."""

    name: str
    hours: ThreePoint = NOTHING
    """The owner's own hours."""
    cost: ThreePoint = NOTHING
    """Material and bills, paid when the job is finished."""
    after: tuple[str, ...] = ()
    place: str = ""
    """The place that the job holds from its start until it has cured; empty if it needs none."""
    helpers: int = 0
    """People needed beside the owner for all of the hours."""
    trade: str = ""
    """Jobs of one trade tend to go well or badly together."""
    cure_days: ThreePoint = NOTHING
    """Wait after the last hour, in place: paint, seam sealer, adhesive."""
    away_days: ThreePoint = NOTHING
    """Wait after the last hour, elsewhere: machine shop, trimmer, plater. Frees the place."""
    hired_hours: ThreePoint = NOTHING
    hired_rate: float = 0.0
    """Money an hour for the hired hours."""
    earliest_day: float = 0.0
    """Not before this day, counted from the start."""
    needs: tuple[str, ...] = ()
    """Systems that must be decided before the job begins."""
    caution: str = ""


@dataclass(frozen=True, kw_only=True)
class Grade:
    """One way that a discovery can turn out."""

    name: str
    odds: float
    hours: ThreePoint = NOTHING
    cost: ThreePoint = NOTHING
    lead_days: ThreePoint = NOTHING
    """Wait for material between the finding and the repair."""


@dataclass(frozen=True, kw_only=True)
class Discovery:
    """Something that is only known once a job is done: a zone that is sound, or is not."""

    name: str
    grades: tuple[Grade, ...]
    """From the best to the worst; the odds sum to 1. The plan counts on the first."""
    revealed_by: str
    """The job after which it is known."""
    after: tuple[str, ...] = ()
    """Further jobs, and repairs of other finds, that must be done before the repair begins."""
    before: tuple[str, ...] = ()
    """Jobs that wait for the repair; empty means all that follow the revealing job."""
    causes: tuple[tuple[str, float], ...] = ()
    """Common causes (rust, a wet scuttle, an old crash) that make discoveries come together, each
    with its loading: the correlation of the hidden condition with it. Squared they sum to 1 at
    most."""
    place: str = ""
    trade: str = ""
    helpers: int = 0
    caution: str = ""


@dataclass(frozen=True, kw_only=True)
class Order:
    """Something bought that must be there before a job begins."""

    part: str
    price: ThreePoint = NOTHING
    lead_days: ThreePoint = NOTHING
    deposit_share: float = 0.0
    """Share of the price paid on ordering; the rest is paid on delivery."""
    needed_by: tuple[str, ...] = ()
    after: tuple[str, ...] = ()
    """Jobs that must be done before it can be ordered: a measurement, the strip-down."""
    placed_day: float | None = None
    """Day on which it was or will be ordered; None leaves it to the planner."""
    system: str = ""
    """The system that must be decided before it can be ordered."""


@dataclass(frozen=True, kw_only=True)
class Correlation:
    """How much of a figure's variance is shared.

    When nothing is known, practice asks for a correlation of about 0.2 to 0.3 between cost
    elements (Book 1999; Garvey, *Probability Methods for Cost Uncertainty Analysis*; from
    memory). Across trades the figures here share 0.2, within a trade 0.3.
    """

    common: float = 0.2
    trade: float = 0.1


@dataclass(frozen=True, kw_only=True)
class Plan:
    """Everything that the planner needs to know."""

    calendar: Calendar
    jobs: tuple[Job, ...]
    discoveries: tuple[Discovery, ...] = ()
    orders: tuple[Order, ...] = ()
    places: dict[str, int] = field(default_factory=dict)
    """How many of each place there are; a place not named here exists once."""
    correlation: Correlation = Correlation()

    @property
    def steps(self) -> tuple[Job | Discovery, ...]:
        """Jobs and discoveries, whose names must all differ."""
        return (*self.jobs, *self.discoveries)

    def job(self, name: str) -> Job:
        """Return the job of this name."""
        return next(job for job in self.jobs if job.name == name)
