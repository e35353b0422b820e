"""The bench on which all runs of a plan are worked off at once, one node in each at a time."""

from __future__ import annotations

import numpy as np
import numpy.typing as npt

from drybuild.planning.calendar import Clock
from drybuild.planning.layout import Layout, Work
from drybuild.planning.sampling import Array, Whole

Nodes = npt.NDArray[np.int16]
FROM_THE_START = -1
"""Bound by nothing that went before: it could begin at once, or waited for a release."""


class Bench:
    """The state of all runs while they are worked off.

    The last axis of every array is the runs. What belongs to a node in each run is taken from a
    table of nodes and runs by its place in the flat table, which is several times as quick as by
    two indices: node · runs + run, called `at` here.
    """

    def __init__(self, layout: Layout, work: Work, clock: Clock, hours_kept: Array) -> None:
        nodes, runs = layout.size, hours_kept.size
        self.layout, self.work, self.clock = layout, work, clock
        self.runs, self.run = runs, np.arange(runs)
        self.day = np.zeros(runs)
        self.worked = np.zeros(runs)
        self.helped = np.zeros(runs)
        self.hours = work.hours / hours_kept
        self.after_lag = work.cure_days + work.away_days
        self.stretch = (
            layout.helpers / clock.calendar.helper_share if layout.helpers.any() else None
        )
        self.passive = np.array([kind == "order" for kind in layout.kinds])
        self.free = [np.zeros((count, runs)) for count in layout.slots]
        self.held = [0.0] * len(layout.slots)
        self.holder = [np.full((count, runs), FROM_THE_START, np.int16) for count in layout.slots]
        counts = np.array([len(before) for before in layout.before], np.int16)
        self.waiting = np.repeat(counts[:, np.newaxis], runs, axis=1)
        self.known = work.release_day.copy()
        self.bound_by = np.full((nodes, runs), FROM_THE_START, np.int16)
        self.last = np.full(runs, FROM_THE_START, np.int16)
        no_wait = counts == 0
        self.ready = np.where(no_wait[:, np.newaxis], self.known, np.inf)
        self.start = np.zeros((nodes, runs))
        self.end = np.zeros((nodes, runs))
        self.then, self.fan = _fan_out(layout)
        self.low, self.high = 0, int(np.flatnonzero(no_wait).max(initial=0)) + 1
        self.done = np.zeros(nodes, np.int64)

    def step(self, forced: int | None) -> None:
        """Take one node in each run and follow what it brings."""
        pick = self._choose(forced)
        at = pick * self.runs + self.run
        ready = self.ready.take(at)
        self.ready.put(at, np.inf)
        passive = self.passive[pick]
        start = np.where(passive, ready, np.maximum(self.day, ready))
        self.bound_by.put(at, np.where(start > ready, self.last, self.bound_by.take(at)))
        self.last = np.where(passive, self.last, pick.astype(np.int16))
        worked_by, end = self._do(pick, start, self.hours.take(at))
        end = np.where(passive, start, end)
        self.day = np.where(passive, self.day, worked_by)
        self.start.put(at, start)
        self.end.put(at, end)
        self._hold(pick, end + self.work.cure_days.take(at))
        self._release(pick, end + self.after_lag.take(at))
        self.done += np.bincount(pick, minlength=self.done.size)
        while self.low < self.done.size and self.done[self.low] == self.runs:
            self.low += 1

    def _choose(self, forced: int | None) -> Whole:
        """Return the node that each run takes: the first by priority of those that may begin."""
        if forced is not None:
            return np.full(self.runs, forced)
        window = self.ready[self.low : self.high]
        now = np.maximum(self.day, window.min(axis=0))
        return self.low + (window <= now).argmax(axis=0)

    def _do(self, pick: Whole, start: Array, hours: Array) -> tuple[Array, Array]:
        """Work the hours; return the day of the owner's last, and that of the helpers' too."""
        idle = np.flatnonzero(start > self.day)
        worked = self.worked.copy()
        worked[idle] = self.clock.hours_at(start[idle])
        busy = np.flatnonzero(hours > 0.0)
        done = worked + hours
        day = start.copy()
        day[busy] = self.clock.day_at(done[busy])
        passive = self.passive[pick]
        self.worked = np.where(passive, self.worked, done)
        if self.stretch is None:
            return day, day
        helped = busy[self.stretch[pick[busy]] > 0.0]
        with_help = np.maximum(worked, self.helped)[helped]
        with_help += self.stretch[pick[helped]] * hours[helped]
        self.helped[helped] = with_help
        longer = with_help > done[helped]
        end = day.copy()
        end[helped[longer]] = self.clock.day_at(with_help[longer])
        return day, end

    def _hold(self, pick: Whole, until: Array) -> None:
        """Keep the place while the work cures or a helper's hours are outstanding."""
        place = self.layout.place[pick]
        held = np.flatnonzero((place >= 0) & (until > self.day))
        for index in np.unique(place[held]):
            runs = held[place[held] == index]
            slots = self.free[index]
            slot = slots[:, runs].argmin(axis=0)
            slots[slot, runs] = until[runs]
            self.held[index] = max(self.held[index], float(until[runs].max()))
            self.holder[index][slot, runs] = pick[runs]
            self._put_off(index, runs)

    def _put_off(self, place: int, runs: Whole) -> None:
        """Let nothing that is ready begin in a place before it is free."""
        until, holder = self._free_from(place, runs)
        window = self.layout.place[self.low : self.high]
        here = np.ix_(self.low + np.flatnonzero(window == place), runs)
        later = self.ready[here] < until
        self.ready[here] = np.where(later, until, self.ready[here])
        self.bound_by[here] = np.where(later, holder, self.bound_by[here])

    def _free_from(self, place: int, runs: Whole) -> tuple[Array, Nodes]:
        """Return the day on which a place is free, and the node that holds it till then."""
        slots = self.free[place][:, runs]
        slot = slots.argmin(axis=0)
        across = np.arange(runs.size)
        return slots[slot, across], self.holder[place][slot, runs]

    def _release(self, pick: Whole, out: Array) -> None:
        """Tell the nodes behind those just done; no node stands twice behind another."""
        arms = self.then[pick, : int(self.fan[pick].max(initial=0))]
        runs, arm = np.nonzero(arms >= 0)
        node = arms[runs, arm]
        at = node * self.runs + runs
        day = out[runs] + self.work.lead_days.take(at)
        known = self.known.take(at)
        later = np.flatnonzero(day > known)
        self.known.put(at[later], day[later])
        self.bound_by.put(at[later], pick[runs[later]])
        waiting = self.waiting.take(at) - 1
        self.waiting.put(at, waiting)
        last = np.flatnonzero(waiting == 0)
        if last.size:
            self._open(node[last], runs[last], np.maximum(day, known)[last])

    def _open(self, node: Whole, runs: Whole, day: Array) -> None:
        """Let nodes begin on a day, or when their place is free."""
        self.high = max(self.high, int(node.max()) + 1)
        at = node * self.runs + runs
        soonest = day.min()
        for place, held in enumerate(self.held):
            if held > soonest and (here := np.flatnonzero(self.layout.place[node] == place)).size:
                until, holder = self._free_from(place, runs[here])
                late = until > day[here]
                self.bound_by.put(at[here[late]], holder[late])
                day[here] = np.maximum(day[here], until)
        self.ready.put(at, day)


def _fan_out(layout: Layout) -> tuple[Whole, Whole]:
    """Return the nodes behind each node as a table filled up with -1, and how many there are."""
    behind: list[list[int]] = [[] for _ in layout.names]
    for node, before in enumerate(layout.before):
        for earlier in before:
            behind[earlier].append(node)
    fan = np.array([len(nodes) for nodes in behind], np.int64)
    table = np.full((layout.size, int(fan.max(initial=0))), -1)
    for node, nodes in enumerate(behind):
        table[node, : len(nodes)] = nodes
    return table, fan
