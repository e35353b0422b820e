"""``python -m drybuild``."""

from drybuild.cli import main

main(prog_name="drybuild")
