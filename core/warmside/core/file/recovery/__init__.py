"""What can still be read of a damaged file and of its copies, put together as a new one."""
