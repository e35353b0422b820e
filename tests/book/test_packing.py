"""A packed PDF is the same document: each object is found again, in fewer bytes."""

from __future__ import annotations

import io
import re

import typst
from pypdf import PdfReader
from pypdf.generic import DictionaryObject, IndirectObject

from drybuild.book.packing import packed

# ISO 32000-1:2008, 7.5.7 and 7.5.8: read back by an independent reader (pypdf).
TEXT = """
#set document(title: "Sheet")
= First
#table(columns: 3, ..range(300).map(n => str(n)))
#pagebreak()
= Second
#outline()
"""
HELD_BY = re.compile(r", \d{6,}(?=\))")
"""Where the reader keeps the document, which it tells with each reference."""


def reader(pdf: bytes) -> PdfReader:
    return PdfReader(io.BytesIO(pdf), strict=True)


def kinds(found: object) -> list[str]:
    """Return the kinds of the elements for those who hear the document read, in order."""
    held = found.get_object() if isinstance(found, IndirectObject) else found
    if isinstance(held, list):
        return [kind for one in held for kind in kinds(one)]
    if not isinstance(held, DictionaryObject):
        return []
    return [str(held.get("/S", "")), *kinds(held.get("/K", []))]


def test_a_packed_document_reads_the_same_and_is_smaller() -> None:
    made = typst.compile(TEXT.encode(), ignore_system_fonts=True)
    assert isinstance(made, bytes)
    small = packed(made)
    before, after = reader(made), reader(small)
    assert len(small) < 0.6 * len(made)
    assert after.metadata == before.metadata
    assert [page.extract_text() for page in after.pages] == [
        page.extract_text() for page in before.pages
    ]
    told = kinds(after.root_object["/StructTreeRoot"])
    assert told == kinds(before.root_object["/StructTreeRoot"])
    assert told.count("/TD") == 300
    titles = [str(one["/Title"]) for one in after.outline if isinstance(one, dict)]
    assert titles[:2] == ["First", "Second"]


def test_every_object_keeps_its_number() -> None:
    made = typst.compile(TEXT.encode(), ignore_system_fonts=True)
    assert isinstance(made, bytes)
    before, after = reader(made), reader(packed(made))
    for number in before.xref[0]:
        one, other = (str(read.get_object(number)) for read in (before, after))
        assert HELD_BY.sub("", one) == HELD_BY.sub("", other)


def test_what_is_not_plainly_written_stays_as_it_is() -> None:
    made = typst.compile(TEXT.encode(), ignore_system_fonts=True)
    assert isinstance(made, bytes)
    small = packed(made)
    assert packed(small) == small
    assert packed(b"no such file") == b"no such file"
