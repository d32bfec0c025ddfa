"""Courses of treatment as a vet ordered them: their doses on the clock, and what came of them."""
