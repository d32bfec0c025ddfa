"""Species, their figures with sources, and the life stage that follows from them."""
