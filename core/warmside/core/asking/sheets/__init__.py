"""Sheets for other people: the vet, a sitter, the next owner, and whoever helps in an emergency."""
