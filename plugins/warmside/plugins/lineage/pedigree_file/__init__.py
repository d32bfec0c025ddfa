"""A pedigree as a CSV file: its rows, and what of them is new to the record."""
