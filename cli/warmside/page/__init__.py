"""The page for the phone at the rack: a second front end over the requests of the command line.

It has no logic of its own: screens show answers, posts become requests. Synchronous, on one
collection that stays open; a browser needs no script for any of it.
"""
