"""A keeper's spreadsheet as events: its rows, its mapping, the plan of an import.

Pure up to the plan; the writing is a step like any other.
"""
