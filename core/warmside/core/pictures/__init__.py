"""Photos and papers before they are kept: told by their content, made upright and clean.

Nothing here opens a file or knows the record; bytes go in and bytes come out.
"""
