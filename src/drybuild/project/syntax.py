"""Own words for text that does not read as YAML: what is wrong, on which line, how to mend it."""

from __future__ import annotations

import re
from dataclasses import dataclass

import yaml


@dataclass(frozen=True, kw_only=True, slots=True)
class Fault:
    """One place where the text stops being readable."""

    code: str
    line: int
    """Counted from 0, in the text that was given to the parser."""
    wrong: str
    mend: str


def describe(error: yaml.YAMLError, text: str) -> Fault:
    """Return the fault behind the parser's exception.

    Parameters
    ----------
    error : yaml.YAMLError
        What the parser raised on `text`; either of its two implementations.
    text : str
        The text that was parsed.

    """
    said = f"{getattr(error, 'context', None) or ''} {getattr(error, 'problem', None) or ''}"
    mark = getattr(error, "problem_mark", None)
    opened = getattr(error, "context_mark", None)
    lines = text.split("\n")
    line = min(mark.line, len(lines) - 1) if mark else 0
    indent = re.match(r"[ \t]*", lines[line])
    if indent and "\t" in indent.group():
        return _tab(line, lines)
    if opened and re.search(r"flow (?:mapping|sequence)|quoted", said) and "escape" not in said:
        return _unclosed(said, opened.line, line, at_end=not "".join(lines[line:]).strip())
    if "could not find expected ':'" in said and opened:
        line = opened.line
    found = text[mark.index] if mark and mark.index < len(text) else ""
    for pattern, wrong, mend in _WORDS:
        if re.search(pattern, said):
            return Fault(code="syntax", line=line, wrong=wrong.format(found), mend=mend)
    return Fault(code="syntax", line=line, wrong=_OTHERWISE[0], mend=_OTHERWISE[1])


def _tab(line: int, lines: list[str]) -> Fault:
    more = []
    for number in range(line + 1, len(lines)):
        if lines[number][:1] not in " \t":
            break
        if "\t" in lines[number][: len(lines[number]) - len(lines[number].lstrip())]:
            more.append(number)
    also = f" (lines below it too: {len(more)})" if more else ""
    return Fault(
        code="tab-indent",
        line=line,
        wrong=f"the line is indented with a tab{also}",
        mend="Indent with spaces: two for each step inwards.",
    )


def _unclosed(said: str, opened: int, line: int, *, at_end: bool) -> Fault:
    what = "quote" if "quoted" in said else "bracket [" if "sequence" in said else "brace {"
    seen = "at the end of the file" if at_end else "before the text goes on"
    if "quoted" in said or at_end or line > opened:
        wrong = f"the {what} opened here is not closed {seen}"
        return Fault(code="unclosed", line=opened, wrong=wrong, mend=_CLOSE[what])
    return Fault(
        code="unclosed",
        line=line,
        wrong=f"inside the {what} a comma or the closing sign is missing",
        mend=_CLOSE[what],
    )


NO_COLON = Fault(
    code="syntax",
    line=0,
    wrong="this line has no colon after its key",
    mend="Write it as `key: value`, with a space after the colon.",
)

_CLOSE = {
    "quote": "Close the text with the same quote; write a quote inside '...' twice.",
    "bracket [": "Put a comma between the values of the list, and ] after the last.",
    "brace {": "Put a comma between the entries, a space after each colon, and } after the last.",
}

_QUOTE_IT = 'Put the value in quotes: "...".'

# What either parser says (pattern), and what we say: wrong, mend. The first match counts.
_WORDS = (
    (
        r"mapping values are not allowed",
        "this colon does not fit: it is the second on its line, or the line is indented too far, "
        "or the line above has none",
        'Put a text that holds a colon in quotes: "..."; line the key up with its neighbours.',
    ),
    (r"could not find expected ':'", NO_COLON.wrong, NO_COLON.mend),
    (
        r"mapping keys are not allowed",
        "a value that begins with a question mark and goes on needs quotes",
        _QUOTE_IT,
    ),
    (
        r"expected key|expected <block end>|expected '-'",
        "the line is indented differently from its neighbours",
        "Give every entry of one list or mapping the same number of spaces in front.",
    ),
    (
        r"sequence entries are not allowed",
        "a list item cannot begin here",
        "Start the list on a line of its own below the key, each item with `- ` in front.",
    ),
    (r"cannot start any token", "a value cannot begin with {0!r}", _QUOTE_IT),
    (
        r"escape|hexdec|hexadecimal",
        "the backslash in the double quotes has no meaning here",
        "Write \\\\ for a backslash, or use single quotes: '...'.",
    ),
    (
        r"block scalar",
        "after | or > only the text below, indented by spaces, may follow",
        "Begin the text on the next line, two spaces further in.",
    ),
    (
        r"node content",
        "a key or a value is missing here",
        'Write it, or "?" if it is not known yet.',
    ),
    (
        r"anchor|alias|tag|directive",
        "a value that begins with &, *, ! or % has a special meaning",
        _QUOTE_IT,
    ),
    (
        r"document",
        "the text goes on after the end of the build",
        "Keep all entries at the same depth, and leave out lines of --- or ... .",
    ),
)

_OTHERWISE = (
    "the text cannot be read from here on",
    "Compare with the lines around it: each is `key: value`, indented by spaces.",
)
