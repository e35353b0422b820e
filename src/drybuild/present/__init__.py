"""Wording, number formats in the person's units, JSON forms, tables, drawings and plots.

Belongs here: how a result looks. Does not: results themselves, pages, PDF layout. To add a view,
add a module that takes results and returns text, data or SVG.
"""
