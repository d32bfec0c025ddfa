"""Who met whom: by the air of a room, by an enclosure, by the keeper's hands; no book."""
