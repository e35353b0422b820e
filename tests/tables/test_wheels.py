"""Wheel tables: every thread and class reads, larger ones hold more, unknown ones are refused."""

from __future__ import annotations

import pytest

from drybuild.errors import TableError
from drybuild.tables.wheels import (
    bead_seat_diameter,
    fastener_grades,
    fastener_thread,
    fastener_threads,
    largest_rotor_in_practice,
    proof_stress,
    rim_codes,
)

INCH = 0.0254


def test_every_thread_is_tightened_within_its_own_range() -> None:
    assert fastener_threads()
    for name in fastener_threads():
        thread = fastener_thread(name)
        assert 0.0 < thread.pitch < thread.diameter < 0.02
        assert 0.0 < thread.least_torque < thread.largest_torque < 300.0


def test_every_class_has_a_proof_stress_of_steel() -> None:
    assert fastener_grades()
    for grade in fastener_grades():
        assert 200e6 < proof_stress(grade) < 1200e6


def test_bead_seats_lie_near_their_code_and_grow_with_it() -> None:
    seats = [bead_seat_diameter(code) for code in rim_codes()]
    assert seats == sorted(seats)
    for code, seat in zip(rim_codes(), seats, strict=True):
        assert seat == pytest.approx(code * INCH, abs=0.005)


def test_a_thick_caliper_leaves_room_for_a_smaller_disc() -> None:
    thick, thin = largest_rotor_in_practice(15.0)
    assert thick < thin < 15.0 * INCH


def test_what_the_tables_do_not_list_is_refused() -> None:
    with pytest.raises(TableError):
        fastener_thread("M99x9")
    with pytest.raises(TableError):
        bead_seat_diameter(12.5)
