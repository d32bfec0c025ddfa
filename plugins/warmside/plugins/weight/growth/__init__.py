"""An animal's own growth curve; pure computation."""
