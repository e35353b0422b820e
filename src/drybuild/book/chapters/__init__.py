"""Chapters of the book, one function each: a session in, a `Chapter` out.

Belongs here: what stands in a chapter and in which order. Does not: sums or number formats.
"""
