"""Plans, balances, stock and orders as parts of an answer."""
