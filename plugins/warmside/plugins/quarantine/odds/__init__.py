"""What negative tests mean, from published figures or a laboratory's own; no book."""
