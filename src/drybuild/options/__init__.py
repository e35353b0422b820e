"""Which options go together: what remains, what a pick rules out, why, and what is best.

Belongs here: combinatorics on plain data (`network`, `order`, `automaton`, `diagram`, `queries`,
`conflicts`, `fallback`, `pareto`), and the two modules that bind it to a build (`tables`,
`chooser`). Does not: physics, wording beyond a reason's text, files.
To add a query: a function of a `Diagram` in ``queries.py`` with a brute-force test beside it.
"""
