"""What a newly entered record means: a quarantine begins, or the record is refused; no book."""
