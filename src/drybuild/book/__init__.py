"""The build book: chapters of words, tables and figures, set as PDF and as one HTML file.

Belongs here: what stands in which chapter, and the two settings of it. Does not: sums, number
formats, plots (present). To add a chapter: a function in ``chapters/`` that takes a session and
returns a `Chapter`, and a line in ``contents.py``.
"""
