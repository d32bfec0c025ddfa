"""Plugins that ship with warmside; each uses what a third party could use."""
