"""Named quantities, one module a matter: a few lines each that bind the build to physics.

Belongs here: functions under ``@quantity`` or ``@step``. Does not: equations (physics), limits
(checks). To add one: write it in ``<matter>.py``; a new module gets a line in ``all.py``.
"""
