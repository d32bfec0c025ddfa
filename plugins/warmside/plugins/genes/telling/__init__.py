"""Telling of genes in words, tables and charts."""
