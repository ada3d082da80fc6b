"""Alembic runs this with the application's own connection."""

from alembic import context

from seamtag import models  # noqa: F401
from seamtag.database import Base

connection = context.config.attributes["connection"]
context.configure(connection=connection, target_metadata=Base.metadata, render_as_batch=True)
with context.begin_transaction():
    context.run_migrations()
connection.commit()
