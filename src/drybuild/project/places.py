"""Where a text is cut and what goes in, to change, add or remove one value.

Each function returns splices on the old text: from, to, new text. They do not overlap. Whether the
outcome is right is for `edit` to see; here only the usual forms are known.
"""

from __future__ import annotations

import re
from collections.abc import Mapping as MappingType
from dataclasses import dataclass
from itertools import pairwise

from drybuild.errors import SaveError
from drybuild.project.document import Listing, Mapping, Node, Scalar
from drybuild.project.writing import (
    Value,
    inline,
    is_collection,
    key,
    kind_of,
    lines_of,
    lines_of_entry,
    lines_of_item,
    literal,
    scalar,
)

Splice = tuple[int, int, str]


@dataclass(frozen=True, kw_only=True)
class Page:
    """The text to be edited, and how it is laid out."""

    text: str
    newline: str
    step: int
    """Spaces for each step inwards."""

    def line_start(self, at: int) -> int:
        """Return where the line of a character begins."""
        return self.text.rfind("\n", 0, at) + 1

    def line_end(self, at: int) -> int:
        """Return where the line of a character ends, before its line ending."""
        end = self.text.find("\n", at)
        end = len(self.text) if end < 0 else end
        return end - 1 if end > 0 and self.text[end - 1] == "\r" else end

    def after_line(self, at: int) -> int:
        """Return where the next line begins."""
        end = self.text.find("\n", at)
        return len(self.text) if end < 0 else end + 1

    def own_line(self, at: int) -> bool:
        """Whether only spaces stand before a character on its line."""
        return not self.text[self.line_start(at) : at].strip(" \ufeff")

    def below(self, at: int, lines: list[str]) -> Splice:
        """Return the splice that puts lines below the line of a character."""
        end = self.line_end(at)
        return end, end, "".join(self.newline + line for line in lines)


def page_of(text: str, root: Mapping) -> Page:
    """Return the page of a text: its line ending and its depth of indentation."""
    first = text.find("\n")
    return Page(
        text=text,
        newline="\r\n" if first > 0 and text[first - 1] == "\r" else "\n",
        step=_step(root) or 2,
    )


def is_nothing(node: Node) -> bool:
    """Whether a node holds no value: not written, or a plain null."""
    if not isinstance(node, Scalar):
        return False
    return node.value is None or (node.plain and kind_of(node.value) == "nothing")


def replacing(
    page: Page, node: Node, value: Value, *, flow: bool, parent_column: int
) -> list[Splice]:
    """Return the splices that put a value in the place of another.

    Parameters
    ----------
    page : Page
        The text.
    node : Node
        What stands there now.
    value : Value
        What shall stand there.
    flow : bool
        Whether a bracket or brace is open around it.
    parent_column : int
        Column of the key or dash before it, counted from 0.

    """
    where = node.where
    if where.style == "block":
        return _replacing_block(page, node, value)
    if isinstance(node, Scalar) and not is_collection(value):
        if where.style in ("literal", "folded") and isinstance(value, str):
            return [_replacing_literal(page, node, value, parent_column)]
        before = node.value if node.plain else None
        new = scalar(value, flow=flow, style=where.style, before=before)
        return [_put(page, node, new)]
    if (
        isinstance(node, Scalar)
        and node.value is None
        and not flow
        and is_collection(value)
        and value
    ):
        return [page.below(where.start, lines_of(value, parent_column + page.step, page.step))]
    return [_put(page, node, inline(value) if is_collection(value) else scalar(value, flow=flow))]


def adding_entry(
    page: Page, parent: Mapping, name: str, value: Value, *, flow: bool
) -> list[Splice]:
    """Return the splices that add an entry at the end of a mapping."""
    if flow or parent.where.style == "flow":
        new = f"{key(name, flow=True)}: {inline(value)}"
        spans = [
            (one.key_where.start, _end(one.node, one.key_where.end))
            for one in parent.entries.values()
        ]
        return _adding_in_flow(page, parent, spans, new)
    if not parent.entries:
        return [_at_end_of_file(page, lines_of_entry(name, value, 0, page.step))]
    entries = list(parent.entries.values())
    column = entries[0].key_where.column - 1
    last = _end(entries[-1].node, entries[-1].key_where.end)
    return [page.below(last, lines_of_entry(name, value, column, page.step))]


