"""A reading whose typical range goes by a choice in the same section: a pump by what it feeds."""

from __future__ import annotations

from drybuild.project.fields import ChoiceField, ReadingField
from drybuild.project.readings import Reading
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

    def typical_reading(self, section: Section) -> Reading | None:
        """Return the range for the section's choice."""
        field = type(section).FIELDS[self.by]
        if not isinstance(field, ChoiceField):
            return None
        asked = ReadingField(
            self.unit,
            self.words,
            typical=f"{section.key}.{self.name}.{field.take(section)}",
            least=self.least,
            most=self.most,
        )
        return asked.typical_reading(section)
