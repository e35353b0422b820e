"""Advice that other people gave, taken over from their replies and kept with the build."""

from __future__ import annotations

from drybuild.project.fields import text
from drybuild.project.sections import Section


class Advice(Section):
    """One piece of advice."""

    about = text("What it is about: a check, a quantity, an entry, or anything")
    says = text("The advice")
    by = text("Who gave it")
