"""What is odd about a reading that was typed; pure computation."""
