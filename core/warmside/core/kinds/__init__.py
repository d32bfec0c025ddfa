"""Kinds of event, each declared once, and those that the core shares with all plugins.

A shared kind may gain optional fields; what it has must stay readable.
"""