def adding_item(page: Page, parent: Listing, value: Value, *, flow: bool) -> list[Splice]:
    """Return the splices that add an item at the end of a list."""
    if flow or parent.where.style == "flow":
        spans = [(one.where.start, one.where.end) for one in parent.items]
        return _adding_in_flow(page, parent, spans, inline(value))
    lines = lines_of_item(value, parent.where.column - 1, page.step)
    return [page.below(parent.items[-1].where.end, lines)]


def removing(page: Page, parent: Mapping | Listing, step: str | int) -> list[Splice]:
    """Return the splices that take an entry or item out of its parent."""
    if isinstance(parent, Mapping):
        entries = list(parent.entries.values())
        at = list(parent.entries).index(str(step))
        spans = [(one.key_where.start, _end(one.node, one.key_where.end)) for one in entries]
    else:
        at = int(step)
        spans = [(one.where.start, one.where.end) for one in parent.items]
        if parent.where.style == "block":
            spans = _with_dashes(page, parent, spans)
    if parent.where.style == "flow":
        return [_removing_in_flow(page, spans, at)]
    if len(spans) == 1:
        return _replacing_block(page, parent, {} if isinstance(parent, Mapping) else [])
    return [_removing_lines(page, spans, at)]


def keeping_last_block(page: Page, root: Mapping, splices: list[Splice]) -> list[Splice]:
    """Return the splices, and one more where a text block ends the file without a line ending.

    With lines below it, such a block would gain a line ending; ``-`` behind its sign forbids it.
    """
    node: Node = root
    while isinstance(node, (Mapping, Listing)) and node.where.style == "block":
        inner = (
            [one.node for one in node.entries.values()]
            if isinstance(node, Mapping)
            else [*node.items]
        )
        if not inner:
            break
        node = inner[-1]
    start, end = node.where.start, len(page.text)
    head = page.text[start : page.line_end(start)].partition("#")[0]
    if node.where.style not in ("literal", "folded") or "-" in head or "+" in head:
        return splices
    if page.text[-1:] == "\n" or not any(at == end and new for at, _, new in splices):
        return splices
    return [(start + 1, start + 1, "-"), *splices]


def ending_last_text(page: Page, splices: list[Splice], value: Value) -> list[Splice]:
    """Return the splices, with a line ending behind a text that ends with one and ends the file."""
    if page.text[-1:] == "\n" or _last_text(value)[-1:] != "\n":
        return splices
    end = len(page.text)
    return [
        (start, stop, new + page.newline if stop == end and new else new)
        for start, stop, new in splices
    ]


def _last_text(value: Value) -> str:
    """Return the text that a value ends with; empty where it ends with none."""
    while is_collection(value) and value:
        value = list(value.values() if isinstance(value, MappingType) else value)[-1]
    return value if isinstance(value, str) else ""


def _replacing_block(page: Page, node: Node, value: Value) -> list[Splice]:
    where = node.where
    column = where.column - 1
    if (
        is_collection(value)
        and value
        and isinstance(value, MappingType) == isinstance(node, Mapping)
    ):
        lines, end = lines_of(value, column, page.step), where.end
        behind = page.text[end : page.line_end(end)].strip()
        if behind and literal(_last_text(value), 0) and "\n" in _last_text(value):
            lines.append(" " * column + behind)  # else the comment would become part of the text
            end = page.line_end(end)
        return [(where.start, end, page.newline.join(lines).lstrip(" "))]
    new = inline(value) if is_collection(value) else scalar(value, flow=False)
    if not page.own_line(where.start):
        return [(where.start, where.end, new)]
    colon = _colon_before(page, where.start)
    return [
        (colon + 1, colon + 1, f" {new}"),
        (page.line_start(where.start), page.after_line(where.end), ""),
    ]


def _colon_before(page: Page, at: int) -> int:
    """Return the colon of the key above a block, over comments and empty lines."""
    start = page.line_start(at)
    while start > 0:
        start = page.line_start(start - 1)
        line = page.text[start : page.line_end(start)]
        bare = line.strip(" \ufeff")
        if bare and not bare.startswith("#"):
            found = re.match(r"(.*?:)[ \t]*(?:[&!]\S+[ \t]*)*(?:#.*)?$", line)
            if found:
                return start + len(found.group(1)) - 1
            break
    raise SaveError("the key of this part is written in a form that cannot be edited in place")


