"""Make the pictures of the documentation: ``.venv/bin/python docs/make_pictures.py``.

Runs the commands on the demo and photographs what they print in a headless browser; pages of the
book come from its PDF. Needs Chromium and pdftoppm on the machine; ImageMagick makes them smaller.
"""

from __future__ import annotations

import html
import os
import re
import shutil
import subprocess
import sys
import tempfile
from pathlib import Path

ROOT = Path(__file__).resolve().parents[1]
DEMO = str(ROOT / "examples" / "estate")
PICTURES = ROOT / "docs" / "pictures"
COLUMNS, LINES = 118, 34
TERMINAL = {
    "check": ["check", DEMO],
    "options": ["options", DEMO],
    "schedule": ["schedule", DEMO],
    "next": ["next", DEMO, "--most", "6"],
}
PAGES = {
    "book-title": "BUILD BOOK",
    "book-brakes": r"^Distribution",
    "book-fit": r"\d+\s*Fit: the engine",
}
"""Pages of the book by words that their text begins with."""
COLOURS = {"32": "#1f6b3a", "33": "#7a5600", "36": "#21578a", "31": "#9b2c12", "2": "#5b6b70"}
PAGE = """<!doctype html><meta charset="utf-8"><style>
body{{margin:0;padding:18px 22px;background:#fdfdfb;color:#1d2a2f}}
pre{{margin:0;font:13px/1.32 "DejaVu Sans Mono",monospace}}</style><pre>{text}</pre>"""


def main() -> None:
    """Make every picture."""
    browser = shutil.which("chromium") or shutil.which("google-chrome")
    if not browser or not shutil.which("pdftoppm"):
        sys.exit("This needs chromium and pdftoppm.")
    PICTURES.mkdir(exist_ok=True)
    for name, words in TERMINAL.items():
        photograph(browser, coloured(printed(words)), PICTURES / f"{name}.png")
    with tempfile.TemporaryDirectory() as out:
        subprocess.run([*command(), "book", DEMO, "--output", out], check=True)
        (pdf,) = Path(out).glob("*.pdf")
        pages(pdf)
    workbench(browser)


def command() -> list[str]:
    """Return the words that start drybuild."""
    return [sys.executable, "-m", "drybuild"]


def printed(words: list[str]) -> str:
    """Return what a command prints on a terminal of our width, the first lines of it."""
    look = {"COLUMNS": str(COLUMNS), "FORCE_COLOR": "1", "TERM": "xterm-256color"}
    done = subprocess.run(
        [*command(), *words],
        env={**os.environ, **look},
        capture_output=True,
        text=True,
        check=True,
    )
    return "\n".join(done.stdout.splitlines()[:LINES])


def coloured(text: str) -> str:
    """Return terminal text as HTML."""
    told, open_spans = [], 0
    for piece in re.split(r"(\x1b\[[0-9;]*m)", text):
        if not piece.startswith("\x1b["):
            told.append(html.escape(piece))
            continue
        codes = piece[2:-1].split(";")
        if codes in (["0"], [""]):
            told.append("</span>" * open_spans)
            open_spans = 0
            continue
        look = "".join(f"color:{COLOURS[code]};" for code in codes if code in COLOURS)
        look += "font-weight:bold;" if "1" in codes else ""
        told.append(f'<span style="{look}">')
        open_spans += 1
    return "".join(told) + "</span>" * open_spans


def photograph(browser: str, text: str, target: Path) -> None:
    """Photograph a text in a headless browser."""
    rows = text.count("\n") + 1
    with tempfile.TemporaryDirectory() as room:
        page = Path(room) / "page.html"
        page.write_text(PAGE.format(text=text), encoding="utf-8")
        subprocess.run(
            [
                browser,
                "--headless",
                "--no-sandbox",
                "--disable-gpu",
                "--hide-scrollbars",
                f"--user-data-dir={room}/profile",
                f"--window-size=980,{rows * 18 + 40}",
                f"--screenshot={target}",
                page.as_uri(),
            ],
            check=True,
            capture_output=True,
        )


SHOWN = {
    "what-it-is-for": "/",
    "car": "/car",
    "choices": "/choices",
    "side-by-side": "/compare?system=engine&o.two+litre=yes&o.turbo+four=yes",
    "fit": "/fit",
    "running-gear": "/running-gear",
    "power": "/power",
    "shell": "/shell?zone=outer+sill+left",
    "work": "/work",
    "next-steps": "/next",
    "verdicts": "/verdicts",
    "advice": "/advice",
    "book": "/book",
    "new-build": "/new",
}
"""Pages of the workbench by the name of their picture."""
WIDTHS = {"": (1280, 900), "-phone": (390, 844)}
PATIENCE = 120_000


def workbench(browser: str) -> None:
    """Photograph every page of the workbench, wide and on a phone."""
    from playwright.sync_api import sync_playwright  # noqa: PLC0415  a test library

    words = [*command(), "open", DEMO, "--no-browser"]
    with subprocess.Popen(words, stdout=subprocess.PIPE, text=True) as server:
        try:
            assert server.stdout is not None
            address = re.search(r"http\S+", server.stdout.readline())
            assert address is not None
            with sync_playwright() as play:
                window = play.chromium.launch(executable_path=browser, args=["--no-sandbox"])
                for ending, (width, height) in WIDTHS.items():
                    page = window.new_page(viewport={"width": width, "height": height})
                    page.set_default_timeout(PATIENCE)
                    page.goto(address.group())
                    root = page.url.rstrip("/")
                    page.goto(root + "/choices")
                    page.wait_for_selector("#count[data-choices=yes]")
                    for name, path in SHOWN.items():
                        page.goto(root + path)
                        page.wait_for_selector("#strip[data-settled=yes], body.bare")
                        page.wait_for_selector("a[data-draw]", state="detached")
                        page.wait_for_timeout(400)
                        target = PICTURES / f"workbench-{name}{ending}.png"
                        page.screenshot(path=target)
                        fewer_colours(target)
                window.close()
            shutil.copy(PICTURES / "workbench-choices.png", PICTURES / "workbench.png")
        finally:
            server.terminate()


def fewer_colours(picture: Path) -> None:
    """Make a picture smaller: the pages have few colours."""
    if shutil.which("convert"):
        subprocess.run(["convert", picture, "-colors", "96", f"PNG8:{picture}"], check=True)


def pages(pdf: Path) -> None:
    """Draw the pages of the book whose text begins as wanted."""
    from pypdf import PdfReader  # noqa: PLC0415  a test library

    texts = [page.extract_text() for page in PdfReader(pdf).pages]
    for name, words in PAGES.items():
        number = next(
            (k for k, text in enumerate(texts, start=1) if begins(text, words) and k != 2), None
        )
        if number is None:
            sys.exit(f"no page of the book begins with {words}")
        target = PICTURES / name
        page = ["-f", str(number), "-l", str(number), "-singlefile", "-r", "55"]
        subprocess.run(["pdftoppm", "-png", *page, str(pdf), str(target)], check=True)


def begins(text: str, words: str) -> bool:
    """Say whether one of the first lines of a page matches."""
    return any(re.search(words, line.strip()) for line in text.splitlines()[:4])


if __name__ == "__main__":
    main()
