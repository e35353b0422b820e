"""Values as YAML text: which need quotes, and how lists and mappings are laid out."""

from __future__ import annotations

import math
import re
from collections.abc import Mapping as MappingType
from collections.abc import Sequence
from typing import Literal, TypeAlias, TypeGuard, Union

from drybuild.errors import SaveError
from drybuild.project.document import Style

Value: TypeAlias = Union[  # a recursive alias needs the quoted form
    bool, int, float, str, "Sequence[Value]", "MappingType[str, Value]", None
]
"""What can be written: nothing, yes or no, a number, a text, a list, a mapping."""


class AsTyped(str):
    """A text as the person typed it: ``true`` or ``4`` go in without quotes."""

    __slots__ = ()


Kind = Literal["nothing", "yes or no", "number", "text"]

_SHORT = 72
"""A list or mapping of single values that fits into so many characters stays on one line."""

# YAML 1.2.2, section 10.3.2: the core schema's tag resolution.
_KINDS: tuple[tuple[Kind, re.Pattern[str]], ...] = (
    ("nothing", re.compile(r"(?:null|Null|NULL|~|)\Z")),
    ("yes or no", re.compile(r"(?:true|True|TRUE|false|False|FALSE)\Z")),
    (
        "number",
        re.compile(
            r"(?:[-+]?[0-9]+|0o[0-7]+|0x[0-9a-fA-F]+"
            r"|[-+]?(?:\.[0-9]+|[0-9]+(?:\.[0-9]*)?)(?:[eE][-+]?[0-9]+)?"
            r"|[-+]?\.(?:inf|Inf|INF)|\.(?:nan|NaN|NAN))\Z"
        ),
    ),
)
_NEVER_PLAIN = re.compile(
    r"""\s|[,\[\]{}#&*!|>'"%@`]|[-?:](?:\s|\Z)|---|\.\.\."""  # at the beginning
)
_BREAKS_PLAIN = re.compile(r":\s|\s#|:\Z|\s\Z|[\n\r\t]|\ufeff")
_BREAKS_FLOW = re.compile(r"[,\[\]{}]|\A[?:]|\A-\Z")
_ESCAPED = re.compile('["\\\\\x00-\x1f\x7f-\x9f\u2028\u2029\ufeff\ufffe\uffff]')
_ESCAPES = {'"': '\\"', "\\": "\\\\", "\n": "\\n", "\r": "\\r", "\t": "\\t"}


def kind_of(text: str) -> Kind:
    """Return what a plain scalar of this text is to a reader that follows the core schema."""
    return next((kind for kind, pattern in _KINDS if pattern.match(text)), "text")


def scalar(value: Value, *, flow: bool, style: Style = "plain", before: str | None = None) -> str:
    """Return a single value as text for one line.

    Parameters
    ----------
    value : Value
        Nothing, yes or no, a number or a text.
    flow : bool
        Whether it will stand within brackets or braces.
    style : Style
        The style of the value that it replaces; quotes are kept.
    before : str or None
        The plain text that it replaces: a number may follow a number without quotes.

    Raises
    ------
    SaveError
        The value cannot be written.

    """
    if value is None:
        return "null"
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, (int, float)):
        if not math.isfinite(value):
            raise SaveError(f"{value} is not a number that a build file can hold")
        return repr(value)
    if not isinstance(value, str):
        raise TypeError(f"{type(value).__name__} is no single value")
    if any("\ud800" <= letter <= "\udfff" for letter in value):
        raise SaveError(f"{value!r} holds half a character and cannot be saved")
    if style == "double":
        return _double(value)
    if style == "single":
        return _single(value)
    return str(value) if _plain_fits(value, flow, before) else _double(value)


def key(text: str, *, flow: bool) -> str:
    """Return a key as text; quoted only when it must be."""
    return scalar(AsTyped(text), flow=flow) if text != "<<" else '"<<"'


def inline(value: Value) -> str:
    """Return any value on one line, lists in brackets and mappings in braces."""
    if isinstance(value, MappingType):
        parts = (f"{key(name, flow=True)}: {inline(one)}" for name, one in value.items())
        return "{" + ", ".join(parts) + "}"
    if isinstance(value, Sequence) and not isinstance(value, str):
        return "[" + ", ".join(inline(one) for one in value) + "]"
    return scalar(value, flow=True)


