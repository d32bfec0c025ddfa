"""What the record holds of marks and documents."""
