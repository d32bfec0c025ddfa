"""Requests that write: each a plain value, and the function that makes it a step and an answer.

Every front end builds the same requests; nothing here knows which one it was.
"""
