"""Write the pairs of units that the examples need into the package: ``python docs/keep_units.py``.

They are worked out anew by pint. A test holds each against it, so the file cannot go stale unseen.
"""

from __future__ import annotations

import json
import os
import subprocess
import sys
import tempfile
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
TARGET = ROOT / "src" / "drybuild" / "unit_pairs.json"
COMMANDS = ("check", "quantities", "next", "schedule", "options", "brakes", "fit", "body", "shell")


def main() -> None:
    """Run the commands on every example, in both kinds of units, and keep what they asked for."""
    TARGET.unlink(missing_ok=True)
    with tempfile.TemporaryDirectory() as folder:
        around = {**os.environ, "DRYBUILD_CACHE": folder}
        for example in sorted((ROOT / "examples").iterdir()):
            for command in COMMANDS:
                run(command, str(example), around=around)
            run("book", str(example), "--output", folder, around=around)
        (kept,) = Path(folder).glob("units-*.json")
        pairs = json.loads(kept.read_text(encoding="utf-8"))["pairs"]
    lines = ",\n".join(f"{json.dumps(key)}: {json.dumps(pairs[key])}" for key in sorted(pairs))
    TARGET.write_text("{\n" + lines + "\n}\n", encoding="utf-8")
    sys.stdout.write(f"{TARGET}: {len(pairs)} pairs\n")


def run(*words: str, around: dict[str, str]) -> None:
    """Run a command; what it prints is of no use here."""
    quiet = subprocess.DEVNULL
    command = [sys.executable, "-m", "drybuild", *words]
    subprocess.run(command, env=around, stdout=quiet, stderr=quiet, check=False)


if __name__ == "__main__":
    main()
