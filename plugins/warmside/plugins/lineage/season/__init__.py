"""A female's season: what was seen of it, when she is to lay, whether she is fit for it. Pure."""
