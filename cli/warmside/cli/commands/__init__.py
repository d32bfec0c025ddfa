"""The commands of the core, one file a group."""
