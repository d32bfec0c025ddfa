"""Eggs in the incubator: how many are left, when they hatch, when to look at them. Pure."""
