"""Pure functions on SI floats and arrays: one module a matter, one function a published method.

Belongs here: equations. Does not: tables, files, readings, defaults for physical inputs.
To add one: keyword-only parameters, words for names, `require` at the head, a numpydoc docstring
with units in brackets and the reference, and a test against that reference in ``tests/truth``.
"""
