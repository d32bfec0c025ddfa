"""What the commands answer, as parts that any face renders."""
