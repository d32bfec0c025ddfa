"""What goes with sheds that went wrong: counts in two groups; pure computation."""
