"""What is looked at when a file is checked, one matter a module."""
