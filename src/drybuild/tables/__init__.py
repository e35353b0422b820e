"""Published data as CSV files with a unit row and a source column, and their typed readers.

Belongs here: what a document prints. Does not: formulas, or values that drybuild computed.
To add one: ``<matter>.csv`` with columns ``source_id, locator`` last and a second row of units,
and a reader in ``<matter>.py`` that goes through `read_table`.
"""
