from drybuild.planning.solver import Link, Piece, Task, Use, shortest


def machine(name: str, length: int) -> Task:
    return Task(name=name, length=length, uses=(Use(of="machine"),))


def test_one_machine_takes_one_task_at_a_time() -> None:
    found = shortest([machine("a", 3), machine("b", 4)], [], {"machine": 1}, seconds=5.0)
    assert found is not None
    assert (found.length, found.bound, found.proven) == (7, 7, True)


def test_two_machines_take_two() -> None:
    found = shortest([machine("a", 3), machine("b", 4)], [], {"machine": 2}, seconds=5.0)
    assert found is not None
    assert found.length == 4


def test_a_wait_may_depend_on_when_it_begins() -> None:
    through = (Piece(first=0, last=2, wait=10), Piece(first=3, last=99, wait=1))
    tasks = [Task(name="a", length=1), Task(name="b", length=1)]
    found = shortest(tasks, [Link(before="a", after="b", through=through)], {}, seconds=5.0)
    assert found is not None
    assert found.starts == {"a": 2, "b": 4}
    assert found.length == 5


def test_a_tail_counts_for_the_end() -> None:
    tails = {"a": (Piece(first=0, last=99, wait=6),)}
    tasks = [machine("a", 1), machine("b", 4)]
    found = shortest(tasks, [], {"machine": 1}, seconds=5.0, tails=tails)
    assert found is not None
    assert found.length == 7


def test_nothing_longer_than_what_is_known_is_looked_for() -> None:
    tasks = [machine("a", 3), machine("b", 4)]
    found = shortest(tasks, [], {"machine": 1}, seconds=5.0, limit=7)
    assert found is not None
    assert (found.length, found.proven) == (7, True)
    assert shortest(tasks, [], {"machine": 1}, seconds=5.0, limit=6) is None
