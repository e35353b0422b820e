"""Write a PDF file smaller: the objects without streams go, deflated, into streams of objects.

The setter writes each cell of each table as an object of its own for those who hear the book read
(some 20,000 of them), in plain text. Nothing is lost; every reader since PDF 1.5 unpacks them.

References
----------
.. [1] ISO 32000-1:2008, 7.5.7 "Object streams" and 7.5.8 "Cross-reference streams".

"""

from __future__ import annotations

import re
import zlib

TABLE = re.compile(rb"xref\s+0 (\d+)\s*?\n")
START = re.compile(rb"startxref\s+(\d+)\s+%%EOF\s*$")
TRAILER = re.compile(rb"trailer\s*<<(.*)>>\s*startxref", re.DOTALL)
SIZE = re.compile(rb"/Size \d+")
WITH_STREAM = re.compile(rb">>\s*stream\r?\n")
ENTRY = 20
"""Length of an entry of a plain table of places."""
IN_A_STREAM = 500
"""Objects in one stream: a reader unpacks all of them to see one."""


def packed(pdf: bytes) -> bytes:
    """Return the same document in fewer bytes; as it is where it is not plainly written."""
    places, trailer = _places(pdf), TRAILER.search(pdf)
    if not places or trailer is None or b"/Encrypt" in trailer[1]:
        return pdf
    whole, small = _sorted_out(pdf, places)
    made = bytearray(pdf[: min(places.values())])
    entries: dict[int, tuple[int, int, int]] = {0: (0, 0, 65535)}
    for number, text in whole.items():
        entries[number] = (1, len(made), 0)
        made += b"%d 0 obj\n%b\nendobj\n" % (number, text)
    numbers, following = list(small), max(places) + 1
    for start in range(0, len(numbers), IN_A_STREAM):
        here = numbers[start : start + IN_A_STREAM]
        entries[following] = (1, len(made), 0)
        entries |= {number: (2, following, place) for place, number in enumerate(here)}
        made += _object_stream(following, {number: small[number] for number in here})
        following += 1
    entries[following] = (1, len(made), 0)
    rest = SIZE.sub(b"", trailer[1]).strip()
    return bytes(made) + _places_stream(following, entries, rest, len(made))


def _places(pdf: bytes) -> dict[int, int]:
    """Return where each object begins; nothing where it is not told by one plain table."""
    start = START.search(pdf)
    head = TABLE.match(pdf, int(start[1])) if start else None
    if head is None:
        return {}
    rows = (head.end() + ENTRY * number for number in range(int(head[1])))
    told = (pdf[row : row + ENTRY] for row in rows)
    return {number: int(row[:10]) for number, row in enumerate(told) if row[17:18] == b"n"}


def _sorted_out(pdf: bytes, places: dict[int, int]) -> tuple[dict[int, bytes], dict[int, bytes]]:
    """Return the objects that stay whole, having a stream, and those that can be packed."""
    whole: dict[int, bytes] = {}
    small: dict[int, bytes] = {}
    order = sorted(places.items(), key=lambda pair: pair[1])
    ends = [place for _, place in order[1:]] + [pdf.rindex(b"xref\n", 0, pdf.rindex(b"startxref"))]
    for (number, place), end in zip(order, ends, strict=True):
        piece = pdf[place:end]
        text = piece[piece.index(b"obj") + 3 : piece.rindex(b"endobj")].strip(b"\r\n ")
        (whole if WITH_STREAM.search(text) else small)[number] = text
    return whole, small


def _object_stream(number: int, objects: dict[int, bytes]) -> bytes:
    heads, at = [], 0
    for one, text in objects.items():
        heads.append(b"%d %d" % (one, at))
        at += len(text) + 1
    head = b" ".join(heads) + b"\n"
    body = zlib.compress(head + b"\n".join(objects.values()))
    look = b"/Type/ObjStm/N %d/First %d" % (len(objects), len(head))
    return _stream(number, look, body)


def _places_stream(
    number: int, entries: dict[int, tuple[int, int, int]], trailer: bytes, start: int
) -> bytes:
    """Return the table of places as a stream, and the end of the file."""
    rows = (entries.get(one, (0, 0, 65535)) for one in range(number + 1))
    body = b"".join(
        sort.to_bytes(1, "big") + place.to_bytes(4, "big") + further.to_bytes(2, "big")
        for sort, place, further in rows
    )
    look = b"/Type/XRef/W[1 4 2]/Size %d%b" % (number + 1, trailer)
    return _stream(number, look, zlib.compress(body)) + b"startxref\n%d\n%%%%EOF\n" % start


def _stream(number: int, look: bytes, body: bytes) -> bytes:
    told = b"<<%b/Filter/FlateDecode/Length %d>>" % (look, len(body))
    return b"%d 0 obj\n%b\nstream\n%b\nendstream\nendobj\n" % (number, told, body)
