"""The options' tables judged by a process of its own: kept by content, and found again.

It tells how far it is, for whoever started it and listens.
"""

from __future__ import annotations

import sys
from pathlib import Path

from drybuild.session import Session


def tell(done: int, total: int) -> None:
    """Say how far this process is."""
    sys.stdout.write(f"{done} {total}\n")
    sys.stdout.flush()


if __name__ == "__main__":
    Session.open(Path(sys.argv[1]), int(sys.argv[2])).tabulate(told=tell)
