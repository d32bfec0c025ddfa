"""How each unit is typed and shown, by subject; only `measure` may be imported by name outside."""