def lines_of_entry(name: str, value: Value, indent: int, step: int) -> list[str]:
    """Return the lines of one entry of a block mapping, without line endings."""
    head = " " * indent + key(name, flow=False) + ":"
    return _headed(head, value, indent, step)


def lines_of_item(value: Value, indent: int, step: int) -> list[str]:
    """Return the lines of one item of a block list, without line endings."""
    lead = " " * indent + "-"
    if isinstance(value, MappingType) and value:
        rest = [
            one for name in value for one in lines_of_entry(name, value[name], indent + 2, step)
        ]
        return [lead + " " + rest[0].lstrip(), *rest[1:]]
    if _is_list(value) and not _fits_inline(value):
        return [f"{lead} {inline(value)}"]
    return _headed(lead, value, indent, step)


def lines_of(value: MappingType[str, Value] | Sequence[Value], indent: int, step: int) -> list[str]:
    """Return the lines of a whole block mapping or list that is not empty."""
    if isinstance(value, MappingType):
        entries = (lines_of_entry(name, one, indent, step) for name, one in value.items())
        return [line for lines in entries for line in lines]
    return [line for one in value for line in lines_of_item(one, indent, step)]


def literal(text: str, indent: int) -> list[str] | None:
    """Return a text of several lines as a block after ``|``, or None where that cannot hold it."""
    body = text.rstrip("\n")
    ends = len(text) - len(body)
    lines = body.split("\n")
    odd = _ESCAPED.search(re.sub(r'["\\\n\t]', "", text)) or "\r" in text
    if odd or not body.strip() or lines[0][:1] in (" ", "\t", "") or lines[-1].isspace():
        return None
    if ends > 1 or any(line.isspace() for line in lines):
        return None
    return ["|" if ends else "|-", *(" " * indent + line if line else "" for line in lines)]


Collection: TypeAlias = MappingType[str, Value] | Sequence[Value]


def is_collection(value: Value) -> TypeGuard[Collection]:
    """Whether a value is a list or a mapping."""
    return isinstance(value, MappingType) or _is_list(value)


def _headed(head: str, value: Value, indent: int, step: int) -> list[str]:
    if value is None:
        return [head]
    if is_collection(value):
        at_margin = indent == 0 and isinstance(value, MappingType) and value
        if _fits_inline(value) and not at_margin:
            return [f"{head} {inline(value)}"]
        return [head, *lines_of(value, indent + step, step)]
    if isinstance(value, str) and "\n" in value:
        block = literal(value, indent + step)
        if block:
            return [f"{head} {block[0]}", *block[1:]]
    return [f"{head} {scalar(value, flow=False)}"]


def _fits_inline(value: Collection) -> bool:
    """Whether it is short and holds single values only; a list may hold lists of those."""
    if isinstance(value, MappingType):
        parts: list[Value] = list(value.values())
        single = not any(is_collection(one) for one in parts)
    else:
        parts = list(value)
        single = not any(isinstance(one, MappingType) for one in parts)
    return not parts or (single and len(inline(value)) <= _SHORT)


def _is_list(value: Value) -> TypeGuard[Sequence[Value]]:
    return isinstance(value, Sequence) and not isinstance(value, str)


def _plain_fits(text: str, flow: bool, before: str | None) -> bool:
    if _NEVER_PLAIN.match(text) or _BREAKS_PLAIN.search(text):
        return False
    if (flow and _BREAKS_FLOW.search(text)) or _ESCAPED.search(re.sub(r'["\\]', "", text)):
        return False
    kind = kind_of(text)
    if kind == "text":
        return True
    return text != "" and (isinstance(text, AsTyped) or (before and kind_of(before)) == kind)


def _double(text: str) -> str:
    return '"' + _ESCAPED.sub(lambda match: _escape(match.group()), text) + '"'


def _escape(letter: str) -> str:
    if letter in _ESCAPES:
        return _ESCAPES[letter]
    return f"\\x{ord(letter):02x}" if ord(letter) < 256 else f"\\u{ord(letter):04x}"


def _single(text: str) -> str:
    if _ESCAPED.search(re.sub(r'["\\]', "", text)):
        return _double(text)
    return "'" + text.replace("'", "''") + "'"
