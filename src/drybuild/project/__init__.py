"""The person's files: what may stand in them, reading them, saving them in place.

Belongs here: sections and their fields, readings, text positions, edits, history. Does not:
sums (physics, quantities) or judgements (checks). To add a field, add a line to its section in
``<matter>.py``; to add a system or section, list its class in ``catalogue.py``.
"""
