"""The HTML face: an answer as a fragment of a page, escaped by construction."""
