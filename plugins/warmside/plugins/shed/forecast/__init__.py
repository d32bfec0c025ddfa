"""The next shed from the intervals between sheds; pure computation."""
