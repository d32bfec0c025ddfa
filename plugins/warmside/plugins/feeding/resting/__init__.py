"""A winter rest as a planned period: its days, who may rest, what it asks for, its loss."""
