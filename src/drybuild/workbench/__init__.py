"""The local pages over one build: look, choose, change, print. Views and edits only, no sums.

Belongs here: what a browser is shown and what it may ask for. Does not: results, wording of
results (present), files (project). To add a page: a module in ``pages/`` with a `PAGE`, a
template, and a line in ``pages/__init__.py``.
"""
