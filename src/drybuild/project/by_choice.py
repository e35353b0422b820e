"""A reading whose typical range goes by a choice in the same section: a pump by what it feeds."""

from __future__ import annotations

from drybuild.project.fields import ReadingField
from drybuild.project.sections import Section


class ReadingByChoice(ReadingField):
    """A reading with typical ranges ``<system>.<field>.<choice>``."""

    def __init__(
        self,
        unit: str,
        words: str,
        *,
        by: str,
        least: float | None = 0.0,
        most: float | None = None,
    ) -> None:
        super().__init__(unit, words, typical=True, least=least, most=most)
        self.by = by

    def typical_key(self, section: Section) -> str:
        """Return the key of the range for the section's choice: ``front_brakes.friction.disc``."""
        return f"{section.key}.{self.name}.{getattr(section, self.by)}"


reading_by = ReadingByChoice
