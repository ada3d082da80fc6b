"""Alterations that somebody with the database in hands might make, each a change inside a transaction.

Each function picks its place by chance, makes the change, and says what it did. Hashes after it are left as they are,
or worked out anew (`rehash`), as somebody would do who knows how the chain is made.
"""

import json
import random
from collections.abc import Callable
from typing import Any

from sqlalchemy import Connection, Table, delete, select, update

from seamtag import models
from seamtag.database import Base
from seamtag.records import jws
from seamtag.sync import chain

LETTERS = "abcdefghijklmnopqrstuvwxyz0123456789"
ENTRY: Table = Base.metadata.tables["entry"]
RECORD: Table = Base.metadata.tables["record"]


def changed(value: Any, dice: random.Random) -> Any:
    """The value with one byte changed, or as little as its type lets."""
    if isinstance(value, bool):
        return not value
    if isinstance(value, int | float):
        return value + 1
    if isinstance(value, str):
        place = dice.randrange(len(value) + 1) if not value else dice.randrange(len(value))
        other = dice.choice([letter for letter in LETTERS if letter != value[place : place + 1]])
        return value[:place] + other + value[place + 1 :]
    if isinstance(value, list):
        return [*value[:-1], changed(value[-1], dice)] if value else ["x"]
    if isinstance(value, dict):
        name = dice.choice(sorted(value)) if value else "x"
        return {**value, name: changed(value.get(name) or "", dice)}
    return "x" if value is None else value


def a_row(connection: Connection, table: Table, dice: random.Random, where: Any = None) -> Any:
    query = select(table).order_by(*table.primary_key.columns)
    return dice.choice(connection.execute(query if where is None else query.where(where)).all())


def is_row(table: Table, row: Any) -> Any:
    key = next(iter(table.primary_key.columns))
    return key == getattr(row, key.name)


def entry_byte(connection: Connection, dice: random.Random) -> str:
    row = a_row(connection, ENTRY, dice)
    name = dice.choice(["body", "stamp", "hash", "kind", "scope"])
    connection.execute(update(ENTRY).where(is_row(ENTRY, row)).values({name: changed(getattr(row, name), dice)}))
    return f"one byte of {name} of entry {row.number}"


def entry_removed(connection: Connection, dice: random.Random) -> str:
    last = connection.execute(select(ENTRY.c.number).order_by(ENTRY.c.number.desc())).scalars().first()
    row = a_row(connection, ENTRY, dice, ENTRY.c.number < last)
    connection.execute(delete(ENTRY).where(is_row(ENTRY, row)))
    connection.execute(delete(RECORD).where(RECORD.c.number == row.number))
    return f"entry {row.number} removed, with its record"


def entry_altered_and_hashed_anew(connection: Connection, dice: random.Random) -> str:
    """A record's bytes, its stamp or its job, and every hash after it: only signatures and what phones saw tell."""
    row = a_row(connection, ENTRY, dice, ENTRY.c.kind == "record")
    name = dice.choice(["body", "stamp", "scope"])
    connection.execute(update(ENTRY).where(is_row(ENTRY, row)).values({name: changed(getattr(row, name), dice)}))
    rehash(connection)
    return f"{name} of entry {row.number}, and every hash after it"


def stamp_forged(connection: Connection, dice: random.Random) -> str:
    """When a record came in, in its stamp, in its row and in every hash after it: only what phones saw later tells."""
    last = connection.execute(select(ENTRY.c.body).order_by(ENTRY.c.number.desc())).scalars().first()
    seen = jws.decode(str(last)).payload["seen"]["number"]
    row = a_row(connection, ENTRY, dice, (ENTRY.c.kind == "record") & (ENTRY.c.number <= seen))
    stamp = json.loads(row.stamp)
    stamp["at"] -= 1 + dice.randrange(3600)
    connection.execute(update(ENTRY).where(is_row(ENTRY, row)).values(stamp=chain.canonical(stamp)))
    connection.execute(update(RECORD).where(RECORD.c.number == row.number).values(received=stamp["at"]))
    rehash(connection)
    return f"entry {row.number} came in earlier, in all that says so"


