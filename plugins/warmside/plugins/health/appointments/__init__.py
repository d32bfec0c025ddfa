"""Appointments at a vet's, and what they ask for until the animal was there."""
