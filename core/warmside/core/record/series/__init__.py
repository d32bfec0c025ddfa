"""Append-only tables of many rows: how they are declared, written, stored and summed."""
