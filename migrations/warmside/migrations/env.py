"""Alembic's environment for every lineage; only ever run through runner.py."""

from alembic import context

attributes = context.config.attributes
context.configure(connection=attributes["connection"], **attributes["configure"])
with context.begin_transaction():
    context.run_migrations()