def _replacing_literal(page: Page, node: Scalar, value: str, parent_column: int) -> Splice:
    start, end = node.where.start, node.where.end
    old = page.text[start:end]
    head, _, body = old.partition("\n")
    indent = next(
        (len(line) - len(line.lstrip(" ")) for line in body.split("\n") if line.strip()),
        parent_column + page.step,
    )
    single = "\n" not in value.rstrip("\n")
    lines = literal(value, indent) if node.where.style == "literal" or single else None
    if lines is None:
        return start, end, scalar(value, flow=False, style="double")
    sign = ">" if node.where.style == "folded" else "|"
    comment = re.search(r"[ \t]+#.*$", head.rstrip("\r"))
    first = sign + lines[0][1:] + (comment.group() if comment else "")
    return start, end, page.newline.join([first, *lines[1:]])


def _put(page: Page, node: Node, new: str) -> Splice:
    """Return the splice that writes `new` where a node stands, also when nothing stands there."""
    start, end = node.where.start, node.where.end
    if start == end:
        before = page.text[:start].rstrip(" \t\r\n")[-1:]
        lead = "" if page.text[start - 1 : start].isspace() else " "
        if before not in (":", "-", "[", ",", "?"):
            lead = ": "
        return start, end, lead + new
    return start, end, new


def _adding_in_flow(
    page: Page, parent: Mapping | Listing, spans: list[tuple[int, int]], new: str
) -> list[Splice]:
    close = parent.where.end - 1
    if not spans:
        at = parent.where.start + 1
        return [(at, at, new)]
    last = spans[-1][1]
    comma = re.match(r"(?:\s|#[^\n]*\n)*,", page.text[last:close])
    after = last + comma.end() if comma else last
    own_line = page.own_line(spans[-1][0]) and "\n" in page.text[after:close]
    if own_line:
        start = spans[-1][0]
        lead = page.text[page.line_start(start) : start]
        below = page.below(after, [lead + new + ("," if comma else "")])
        return [below] if comma else [(last, last, ","), below]
    return [(after, after, f"{'' if comma else ','} {new}")]


def _removing_in_flow(page: Page, spans: list[tuple[int, int]], at: int) -> Splice:
    start, end = spans[at]
    if at + 1 < len(spans) and "#" not in page.text[end : spans[at + 1][0]]:
        return start, spans[at + 1][0], ""
    if at > 0 and "#" not in page.text[spans[at - 1][1] : start]:
        return spans[at - 1][1], end, ""
    comma = re.match(r"\s*,", page.text[end:])
    return start, end + comma.end() if comma else end, ""


def _removing_lines(page: Page, spans: list[tuple[int, int]], at: int) -> Splice:
    start, end = spans[at]
    if page.own_line(start):
        return page.line_start(start), page.after_line(end), ""
    following = spans[at + 1][0]
    if "#" in page.text[end:following]:
        return start, end, ""
    return start, following, ""


def _with_dashes(
    page: Page, parent: Listing, spans: list[tuple[int, int]]
) -> list[tuple[int, int]]:
    """Return the spans of a block list's items, each from its dash."""
    lead = " " * (parent.where.column - 1)
    found = [(parent.where.start, spans[0][1])]
    for before, (start, end) in pairwise(spans):
        dash = re.compile(rf"^{lead}-(?=\s)", re.MULTILINE).search(page.text, before[1], start)
        if dash is None:
            raise SaveError("this list is written in a form that cannot be edited in place")
        found.append((dash.end() - 1, end))
    return found


def _end(node: Node, key_end: int) -> int:
    return max(node.where.end, key_end)


def _at_end_of_file(page: Page, lines: list[str]) -> Splice:
    found = re.search(r"^\.\.\.", page.text, re.MULTILINE)
    at = found.start() if found else len(page.text)
    lead = page.newline if at > 0 and page.text[at - 1] not in "\n\ufeff" else ""
    return at, at, lead + "".join(line + page.newline for line in lines)


def _step(node: Node) -> int | None:
    """Return the depth of the first block mapping within a block mapping."""
    if not isinstance(node, Mapping) or node.where.style != "block":
        return None
    for entry in node.entries.values():
        child = entry.node
        if isinstance(child, Mapping) and child.where.style == "block":
            return child.where.column - entry.key_where.column
    return None
