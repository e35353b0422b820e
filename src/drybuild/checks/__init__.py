"""Checks: questions with limits, one module a matter, and the verdicts on them.

Belongs here: data (`Check`) and judging. Does not: sums. To add one: a `Check` in the ``CHECKS``
of ``<matter>.py``, and a test that reads the verdict on a small build file; a new module gets a
line in ``all.py``.
"""
