"""What a phone sends, as the requests that the command line makes."""
