"""Test helpers for plugin writers: a collection in a temporary file, a clock, whole checks.

def test_a_task(tmp_path):
    keeper = new_keeper(tmp_path, plugins=["myplugin"])
    keeper.run("enclosure", "add", "Shelf")
    keeper.run("animal", "add", "Ember", "--species", "ball python", "--enclosure", "SHE")
    keeper.pass_days(8)
    assert keeper.json("today")["tasks"][0]["what"] == "mist"
"""

from warmside.testing.checked import check_plugin
from warmside.testing.keeper import NOON, Keeper, Result, copy_of, new_keeper
from warmside.testing.throw_away import throw_away_plugin

__all__ = [
    "NOON",
    "Keeper",
    "Result",
    "check_plugin",
    "copy_of",
    "new_keeper",
    "throw_away_plugin",
]
