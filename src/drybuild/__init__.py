"""drybuild: the trial assembly of a classic car's rebuild, done on paper.

A build is a graph of named quantities; terminal, workbench and book are views of it.
Start reading at ``session.py``: it is the one door to everything below.
"""

__version__ = "0.1.0"
