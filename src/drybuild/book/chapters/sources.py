"""The sources used: documents and practices behind the figures, and how each was read."""

from __future__ import annotations

from collections import Counter

from drybuild.book.pages import Chapter, Sheet
from drybuild.session import Session
from drybuild.sources import READ_AS, sources

MEANING = {
    "original": "the document itself was read",
    "reprint": "a reprint, summary or table taken from it was read",
    "from memory": "quoted from memory: a lead to look up, not a proof",
    "common practice": "what the trade does, with no document behind it",
    "computed": "worked out, or by definition",
}


def sources_chapter(session: Session) -> Chapter:
    """Return every source that a figure, limit or typical range of this build rests on."""
    used = Counter(one.quantity.source for one in session.quantities.values())
    used.update(check.source for check in session.checks)
    used.update(one.source for one in session.evaluation.readings.values() if one.source)
    known = sources()
    found = sorted(
        (known[name] for name in used if name in known),
        key=lambda one: (READ_AS.index(one.read), one.id),
    )
    rows = tuple(
        (one.id, f"{one.title}, {one.edition}" if one.edition else one.title, one.read,
         str(used[one.id]))
        for one in found
    )  # fmt: skip
    note = "; ".join(f"{word}: {MEANING[word]}" for word in READ_AS)
    sheet = Sheet(
        title="",
        columns=("short name", "document or practice", "read as", "figures"),
        rows=rows,
        numeric=(3,),
        widths=(1.6, 3.6, 1.0, 0.6),
        note=f"{note[:1].upper()}{note[1:]}. Figures: how many quantities, limits and typical "
        "ranges of this build rest on it.",
    )
    return Chapter(
        title="Sources used",
        intro="Where methods, limits and typical ranges come from, and how each was read.",
        blocks=(sheet,),
    )
