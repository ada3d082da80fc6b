"""The database: SQLite by default, PostgreSQL by its URL; one writing transaction at a time."""

import sqlite3
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

import alembic.command
import alembic.config
from flask import Flask
from flask_sqlalchemy import SQLAlchemy
from sqlalchemy import Connection, Engine, MetaData, event, text
from sqlalchemy.orm import DeclarativeBase, Session

WRITER = 5_417_233
"""Key of PostgreSQL's advisory lock that every transaction takes which writes feed or chain."""
PATIENCE = 10_000
"""Milliseconds that a transaction waits for another to end its writing; then the server says that it is busy."""


class Base(DeclarativeBase):
    metadata = MetaData(
        naming_convention={
            "ix": "ix_%(table_name)s_%(column_0_N_name)s",
            "uq": "uq_%(table_name)s_%(column_0_N_name)s",
            "fk": "fk_%(table_name)s_%(column_0_N_name)s",
            "pk": "pk_%(table_name)s",
        }
    )


db = SQLAlchemy(model_class=Base)


@contextmanager
def writing() -> Iterator[Session]:
    """The session inside one writing transaction, committed at the end, rolled back at an exception.

    SQLite takes its write lock at once (BEGIN IMMEDIATE): a reader that turns writer half way is refused without
    waiting. On PostgreSQL the advisory lock is the first statement that sees any data. Raises OperationalError where
    the lock is not to be had within PATIENCE.
    """
    session = db.session()
    session.rollback()
    connection = session.connection(execution_options={"writing": True})
    if connection.dialect.name == "postgresql":
        connection.execute(text(f"SET LOCAL lock_timeout = {PATIENCE}"))
        connection.execute(text("SELECT pg_advisory_xact_lock(:key)"), {"key": WRITER})
    try:
        yield session
        session.commit()
    except BaseException:
        session.rollback()
        raise


@event.listens_for(Engine, "connect")
def set_up_sqlite(connection: Any, _: Any) -> None:
    if not isinstance(connection, sqlite3.Connection):
        return
    connection.isolation_level = None
    for pragma in ("journal_mode=WAL", "synchronous=FULL", "foreign_keys=ON", f"busy_timeout={PATIENCE}"):
        connection.execute(f"PRAGMA {pragma}")


@event.listens_for(Engine, "begin")
def begin_sqlite(connection: Connection) -> None:
    if connection.dialect.name == "sqlite":
        writes = connection.get_execution_options().get("writing")
        connection.exec_driver_sql("BEGIN IMMEDIATE" if writes else "BEGIN")


def migrate(app: Flask) -> None:
    """Bring the database of an application to the newest schema."""
    config = alembic.config.Config()
    config.set_main_option("script_location", str(Path(__file__).parent / "migrations"))
    with app.app_context(), db.engine.connect() as connection:
        config.attributes["connection"] = connection
        alembic.command.upgrade(config, "head")
