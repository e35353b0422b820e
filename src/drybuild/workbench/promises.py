"""What the answers of the interface for programs hold, as JSON Schema for its OpenAPI document."""

from __future__ import annotations

from typing import Any

Json = dict[str, Any]  # JSON is free-form

TEXT: Json = {"type": "string"}
TEXTS: Json = {"type": "array", "items": TEXT}
FLAG: Json = {"type": "boolean"}
COUNT: Json = {"type": "integer", "minimum": 0}
VALUE: Json = {"type": ["number", "string", "null"]}
"""A number in SI; a date as text; null where there is none."""
SHARE: Json = {"type": ["number", "null"], "minimum": 0, "maximum": 1}


def holds(**entries: Json) -> Json:
    """Return the schema of an object that has all of these, and may have more."""
    return {"type": "object", "properties": entries, "required": list(entries)}


def listed(item: Json) -> Json:
    """Return the schema of a list."""
    return {"type": "array", "items": item}


def named(item: Json) -> Json:
    """Return the schema of a mapping from names of any kind."""
    return {"type": "object", "additionalProperties": item}


BY_LABEL: Json = {"anyOf": [VALUE, named(VALUE)]}
MISSING = listed(holds(path=TEXT, why=TEXT))
PROBLEMS = listed(holds(code=TEXT, file=TEXT, line=COUNT, field=TEXT, wrong=TEXT, mend=TEXT))
VERSION: Json = {"version": COUNT, "settled": FLAG}
BUILD: Json = {"build": TEXT, "currency": TEXT, "problems": PROBLEMS}
QUANTITY = holds(
    value=BY_LABEL,
    low=BY_LABEL,
    high=BY_LABEL,
    unit=TEXT,
    origin={"type": ["string", "null"]},
    source=TEXT,
    source_id=TEXT,
    label=TEXT,
    matter=TEXT,
    shown=named(TEXT),
    needs=TEXTS,
    missing=MISSING,
)
VERDICT = holds(
    id=TEXT,
    asks=TEXT,
    verdict={"enum": ["good", "tight", "open", "fails"]},
    advice=FLAG,
    quantity=TEXT,
    unit=TEXT,
    label={"type": ["string", "null"]},
    value=VALUE,
    limit=VALUE,
    margin=VALUE,
    probability=SHARE,
    no_solution=SHARE,
    labels=listed(holds(label=TEXT, value=VALUE, limit=VALUE, probability=SHARE)),
    missing=MISSING,
    inputs=listed(holds(path=TEXT, text=TEXT, value=VALUE, low=VALUE, high=VALUE, origin=TEXT)),
)
OPTION = holds(
    possible=FLAG,
    complete_builds={"type": ["integer", "null"]},
    why_not={"type": ["string", "null"]},
    rules_out=listed(TEXTS),
)
CHOICES: Json = {
    "if": {"properties": {"ready": {"const": True}}},
    "then": holds(systems=named(named(OPTION)), forced=named(TEXT), decide_first=listed({})),
}
SAVED = holds(saved=FLAG, **VERSION)
ANSWERS: dict[str, Json] = {
    "quantities": holds(**BUILD, quantities=named(QUANTITY)),
    "verdicts": holds(**BUILD, **VERSION, verdicts=listed(VERDICT), waiting=TEXTS),
    "options": {**holds(ready=FLAG, picks=named(TEXT)), **CHOICES},
    "state": holds(**VERSION),
    "fit": holds(**VERSION),
    "fit/tried": holds(**VERSION),
    "set": SAVED,
    "pick": SAVED,
    "undo": SAVED,
    "redo": SAVED,
}
"""What is answered when all went well, by address."""
REFUSED: Json = {
    **holds(saved={"const": False}),
    "anyOf": [holds(wrong=TEXT), holds(problems=PROBLEMS)],
}
"""What is answered when nothing was saved."""
