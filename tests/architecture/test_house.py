"""The house keeps its order: floors, sizes, registries, sources, docstrings, lint and types."""

from __future__ import annotations

import ast
import importlib
import inspect
import re
import subprocess
import sys
from pathlib import Path
from types import ModuleType

import pytest

from drybuild.checks import all as checks_all
from drybuild.checks.all import standing_checks
from drybuild.cli import COMMANDS
from drybuild.quantities import all as quantities_all
from drybuild.quantities.all import graph
from drybuild.sources import source
from drybuild.tables.typical import typical_ranges

ROOT = Path(__file__).resolve().parents[2]
SRC = ROOT / "src" / "drybuild"
MODULES = sorted(SRC.rglob("*.py"))
VAGUE = {"utils", "helpers", "misc", "common"}


def tool(*words: str) -> None:
    """Run a tool of the environment on the checkout and show what it says when it fails."""
    done = subprocess.run(
        [sys.executable, "-m", *words], cwd=ROOT, capture_output=True, text=True, check=False
    )
    assert done.returncode == 0, done.stdout + done.stderr


def test_imports_flow_down_only() -> None:
    done = subprocess.run(
        [sys.executable, "-c", "from importlinter.cli import lint_imports_command as run; run()"],
        cwd=ROOT,
        capture_output=True,
        text=True,
        check=False,
    )
    assert done.returncode == 0, done.stdout + done.stderr


def test_lint_is_clean() -> None:
    tool("ruff", "check", ".")


def test_format_is_kept() -> None:
    tool("ruff", "format", "--check", ".")


def test_types_hold() -> None:
    tool("mypy")


@pytest.mark.parametrize("module", MODULES, ids=lambda path: str(path.relative_to(SRC)))
def test_modules_stay_small_and_named(module: Path) -> None:
    assert module.stem not in VAGUE
    assert len(module.read_text(encoding="utf-8").splitlines()) <= 600


@pytest.mark.parametrize("package", [path.parent for path in MODULES if path.name == "__init__.py"])
def test_every_room_says_what_belongs_there(package: Path) -> None:
    words = ast.get_docstring(ast.parse((package / "__init__.py").read_text(encoding="utf-8")))
    assert words
    assert len(words.splitlines()) < 15


@pytest.mark.parametrize(
    ("folder", "listed"),
    [("quantities", quantities_all.MODULES), ("checks", checks_all.MODULES)],
)
def test_registries_list_every_module(folder: str, listed: tuple[ModuleType, ...]) -> None:
    ours = {module.__name__.rpartition(".")[2] for module in listed}
    marks = {"quantities": "@quantity(", "checks": "CHECKS"}
    for path in (SRC / folder).glob("*.py"):
        if path.stem in ("__init__", "all", "quantity", "graph", "check", "must", "verdicts"):
            continue
        if marks[folder] in path.read_text(encoding="utf-8"):
            assert path.stem in ours, f"{path.name} is not listed in {folder}/all.py"


def test_every_command_has_its_file() -> None:
    for name in COMMANDS:
        module = importlib.import_module(f"drybuild.cli.{name}_command")
        assert module.command.help


def test_every_source_resolves() -> None:
    for one in graph().quantities.values():
        source(one.source)
    for check in standing_checks():
        source(check.source)
    assert typical_ranges()


def test_check_ids_stand_once_and_end_in_a_question() -> None:
    checks = standing_checks()
    ids = [check.id for check in checks]
    assert len(ids) == len(set(ids))
    for check in checks:
        assert check.asks.endswith("?")
        assert check.quantity in graph().quantities
        assert check.at_least or check.at_most


PHYSICS = sorted((SRC / "physics").rglob("*.py"))


def physics_functions() -> list[tuple[str, object]]:
    """Return every public function of the physics rooms."""
    found = []
    for path in PHYSICS:
        name = ".".join(path.relative_to(SRC.parent).with_suffix("").parts)
        module = importlib.import_module(name.removesuffix(".__init__"))
        for one, function in vars(module).items():
            ours = inspect.isfunction(function) and function.__module__ == module.__name__
            if ours and not one.startswith("_"):
                found.append((f"{name}.{one}", function))
    return found


@pytest.mark.parametrize("entry", physics_functions(), ids=lambda entry: entry[0])
def test_physics_docstrings_match_their_signatures(entry: tuple[str, object]) -> None:
    _, function = entry
    words = inspect.getdoc(function) or ""
    assert words, "a public physics function has a docstring"
    parameters = inspect.signature(function).parameters  # type: ignore[arg-type]  # a function
    for name, parameter in parameters.items():
        assert parameter.kind is inspect.Parameter.KEYWORD_ONLY, f"{name} must be keyword-only"
    if parameters:
        assert "Parameters\n----------" in words
        section = words.partition("Parameters\n----------\n")[2]
        section = re.split(r"\n\n[A-Z][a-z]+\n-+\n", section)[0]
        told = [
            one.strip()
            for line in re.findall(r"^(\w[\w, ]*) :", section, re.MULTILINE)
            for one in line.split(",")
        ]
        assert told == list(parameters)
