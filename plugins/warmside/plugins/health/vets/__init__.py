"""The vets that the keeper may call, and what is said of each."""
