"""The work: jobs, calendar, schedule, cost, discoveries, ten thousand runs of it.

Belongs here: a pure engine on its own frozen dataclasses (`jobs.Plan` in, figures out), in hours,
days since the start and money. Does not: files, readings, quantities, wording.
To add a kind of work: a field in ``jobs.py`` with its fault, its draw in ``sampling.py``, its
effect in ``simulate.py`` and ``baseline.py``, and a case that can be checked by hand.
"""
