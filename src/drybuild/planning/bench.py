"""The bench on which all runs of a plan are worked off at once, one node in each at a time."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

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
        self.layout, self.clock = layout, clock
        self.runs, self.run = runs, np.arange(runs)
        self.day = np.zeros(runs)
        self.worked = np.zeros(runs)
        self.helped = np.zeros(runs)
        self.hours = work.hours / hours_kept
        self.cure, self.lead = map(np.ascontiguousarray, (work.cure_days, work.lead_days))
        self.after_lag = work.cure_days + work.away_days
        self.stretch = (
            layout.helpers / clock.calendar.helper_share if layout.helpers.any() else None
        )
        self.passive = layout.orders
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
        self.behind, self.first, self.fan = _followers(layout)
        self.opened = no_wait
        self.left = np.full(nodes, runs)
        """Runs in which each node is still to be done."""
        self.live: Whole = np.arange(0)
        """Nodes that are open and not done in some run, by priority."""

    def work_off(self, sequence: Sequence[int] | None) -> None:
        """Do every node in every run, by priority or just in this order."""
        for step in range(self.layout.size):
            self.step(None if sequence is None else sequence[step])

    def step(self, forced: int | None) -> None:
        """Take one node in each run and follow what it brings."""
        self.live = (self.opened & (self.left > 0)).nonzero()[0]
        pick = self._choose() if forced is None else np.full(self.runs, forced)
        at = pick * self.runs + self.run
        ready = self.ready.take(at)
        _put(self.ready, at, np.inf)
        passive = self.passive[pick]
        start = np.where(passive, ready, np.maximum(self.day, ready))
        _put(self.bound_by, at, np.where(start > ready, self.last, self.bound_by.take(at)))
        self.last = np.where(passive, self.last, pick.astype(np.int16))
        worked_by, end = self._do(pick, start, self.hours.take(at))
        self.day = np.where(passive, self.day, worked_by)
        _put(self.start, at, start)
        _put(self.end, at, end)
        self._hold(pick, end + self.cure.take(at))
        self._release(pick, end + self.after_lag.take(at))
        self.left -= np.bincount(pick, minlength=self.left.size)

    def _choose(self) -> Whole:
        """Return the node that each run takes: the first by priority of those that may begin."""
        ready = self.ready[self.live]
        due = ready <= np.maximum(self.day, ready.min(axis=0))
        turns = np.arange(self.live.size, 0, -1, dtype=np.int16)  # the first counts most
        turn: Nodes = (due * turns[:, np.newaxis]).max(axis=0)
        return self.live[self.live.size - turn]

    def _do(self, pick: Whole, start: Array, hours: Array) -> tuple[Array, Array]:
        """Work the hours; return the day of the owner's last, and that of the helpers' too."""
        waited = (start > self.day).nonzero()[0]
        worked = self.worked.copy()
        worked[waited] = self.clock.hours_at(start[waited])
        busy = hours.nonzero()[0]
        done, day = worked + hours, start.copy()
        day[busy] = self.clock.day_at(done[busy])
        self.worked = np.where(self.passive[pick], self.worked, done)
        if self.stretch is None:
            return day, day
        helped = busy[self.stretch[pick[busy]] > 0.0]
        with_help = np.maximum(worked[helped], self.helped[helped])
        with_help += self.stretch[pick[helped]] * hours[helped]
        self.helped[helped] = with_help
        longer = with_help > done[helped]
        end = day.copy()
        end[helped[longer]] = self.clock.day_at(with_help[longer])
        return day, end

    def _hold(self, pick: Whole, until: Array) -> None:
        """Keep the place while the work cures or a helper's hours are outstanding."""
        place = self.layout.place[pick]
        held = ((place >= 0) & (until > self.day)).nonzero()[0]
        for index in set(place[held].tolist()):
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
        here = self.live[self.layout.place[self.live] == place]
        at = here[:, np.newaxis] * self.runs + runs
        later = self.ready.take(at) < until
        across = later.nonzero()[1]
        _put(self.ready, at[later], until[across])
        _put(self.bound_by, at[later], holder[across])

    def _free_from(self, place: int, runs: Whole) -> tuple[Array, Nodes]:
        """Return the day on which a place is free, and the node that holds it till then."""
        slots = self.free[place][:, runs]
        slot = slots.argmin(axis=0)
        across = np.arange(runs.size)
        return slots[slot, across], self.holder[place][slot, runs]

    def _release(self, pick: Whole, out: Array) -> None:
        """Tell the nodes behind those just done; none of them stands twice behind another."""
        fan = self.fan[pick]
        runs = self.run.repeat(fan)
        links = (self.first[pick] + fan - fan.cumsum()).repeat(fan) + np.arange(runs.size)
        node = self.behind[links]
        at = node * self.runs + runs
        day, known = out[runs] + self.lead.take(at), self.known.take(at)
        later = (day > known).nonzero()[0]
        _put(self.known, at[later], day[later])
        _put(self.bound_by, at[later], pick[runs[later]])
        waiting = self.waiting.take(at) - 1
        _put(self.waiting, at, waiting)
        free = (waiting == 0).nonzero()[0]
        if free.size:
            self._open(node[free], runs[free], np.maximum(day[free], known[free]))

    def _open(self, node: Whole, runs: Whole, day: Array) -> None:
        """Let nodes begin on a day, or when their place is free."""
        self.opened[node] = True
        at = node * self.runs + runs
        soonest = day.min()
        for place, held in enumerate(self.held):
            if held > soonest and (here := np.flatnonzero(self.layout.place[node] == place)).size:
                until, holder = self._free_from(place, runs[here])
                late = until > day[here]
                _put(self.bound_by, at[here[late]], holder[late])
                day[here] = np.maximum(day[here], until)
        _put(self.ready, at, day)


def _put(table: npt.NDArray[Any], at: Whole, values: npt.ArrayLike) -> None:  # of any numbers
    """Write into a table at places of the flat one."""
    table.reshape(-1)[at] = values


def _followers(layout: Layout) -> tuple[Whole, Whole, Whole]:
    """Return the nodes behind each node, all in a row; where each begins; and how many."""
    behind: list[list[int]] = [[] for _ in layout.names]
    for node, before in enumerate(layout.before):
        for earlier in before:
            behind[earlier].append(node)
    fan = np.array([len(nodes) for nodes in behind], np.int64)
    row = np.array([node for nodes in behind for node in nodes], np.int64)
    return row, fan.cumsum() - fan, fan
