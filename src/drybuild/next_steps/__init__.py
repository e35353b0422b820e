"""What to do next: measure, inspect, decide, order, ranked by what it is worth.

Belongs here: the value of information, and the list of steps made with it. Does not: wording for a
page, the sums themselves.
To add a kind of step: a function in its own module that returns `Step`s, and one line in
``advise.py``.
"""
