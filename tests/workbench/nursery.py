"""A process that has the workbench loaded and, at each line it is sent, starts a server of it.

Each server is a process of its own (a fork), that runs the very `serve` of ``drybuild open`` over
the folder named; its number and address are printed. Starting Python anew 200 times would take
minutes and try nothing else.
"""

from __future__ import annotations

import os
import signal
import sys
from pathlib import Path

from drybuild.quantities.all import graph
from drybuild.workbench.serve import serve


def main(folder: str) -> None:
    """Start servers until the input ends."""
    graph()
    signal.signal(signal.SIGCHLD, signal.SIG_IGN)  # the dead leave nothing behind
    print("ready", flush=True)
    for _ in sys.stdin:
        if os.fork() == 0:
            signal.signal(signal.SIGCHLD, signal.SIG_DFL)

            def say(address: str) -> None:
                print(os.getpid(), address, flush=True)

            try:
                serve(Path(folder), port=0, browser=False, say=say)
            finally:
                os._exit(0)


if __name__ == "__main__":
    main(sys.argv[1])
