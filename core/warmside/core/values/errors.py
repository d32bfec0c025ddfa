"""What can go wrong, each with the exit code that the command line gives it.

The text is written for the keeper: what is wrong, with the value; what to do. Lower case, one line.
"""

from __future__ import annotations


class WarmsideError(Exception):
    """Something failed for a reason that the keeper can read."""

    exit_code = 1


class BadInput(WarmsideError):
    """A value that cannot be used."""

    exit_code = 2


class NotFound(WarmsideError):
    """No such animal, enclosure, event, species or plugin."""

    exit_code = 3


class Refused(WarmsideError):
    """Refused, or not confirmed."""

    exit_code = 4


class FileProblem(WarmsideError):
    """The collection file needs attention."""

    exit_code = 5


class Busy(WarmsideError):
    """Another program holds the file; trying again later helps."""

    exit_code = 75
