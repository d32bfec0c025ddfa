"""One open collection at one moment: snapshots to read, steps to write.

The place where file, record and plugins meet; front ends start here.
"""
