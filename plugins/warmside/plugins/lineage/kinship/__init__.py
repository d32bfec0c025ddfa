"""Inbreeding and kinship: exact computing on a pedigree of plain numbers."""
