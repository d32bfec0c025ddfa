"""The JSON face: one object with stable keys in stored units."""