def rehash(connection: Connection) -> None:
    previous = chain.START
    rows = connection.execute(select(ENTRY).order_by(ENTRY.c.number)).all()
    for row in rows:  # a hash is unique, so all give way first
        connection.execute(update(ENTRY).where(is_row(ENTRY, row)).values(hash=f"old {row.number}"))
    for row in rows:
        previous = chain.entry_hash(previous, row.number, row.kind, row.scope, row.body, row.stamp)
        connection.execute(update(ENTRY).where(is_row(ENTRY, row)).values(hash=previous))


def record_column(connection: Connection, dice: random.Random) -> str:
    row = a_row(connection, RECORD, dice)
    name = dice.choice(sorted(column.name for column in RECORD.columns if column.name not in ("number", "id")))
    return column_changed(connection, RECORD, row, name, dice)


def column_changed(connection: Connection, table: Table, row: Any, name: str, dice: random.Random) -> str:
    was = getattr(row, name)
    value = 1.0 if was is None and name in ("value_float", "past") else changed(was, dice)
    connection.execute(update(table).where(is_row(table, row)).values({name: value}))
    return f"{name} of {table.name} {row[0]}: {was!r} to {value!r}"


def record_removed(connection: Connection, dice: random.Random) -> str:
    row = a_row(connection, RECORD, dice)
    connection.execute(delete(RECORD).where(is_row(RECORD, row)))
    return f"row of record {row.id} removed"


def record_moved(connection: Connection, dice: random.Random) -> str:
    """To the chain of another key, another person, another job, or another place in the chain."""
    row = a_row(connection, RECORD, dice)
    other = a_row(connection, RECORD, dice, RECORD.c.kid != row.kid)
    what = dice.choice([{"kid": other.kid}, {"kid": other.kid, "by": other.by, "device": other.device},
                        {"job": "T2"}, {"seq": row.seq + 1}, {"prev": other.digest}])  # fmt: skip
    connection.execute(update(RECORD).where(is_row(RECORD, row)).values(what))
    return f"record {row.id} moved: {what}"


def entry_moved(connection: Connection, dice: random.Random) -> str:
    row = a_row(connection, ENTRY, dice, ENTRY.c.kind == "record")
    connection.execute(update(ENTRY).where(is_row(ENTRY, row)).values(scope="job:T2"))
    rehash(connection)
    return f"entry {row.number} moved to another job, and every hash after it"


def other_row(connection: Connection, dice: random.Random) -> str:
    """A flag, person, role, key, tag, plan, job, basis, piece or gauge."""
    chosen = (models.FlagRow, models.Person, models.RoleChange, models.Key, models.Tag, models.PlanRevision, models.Job,
              models.Basis, models.Piece, models.Gauge)  # fmt: skip
    table = Base.metadata.tables[dice.choice(chosen).__tablename__]
    row = a_row(connection, table, dice)
    if dice.random() < 0.2:
        connection.execute(delete(table).where(is_row(table, row)))
        return f"row {row[0]} of {table.name} removed"
    names = sorted(column.name for column in table.columns if not column.primary_key)
    return column_changed(connection, table, row, dice.choice(names), dice)


Alter = Callable[[Connection, random.Random], str]

ALTERATIONS: dict[str, tuple[Alter, int]] = {
    "a byte of an entry": (entry_byte, 45),
    "an entry removed from the middle": (entry_removed, 15),
    "an entry altered and all hashes made anew": (entry_altered_and_hashed_anew, 20),
    "an entry moved to another job": (entry_moved, 5),
    "a stamp forged with all that follows from it": (stamp_forged, 5),
    "a column of a record's row": (record_column, 40),
    "a record's row removed": (record_removed, 10),
    "a record moved to another key or job": (record_moved, 15),
    "a row of something else": (other_row, 45),
}
"""By what is done: how, and how often of two hundred."""
