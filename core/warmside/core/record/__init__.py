"""The record: its tables, the book that reads, the steps that write, undo, and what events imply.

Only this room and migrations know the tables; all writes go through a step.
"""
