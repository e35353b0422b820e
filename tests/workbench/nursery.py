"""A process that has the workbench loaded and starts a server of it for each folder it is sent.

Each server is a process of its own (a fork), that runs the very `serve` of ``drybuild open`` over
the folder named in a line; its number and address are printed. Starting Python anew 200 times
would take minutes and try nothing else. What a server works out beside the saving writes nothing
into the folder; it is put off, so that most of the time goes into edits.
"""

from __future__ import annotations

import os
import signal
import sys
from pathlib import Path

from drybuild.quantities.all import graph
from drybuild.workbench import desk
from drybuild.workbench.serve import serve


def main() -> None:
    """Start servers until the input ends."""
    desk.FIRST_LOOK, desk.PAUSE = 0.0, 60.0
    graph()
    signal.signal(signal.SIGCHLD, signal.SIG_IGN)  # the dead leave nothing behind
    print("ready", flush=True)
    for folder in sys.stdin:
        if os.fork() == 0:
            signal.signal(signal.SIGCHLD, signal.SIG_DFL)

            def say(address: str) -> None:
                print(os.getpid(), address, flush=True)

            try:
                serve(Path(folder.rstrip("\n")), port=0, browser=False, say=say)
            finally:
                os._exit(0)


if __name__ == "__main__":
    main()
