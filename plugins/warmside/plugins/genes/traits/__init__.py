"""What the trade calls traits: catalogues by species, and the words for what an animal carries."""
