"""See that the wheel and the source archive ship the bundle of the workbench's islands."""

from __future__ import annotations

import sys
from pathlib import Path
from typing import Any

from hatchling.builders.hooks.plugin.interface import BuildHookInterface

sys.path.insert(0, str(Path(__file__).resolve().parent))

from islands import bundle


class Islands(BuildHookInterface):
    """Make the bundle before anything is packed."""

    PLUGIN_NAME = "custom"

    def initialize(self, version: str, build_data: dict[str, Any]) -> None:
        """Make it if it is not fresh; an editable install takes what set-up makes."""
        if version == "editable":
            return
        try:
            bundle.make(bundle.quietly)
        except bundle.BundleError as fault:
            words = (
                "The workbench's islands are not bundled and cannot be: run `python3 start.py`, "
                "or install node with npm. The reason was: "
            )
            raise SystemExit(words + str(fault)) from fault
