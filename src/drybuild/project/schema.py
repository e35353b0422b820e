"""The JSON Schema of the build file, made from the sections: editors complete and check with it.

It says which entries there are and what shape each has. Units, bounds and names that must lead
somewhere are for `load` to judge; what `load` takes, the schema takes.
"""

from __future__ import annotations

from typing import Any

from drybuild.project.brief import Brief
from drybuild.project.build import FORMAT
from drybuild.project.catalogue import CAR_SECTIONS, NAMED, SYSTEMS, TOPS
from drybuild.project.groups import section_schema
from drybuild.project.option import Option
from drybuild.project.sections import Section
from drybuild.project.writing import kind_of

Schema = dict[str, Any]  # JSON Schema is free-form JSON

DIALECT = "https://json-schema.org/draft/2020-12/schema"


def build_schema() -> Schema:
    """Return the JSON Schema of a build file."""
    plain: Schema = {"type": ["string", "number", "null"]}
    return {
        "$schema": DIALECT,
        "title": "drybuild build file",
        "type": "object",
        "properties": {
            "build": {**plain, "description": "Name of the build"},
            "format": {"enum": [FORMAT, str(FORMAT)], "description": "Version of the build file"},
            "units": {"enum": ["metric", "us"], "description": "Units that results are shown in"},
            "include": {
                "type": ["array", "string", "null"],
                "items": {"type": "string", "pattern": r"\.yaml$"},
                "description": "Other files below the build folder",
            },
            "brief": described(Brief),
            "car": _by_name(
                "The car as it stands", {k: described(c) for k, c in CAR_SECTIONS.items()}
            ),
            "options": _options(),
            "picks": {
                "type": ["object", "null"],
                "properties": dict.fromkeys(SYSTEMS, plain),
                "additionalProperties": plain,
                "description": "The option taken for each system",
            },
            "limits": {
                "type": ["object", "null"],
                "additionalProperties": {"type": ["string", "number"]},
                "description": "Your own limits by check id",
            },
            **{name: described(cls) for name, cls in TOPS.items()},
            **{name: _named(cls) for name, cls in NAMED.items()},
        },
        "additionalProperties": False,
    }


def described(section: type[Section]) -> Schema:
    """Return the schema of a section, with its first line as description."""
    return {"description": _words(section), **entries(section)}


def entries(section: type[Section]) -> Schema:
    """Return the schema of a section's entries as an editor meets them.

    An editor takes ``8.8`` for a number although the entry wants a word, so a word that looks
    like a number may come as either.
    """
    return _as_met(section_schema(section))


def _as_met(schema: Schema) -> Schema:
    found: Schema = {}
    for key, value in schema.items():
        if key == "enum":
            found[key] = [*value, *(float(one) for one in value if _is_number(one))]
        elif key == "items" and value == {"type": "string"}:
            found[key] = {"type": ["string", "number"]}
        elif isinstance(value, dict):
            found[key] = _as_met(value)
        elif key == "anyOf":
            found[key] = [_as_met(one) for one in value]
        else:
            found[key] = value
    return found


def _is_number(word: object) -> bool:
    return isinstance(word, str) and kind_of(word) == "number"


def _options() -> Schema:
    return {
        "type": ["object", "null"],
        "properties": {name: _named(cls) for name, cls in SYSTEMS.items()},
        "additionalProperties": _named(Option),
        "description": "What could be taken for each system, by names of your own",
    }


def _named(section: type[Section]) -> Schema:
    return {
        "type": ["object", "null"],
        "additionalProperties": entries(section),
        "description": _words(section),
    }


def _by_name(words: str, properties: Schema) -> Schema:
    return {
        "type": ["object", "null"],
        "properties": properties,
        "additionalProperties": False,
        "description": words,
    }


def _words(section: type[Section]) -> str:
    return (section.__doc__ or "").strip().partition("\n")[0]
