"""Who may in: the phones that are paired, whose they are, the codes that pair them, the doors."""
