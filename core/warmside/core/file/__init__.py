"""The collection file: state, opening, backup, restoring, archive, checking.

Only sqlite3 may open the collection file; every room that needs it asks here.
"""
