"""How a species or one animal is fed: shipped rows, the keeper's rules and values, cautions."""
