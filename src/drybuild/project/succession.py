"""What comes before what: an order that respects it, and the circle where there is none."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

After = Mapping[str, Sequence[str]]
"""For each name, the names that come before it; all of them are keys."""


def order(after: After) -> tuple[str, ...]:
    """Return the names so that each comes behind all that it waits for; ties keep their order.

    Names on a circle, and those behind one, are left out: see `circle`.
    """
    waiting = {name: len(set(before)) for name, before in after.items()}
    then = followers(after)
    ready = [name for name, count in waiting.items() if count == 0]
    done: list[str] = []
    for name in ready:  # grows while it is walked
        done.append(name)
        for follower in then[name]:
            waiting[follower] -= 1
            if waiting[follower] == 0:
                ready.append(follower)
    return tuple(done)


def followers(after: After) -> dict[str, list[str]]:
    """Return, for each name, the names that wait for it."""
    then: dict[str, list[str]] = {name: [] for name in after}
    for name, before in after.items():
        for earlier in dict.fromkeys(before):
            then[earlier].append(name)
    return then


def circle(after: After) -> tuple[str, ...]:
    """Return a circle of names that wait for each other, first again at the end, or nothing."""
    sound = set(order(after))
    stuck = [name for name in after if name not in sound]
    if not stuck:
        return ()
    path = [stuck[0]]
    while len(set(path)) == len(path):
        path.append(next(name for name in after[path[-1]] if name not in sound))
    return tuple(reversed(path[path.index(path[-1]) :]))
