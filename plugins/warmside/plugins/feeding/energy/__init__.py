"""What a reptile burns by mass and temperature; numbers in, numbers out."""
