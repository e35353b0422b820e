"""The book made by a process of its own, for the workbench: it tells how far it is."""

from __future__ import annotations

import sys
from pathlib import Path

from drybuild.book.hands import second_hand

BOOK_FILES = {"pdf": "book.pdf", "html": "book.html"}
"""What it leaves in the folder."""
SHEETS = 2
"""Steps beyond the chapters: the two files."""


def tell(done: int, total: int) -> None:
    """Say how far this process is, for whoever started it and listens."""
    sys.stdout.write(f"{done} {total}\n")
    sys.stdout.flush()


def _main(place: str, samples: str, folder: str) -> None:
    where, draws = Path(place), int(samples)
    with second_hand(where, draws) as bench:
        from drybuild.book.contents import CHAPTERS, make_book  # noqa: PLC0415  after the second
        from drybuild.book.html import write_html  # noqa: PLC0415  has begun
        from drybuild.book.pdf import write_pdf  # noqa: PLC0415
        from drybuild.session import Session  # noqa: PLC0415

        total = len(CHAPTERS) + SHEETS
        session = Session.open(where, draws)
        book = make_book(session, lambda done, _: tell(done, total), bench)
        tell(len(CHAPTERS), total)
        write_html(book, Path(folder) / BOOK_FILES["html"])
        tell(len(CHAPTERS) + 1, total)
        write_pdf(book, Path(folder) / BOOK_FILES["pdf"])


if __name__ == "__main__":
    _main(*sys.argv[1:4])
