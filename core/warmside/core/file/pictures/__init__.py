"""The pictures' folder beside the collection: where it is, what is in it, how it is changed."""
