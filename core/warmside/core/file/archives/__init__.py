"""The archive that outlives the program: written, read back, and what strangers put into it."""
