"""The two settings: nothing of the person's is markup, nothing is fetched, the PDF opens."""

from __future__ import annotations

import re
from dataclasses import replace
from pathlib import Path

import pytest
from pypdf import PdfReader

from drybuild.book.html import write_html
from drybuild.book.pages import Book, Chapter, Sheet, Words
from drybuild.book.pdf import write_pdf
from tests.book.books import book_of, example

NAMES = (
    "<script>alert(1)</script>",
    '#import "x.typ": *',
    "$x^2$ and $y$",
    "</style><b>bold</b>",
    "{{ 7 * 7 }} {% raw %}",
    "\\textbf{a} [b](c) `d` *e* _f_",
    "a & b < c > d",
    "good",
)
"""Texts that some setter somewhere would take for markup."""
TELL_NAMES = (
    "The brief",
    "Picks and why",
    "Body survey",
    "Work: jobs, orders, decisions",
)
TYPED = """
build: {build}
brief: {{must: [kerb_mass <= 1200 kg], keep: [{keep}]}}
car:
  body: {{kind: unitary, wheelbase: 2540 ± 3 mm}}
  bay: {{boxes: {{{box}: {{rear: -300 mm, front: -100 mm, right: 100 mm, left: 200 mm,
    bottom: 100 mm, top: 300 mm}}}}}}
options:
  engine:
    {old}: {{as_is: true, mass: 150 kg, power: 60 kW at 5000 rpm, torque: 130 N·m at 3000 rpm}}
    {new}: {{mass: 130 kg, power: 90 kW at 5800 rpm, price: 900 EUR, lead_time: 3 weeks,
      fitting: 5 / 8 / 20 h, note: {note}}}
  wheels: {{{wheel}: {{mass: 30 kg, diameter: 15 in, width: 6 in, price: 500 EUR}}}}
picks: {{engine: {new}, wheels: {wheel}}}
survey: {{zones: {{scuttle: {{found: patch, note: {note}}}}}}}
jobs:
  {job}: {{hours: 1 / 2 / 3 h, caution: {caution}}}
  fit it: {{hours: 1 / 2 / 3 h, after: [{job}], fits: [engine]}}
"""


def quoted(text: str) -> str:
    return "'" + text.replace("'", "''") + "'"


@pytest.fixture(scope="module")
def hostile(tmp_path_factory: pytest.TempPathFactory) -> Book:
    keys = ("build", "keep", "old", "new", "note", "job", "caution", "wheel")
    names = {key: quoted(name) for key, name in zip(keys, NAMES, strict=True)}
    text = TYPED.format(**names, box=quoted(NAMES[2]))
    return book_of(tmp_path_factory.mktemp("hostile"), text)


def html_of(book: Book, folder: Path) -> str:
    target = folder / "book.html"
    write_html(book, target)
    return target.read_text(encoding="utf-8")


def pdf_text(book: Book, folder: Path, *titles: str) -> str:
    """Return what stands in some chapters, blanks left out; reading every page takes seconds."""
    target = folder / "book.pdf"
    kept = tuple(one for one in book.chapters if one.title in titles)
    write_pdf(replace(book, chapters=kept), target)
    pages = PdfReader(target).pages
    return re.sub(r"[\s\u200b]+", "", "".join(page.extract_text() for page in pages))


def test_no_text_of_the_persons_is_markup_in_html(hostile: Book, tmp_path: Path) -> None:
    found = html_of(hostile, tmp_path)
    assert "<script" not in found
    assert "<b>bold" not in found
    assert found.count("</style>") == 1
    assert "&lt;script&gt;alert(1)&lt;/script&gt;" in found
    assert "{{ 7 * 7 }}" in found
    for name in ("$x^2$ and $y$", "\\textbf{a} [b](c) `d` *e* _f_", "a &amp; b &lt; c &gt; d"):
        assert name in found


def test_every_text_reaches_the_pdf_as_it_was_typed(hostile: Book, tmp_path: Path) -> None:
    found = pdf_text(hostile, tmp_path, *TELL_NAMES)
    for name in NAMES:
        assert re.sub(r"\s+", "", name) in found


def test_a_very_long_word_does_not_stop_the_setter(hostile: Book, tmp_path: Path) -> None:
    long = "x" * 400
    sheet = Sheet(title=long, columns=("what", "how much"), rows=((long, "1"),))
    chapter = Chapter(title="The brief", intro=long, blocks=(Words(text=long), sheet))
    found = pdf_text(replace(hostile, title=long, chapters=(chapter,)), tmp_path, "The brief")
    assert found.count(long) >= 4


@pytest.mark.parametrize("name", ["estate", "sparse"])
def test_the_pdf_opens_and_has_its_contents(tmp_path: Path, name: str) -> None:
    book, target = example(name), tmp_path / "book.pdf"
    write_pdf(book, target)
    reader = PdfReader(target)
    assert len(reader.pages) > 15
    assert reader.metadata is not None
    assert reader.metadata.title == book.title
    contents = re.sub(r"\s+", " ", reader.pages[1].extract_text())
    assert "Contents" in contents
    for chapter in book.chapters:
        assert chapter.title in contents
    assert [one["/Title"] for one in reader.outline if isinstance(one, dict)]


def test_the_same_build_makes_the_same_pdf(tmp_path: Path) -> None:
    book = example("sparse")
    for name in ("one.pdf", "two.pdf"):
        write_pdf(book, tmp_path / name)
    assert (tmp_path / "one.pdf").read_bytes() == (tmp_path / "two.pdf").read_bytes()


@pytest.mark.parametrize("name", ["estate", "sparse"])
def test_the_html_is_whole_in_itself(tmp_path: Path, name: str) -> None:
    found = html_of(example(name), tmp_path).replace("http://www.w3.org/2000/svg", "")
    assert "http:" not in found
    assert "https:" not in found
    assert "<script" not in found
    assert "javascript:" not in found
    assert not re.search(r"\son[a-z]+=", found)
    assert not re.search(r"url\((?!#)", found)
    assert not re.search(r'src="(?!data:)', found)
    assert "default-src 'none'" in found


def test_each_id_stands_once(tmp_path: Path) -> None:
    ids = re.findall(r'\sid="([^"]+)"', html_of(example("estate"), tmp_path))
    assert len(ids) == len(set(ids))
