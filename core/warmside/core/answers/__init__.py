"""Answers are values: the parts that a command returns and a report holds, before any face.

Add a part here and every face must render it: they dispatch exhaustively.
"""
