"""Growth references in LMS form: scores, fits, files; pure computation."""
