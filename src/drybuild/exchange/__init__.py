"""The build in other people's hands: a file to show them, their replies taken over after review.

Belongs here: what is shown of a build to others, what a reply may say, what taking it would do.
Does not: pages, commands, how entries are written (project).
"""
