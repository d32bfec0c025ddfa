"""What an animal's weighings say: doubts, meals taken off, signs, what is due; pure computation."""
