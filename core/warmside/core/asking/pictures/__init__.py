"""Pictures as parts of answers: a subject's pictures as list, section and strip."""
