"""What the plugin asks for: the end of loans, pairs, nests, eggs, the first weeks of young."""
