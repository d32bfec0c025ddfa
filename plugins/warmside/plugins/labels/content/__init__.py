"""What a label says: its code, its lines and who is on it; pure, before any layout."""
