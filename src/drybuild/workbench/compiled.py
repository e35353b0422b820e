"""Templates as compiled, kept between runs: compiling them takes longer than the first page."""

from __future__ import annotations

import contextlib
import hashlib
import shutil
from pathlib import Path

import jinja2
import jinja2.bccache
import jinja2.compiler

from drybuild.keeping import usual_folder


class Compiled(jinja2.FileSystemBytecodeCache):
    """Compiled templates on disk; where they cannot be kept, they are compiled each time."""

    def load_bytecode(self, bucket: jinja2.bccache.Bucket) -> None:
        """Fetch a template as compiled from the same text."""
        with contextlib.suppress(OSError):
            super().load_bytecode(bucket)

    def dump_bytecode(self, bucket: jinja2.bccache.Bucket) -> None:
        """Keep a template as compiled."""
        with contextlib.suppress(OSError):
            super().dump_bytecode(bucket)


def compiled_templates(*made_by: str) -> Compiled:
    """Return what was compiled by the same program.

    Parameters
    ----------
    made_by : str
        The program's files that have a say in how a template is compiled: its settings, and
        filters that are applied once and for all to what never changes.

    """
    stats = [Path(one).stat() for one in (jinja2.compiler.__file__, *made_by)]
    seen = repr([(one.st_size, one.st_mtime_ns) for one in stats])
    room = usual_folder() / "templates"
    folder = room / hashlib.blake2b(seen.encode(), digest_size=8).hexdigest()
    with contextlib.suppress(OSError):
        if not folder.is_dir():
            shutil.rmtree(room, ignore_errors=True)  # what an older program kept
            folder.mkdir(parents=True)
    return Compiled(str(folder))
