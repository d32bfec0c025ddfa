"""Mathematics and reference data that more than one plugin needs; imports values only.

Plugins reach it through warmside.api.
"""
