"""The core's revisions, read by Alembic."""
