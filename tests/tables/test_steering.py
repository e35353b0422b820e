from __future__ import annotations

import pytest

from drybuild.errors import TableError
from drybuild.tables.steering import effort_limit


def test_a_failed_assistance_is_allowed_more_force_and_a_wider_bend() -> None:
    intact, failed = effort_limit("intact"), effort_limit("assistance failed")
    assert failed.force > intact.force
    assert failed.radius > intact.radius


def test_an_unknown_case_is_refused() -> None:
    with pytest.raises(TableError, match="no row"):
        effort_limit("towed")
