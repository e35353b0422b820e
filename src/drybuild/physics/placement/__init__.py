"""Where something is best put among what stands round it: the place with most room to spare.

Belongs here: the question (`question`), a quick look at many places (`screen`, `ranking`), the
climb from one place (`climb`, `programme`), the search over all (`search`), what to alter where no
place will do (`alterations`), the propshaft's line (`shaft_line`), room to take a part out
(`access`). Does not: files, readings, costs. Distances come from `physics.solids`.
"""
