"""The network of jobs by itself: critical path, float, classic PERT."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from drybuild.planning.estimates import ThreePoint
from drybuild.planning.spread import NORMAL
from drybuild.project.succession import After, followers, order

Array = npt.NDArray[np.float64]


@dataclass(frozen=True, kw_only=True)
class Timing:
    """The earliest and latest dates of a job, and its float."""

    early_start: float
    early_finish: float
    late_start: float
    late_finish: float

    @property
    def slack(self) -> float:
        """How much the job can slip without moving the end."""
        return self.late_start - self.early_start


@dataclass(frozen=True, kw_only=True)
class Network:
    """A timed network."""

    length: float
    timings: dict[str, Timing]
    critical: tuple[str, ...]
    """Jobs without float, in order."""


def early_finishes(
    durations: Mapping[str, Array | float], after: After, lags: Mapping[str, float] | None = None
) -> dict[str, Array]:
    """Return the earliest finish of each job; durations may be arrays of runs.

    Parameters
    ----------
    durations : mapping
        Duration of each job. [any unit of time]
    after : mapping
        The jobs before each job.
    lags : mapping, optional
        Wait behind each job before its followers may begin. [as durations]

    """
    lags = lags or {}
    finish: dict[str, Array] = {}
    for job in order(after):
        start: Array = np.zeros(())
        for earlier in after[job]:
            start = np.maximum(start, finish[earlier] + lags.get(earlier, 0.0))
        finish[job] = start + durations[job]
    return finish


def critical_path(
    durations: Mapping[str, float], after: After, lags: Mapping[str, float] | None = None
) -> Network:
    """Return early and late dates, float and the critical jobs.

    References
    ----------
    .. [1] Kelley and Walker, "Critical-path planning and scheduling", Proc. Eastern Joint
       Computer Conference, 1959, 160-173 (from memory).

    """
    lags = lags or {}
    early = {job: float(end) for job, end in early_finishes(durations, after, lags).items()}
    length = max((end + lags.get(job, 0.0) for job, end in early.items()), default=0.0)
    then = followers(after)
    late_start: dict[str, float] = {}
    for job in reversed(order(after)):
        latest = min((late_start[follower] for follower in then[job]), default=length)
        late_start[job] = latest - lags.get(job, 0.0) - durations[job]
    timings = {
        job: Timing(
            early_start=end - durations[job],
            early_finish=end,
            late_start=late_start[job],
            late_finish=late_start[job] + durations[job],
        )
        for job, end in early.items()
    }
    slight = 1e-9 * max(length, 1.0)
    critical = tuple(job for job, timing in timings.items() if timing.slack <= slight)
    return Network(length=length, timings=timings, critical=critical)


@dataclass(frozen=True, kw_only=True)
class Pert:
    """The textbook's answer: a normal end date from the critical path alone."""

    network: Network
    mean: float
    variance: float

    def chance_by(self, deadline: float) -> float:
        """Return the textbook's probability of being done by a deadline."""
        return NORMAL.cdf((deadline - self.mean) / self.variance**0.5)


def classic_pert(figures: Mapping[str, ThreePoint], after: After) -> Pert:
    """Return the classic PERT estimate.

    Notes
    -----
    Mean (a + 4 m + b)/6 and variance ((b − a)/6)² of each job; both are summed along the critical
    path of the means, and the sum is taken as normal. Where paths merge the true end is later, so
    the chance is too high: use it to compare with a textbook, and runs for everything else. Where
    several paths are critical the one with the most variance counts.

    References
    ----------
    .. [1] Malcolm et al., Operations Research 7, 1959, 646-669 (from memory).

    """
    means = {job: (f.low + 4.0 * f.likely + f.high) / 6.0 for job, f in figures.items()}
    network = critical_path(means, after)
    variances = {job: ((f.high - f.low) / 6.0) ** 2 for job, f in figures.items()}
    critical = {job: after[job] for job in network.critical}
    return Pert(
        network=network,
        mean=network.length,
        variance=_most_variance(critical, variances, network),
    )


def _most_variance(critical: After, variances: Mapping[str, float], network: Network) -> float:
    """Return the variance of the most uncertain path among the critical ones."""
    total: dict[str, float] = {}
    for job in network.critical:
        start = network.timings[job].early_start
        joined = [
            total[earlier]
            for earlier in critical[job]
            if earlier in total and _meets(network.timings[earlier].early_finish, start)
        ]
        total[job] = variances[job] + max(joined, default=0.0)
    return max(total.values(), default=0.0)


def _meets(end: float, start: float) -> bool:
    return abs(end - start) <= 1e-9 * max(start, 1.0)


def tails(
    durations: Mapping[str, float], after: After, lags: Mapping[str, float]
) -> dict[str, float]:
    """Return for each job the longest way from its start to the end of everything."""
    then = followers(after)
    tail: dict[str, float] = {}
    for job in reversed(order(after)):
        rest = max((tail[follower] for follower in then[job]), default=0.0)
        tail[job] = durations[job] + lags.get(job, 0.0) + rest
    return tail


def all_before(job: str, after: After) -> frozenset[str]:
    """Return every job that must be done before this one, near and far."""
    found: set[str] = set()
    rest: list[str] = list(after[job])
    while rest:
        earlier = rest.pop()
        if earlier not in found:
            found.add(earlier)
            rest.extend(after[earlier])
    return frozenset(found)
